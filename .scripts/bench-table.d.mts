import type { Row } from '../tests/bench/harness.ts';

/** What one benchmark prints under one heading. */
export interface RunTable {
  readonly title: string;
  readonly rows: readonly Row[];
}

export function rowLines(rows: readonly Row[]): string[];
export function markdownOf(rows: readonly Row[]): string;
