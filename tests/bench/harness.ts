/**
 * What was measured as a table: ours, beside it a peer's in the same run, and what it should come to. One machine, one run: compare ratios, not
 * milliseconds. Benchmarks are no tests and nothing fails by them. `npm run bench` puts all tables of a run together.
 */
import { appendFileSync } from 'node:fs';
import { rowLines, type RunTable } from '../../.scripts/bench-table.mjs';

/** What something else gave for the same work. */
export interface Peer {
  readonly what: string;
  /** One entry a run, in the row's unit. */
  readonly times: readonly number[];
}

export interface Row {
  readonly what: string;
  /** One entry a run. */
  readonly times: readonly number[];
  /** Milliseconds where absent; of sizes and counts less is better, too. */
  readonly unit?: string;
  /** What the median should not pass. */
  readonly target?: number;
  readonly peer?: Peer;
  /** How many times the peer's median ours should not pass. */
  readonly ratioTarget?: number;
}

/** Times `once`, which gives its own milliseconds where it knows better than the clock around it. */
export async function measure(
  what: string,
  once: (run: number) => Promise<number | void> | number | void,
  { warmUp = 5, runs = 30, ...more }: { warmUp?: number; runs?: number } & Omit<Row, 'what' | 'times'> = {},
): Promise<Row> {
  const times: number[] = [];
  for (let run = 0; run < warmUp + runs; run += 1) {
    const begun = performance.now();
    const own = await once(run);
    const taken = own ?? performance.now() - begun;
    if (run >= warmUp) times.push(taken);
  }
  return { what, times, ...more };
}

/** The median of the times that were measured. */
export function middle(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;
}

/** Prints the rows, and hands them to `npm run bench` for the table of the whole run. */
export function printTable(title: string, rows: readonly Row[]): void {
  const table: RunTable = { title, rows };
  console.log(`\n${title}\n${rowLines(rows).join('\n')}`);
  const collected = process.env['SPANLIFE_BENCH_ROWS'];
  if (collected !== undefined) appendFileSync(collected, `${JSON.stringify(table)}\n`);
}

/** Tells, with the table of the whole run, what could not be compared and why. */
export function tellWithout(what: string, why: string): void {
  const said = `NOT COMPARED with ${what}: ${why}`;
  console.log(`\n!!! ${said}`);
  const collected = process.env['SPANLIFE_BENCH_ROWS'];
  if (collected !== undefined) appendFileSync(collected, `${JSON.stringify({ said })}\n`);
}
