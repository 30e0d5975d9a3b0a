import type { Outcome, Specimens } from '../../../src/core/fatigue/index.ts';

/** Reading the tables of published and recomputed values; sources stand in the tables. */

interface Tolerance { readonly kind: string; readonly value: number }
interface Expected { readonly value: unknown; readonly tolerance: Tolerance }
interface TableCase {
  readonly id: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: Readonly<Record<string, Expected | undefined>>;
  readonly recomputed: Readonly<Record<string, unknown>>;
}
interface DataSet { readonly columns: readonly string[]; readonly rows: readonly (readonly number[])[] }
export interface Table { readonly cases: readonly unknown[]; readonly data: Readonly<Record<string, DataSet | undefined>> }

function isCase(candidate: unknown): candidate is TableCase {
  return typeof candidate === 'object' && candidate !== null && 'id' in candidate && 'expected' in candidate;
}

function flat(value: unknown): readonly number[] {
  return [value].flat(3).map((entry) => {
    if (typeof entry !== 'number') throw new Error(`${String(entry)} is no number`);
    return entry;
  });
}

export function caseOf(table: Table, id: string) {
  const found = table.cases.filter(isCase).find((one) => one.id === id);
  if (found === undefined) throw new Error(`the table has no case ${id}`);
  return {
    id,
    input: (name: string): unknown => found.inputs[name],
    expects: (name: string): boolean => name in found.expected,
    /** Values outside the stated tolerance of the printed value; element by element. */
    missed: (name: string, got: number | readonly number[]): readonly string[] => {
      const expected = found.expected[name];
      if (expected === undefined) throw new Error(`${id} expects no ${name}`);
      return outside(name, flat(expected.value), [got].flat(), expected.tolerance);
    },
    /** The same against the full-precision recomputation, at a relative tolerance. */
    missedRecomputed: (name: string, got: number | readonly number[], relative: number): readonly string[] =>
      outside(name, flat(found.recomputed[name]), [got].flat(), { kind: 'relative', value: relative }),
  };
}

function outside(name: string, expected: readonly number[], got: readonly number[], { kind, value }: Tolerance): readonly string[] {
  if (got.length !== expected.length) throw new Error(`${expected.length} values of ${name} are expected`);
  return expected.flatMap((entry, i) => {
    const allowed = kind === 'relative' ? value * Math.abs(entry) || 1e-12 : value;
    const reached = got[i] ?? Number.NaN;
    return Math.abs(reached - entry) <= allowed ? [] : [`${name}[${i}]: ${reached} instead of ${entry} ± ${allowed}`];
  });
}

export function column(table: Table, data: string, name: string): readonly number[] {
  const set = table.data[data];
  const place = set?.columns.indexOf(name) ?? -1;
  if (set === undefined || place < 0 || set.rows.length < 3) throw new Error(`no column ${name} in ${data}`);
  return set.rows.map((row) => row[place] ?? Number.NaN);
}

/** Specimens from a set's columns of stress, life and, where named, failed (1) or not (0). */
export function specimensOf(table: Table, data: string, stress: string, life: string, failed?: string): Specimens {
  const outcomes = failed === undefined ? undefined : column(table, data, failed).map((one): Outcome => (one === 1 ? 'fracture' : 'runout'));
  return { stressMpa: column(table, data, stress), cycles: column(table, data, life), ...(outcomes === undefined ? {} : { outcomes }) };
}

/** The value of a result that is expected to be one. */
export function valueOf<T>(result: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: { readonly what: string } }): T {
  if (!result.ok) throw new Error(result.problem.what);
  return result.value;
}

/** The problem's code, or undefined where there is a value. */
export function codeOf(result: { readonly ok: boolean; readonly problem?: { readonly code: string } }): string | undefined {
  return result.problem?.code;
}
