import { fail, ok, type Result } from '../problem/index.ts';
import { remembered, rememberedByName } from '../remembered/index.ts';
import { countRows, deriveColumn, filterRows, groupNumbers, groupRows, numbersOf, orderRows, placesOf, rollUp, rowsWith, rowTable, takeRows, type RowTable } from '../rows/index.ts';
import * as problems from './problems.ts';
import type { LifeDistribution, Replication, ReplicationClass, Specimens } from './types.ts';

/** The specimens that a fit may use, with X and Y worked out: rows of a table, and their columns as numbers. */
export interface Observed {
  /**
   * Its seen rows are the specimens; its columns `row`, `stressMpa`, `cycles`, `log10Cycles`, `censored`, `level`; `lognormal`
   * and `weibull`, in which specimens of one stress are the same where lives of that kind let them be merged; then also `weight`.
   */
  readonly table: RowTable;
  /** Place in the table that was given of each specimen. */
  readonly rows: Uint32Array;
  readonly stressMpa: Float64Array;
  readonly cycles: Float64Array;
  readonly log10Cycles: Float64Array;
  readonly censored: Uint8Array;
  readonly failures: number;
  readonly runouts: number;
  readonly invalid: number;
  /** Specimens that each entry stands for, where equal ones were merged; one each where absent. */
  readonly weights?: Float64Array;
  /** Sum of squares of log10 lives about their means within merged entries. */
  readonly within?: number;
}

/** The valid rows of the table, or why one of them can't be used. The only conditions are S > 0 and N > 0, both finite. */
export const readSpecimens = remembered(({ stressMpa, cycles, outcomes, levels }: Specimens): Result<Observed> => {
  const { length } = stressMpa;
  if (cycles.length !== length || (outcomes !== undefined && outcomes.length !== length)) return fail(problems.columnsUneven());
  const [stress, life] = [new Float64Array(stressMpa), new Float64Array(cycles)];
  const censored = stress.map((_, row) => ((outcomes?.[row] ?? 'fracture') === 'fracture' ? 0 : 1));
  const all = rowTable(new Map([
    ['row', stress.map((_, row) => row)],
    ['stressMpa', stress],
    ['cycles', life],
    ['log10Cycles', life.map(Math.log10)],
    ['censored', censored],
    ['lognormal', life.map((value, row) => (censored[row] === 0 ? 0 : value))],
    ['weibull', life.map((value, row) => (censored[row] === 0 ? -1 - row : value))],
    ['level', levels === undefined ? stress : Array.from<number | string>(levels)],
  ]));
  const valid = outcomes === undefined ? all : filterRows(all, (row) => outcomes[row] !== 'invalid');
  for (const row of placesOf(valid)) {
    if (!positive(stress[row])) return fail(problems.stressNotPositive(row));
    if (!positive(life[row])) return fail(problems.cyclesNotPositive(row));
  }
  const count = countRows(valid);
  const failures = countRows(rowsWith(valid, 'censored', 0));
  return ok({ ...columnsOf(valid), failures, runouts: count - failures, invalid: length - count });
});

/** The same without its runouts and suspended tests, which stay counted. */
export const failuresOnly = remembered((observed: Observed): Observed => {
  if (observed.runouts === 0) return observed;
  const table = rowsWith(observed.table, 'censored', 0);
  return { ...observed, ...columnsOf(table), failures: countRows(table), ...(observed.weights === undefined ? {} : { weights: numbersOf(table, 'weight') }) };
});

type Columns = Omit<Observed, 'failures' | 'runouts' | 'invalid' | 'weights' | 'within'>;

function columnsOf(table: RowTable): Columns {
  return {
    table,
    stressMpa: numbersOf(table, 'stressMpa'), cycles: numbersOf(table, 'cycles'), log10Cycles: numbersOf(table, 'log10Cycles'),
    rows: new Uint32Array(numbersOf(table, 'row')),
    censored: new Uint8Array(numbersOf(table, 'censored')),
  };
}

/** Number of its level, from 0, of each specimen, and how many levels there are. */
export const levelsOf = remembered(({ table }: Observed): { readonly levels: Int32Array; readonly count: number } => {
  const byLevel = groupRows(table, ['level']);
  return { levels: groupNumbers(byLevel), count: countRows(rollUp(byLevel)) };
});

/**
 * The specimens with equal specimens merged, for a likelihood that does not change by it: runouts of one stress and life; for
 * lognormal lives also the failures of one stress, of which their mean and their squares about it say all (sufficient
 * statistics of the normal law). Failures of Weibull lives stay as they are. Entries of one stress come one after the other:
 * long tables of few stresses get short, or at least quick to sum over.
 */
export const merged = rememberedByName((observed: Observed, life: LifeDistribution): Observed => {
  const groups = rollUp(groupRows(observed.table, ['stressMpa', 'censored', life]), 'log10Cycles');
  const first = deriveColumn(deriveColumn(takeRows(observed.table, numbersOf(groups, 'first')), 'log10Cycles', numbersOf(groups, 'mean')), 'weight', numbersOf(groups, 'count'));
  const stress = groupNumbers(groupRows(first, ['stressMpa']));
  const isCensored = numbersOf(first, 'censored');
  const table = orderRows(first, (a, b) => (stress[a] ?? 0) - (stress[b] ?? 0) || (isCensored[a] ?? 0) - (isCensored[b] ?? 0));
  const { failures, runouts, invalid } = observed;
  return {
    ...columnsOf(table), failures, runouts, invalid,
    weights: numbersOf(table, 'weight'),
    within: numbersOf(groups, 'squares').reduce((sum, squares) => sum + squares, 0),
  };
});

function positive(value: number | undefined): boolean {
  return value !== undefined && value > 0 && value < Infinity;
}

/** Lowest and highest stress, MPa, and life, cycles, of the specimens. */
export function testedRange(observed: Observed): { stressMpa: readonly [number, number]; cycles: readonly [number, number] } {
  const range = (column: Float64Array): readonly [number, number] =>
    Object.freeze([column.reduce((a, b) => Math.min(a, b), Infinity), column.reduce((a, b) => Math.max(a, b), 0)] as const);
  return Object.freeze({ stressMpa: range(observed.stressMpa), cycles: range(observed.cycles) });
}

/** Least number of specimens and percent replication for each use of the line, from the least demanding up. */
const REPLICATION_CLASSES: readonly { readonly use: ReplicationClass; readonly specimens: number; readonly percent: number }[] = [
  { use: 'preliminary', specimens: 6, percent: 17 },
  { use: 'research', specimens: 6, percent: 33 },
  { use: 'design', specimens: 12, percent: 50 },
  { use: 'reliability', specimens: 12, percent: 75 },
];

/**
 * Percent replication of so many specimens at so many levels, and the use it is enough for.
 * @source ASTM E739, 7.1 (definition and guidance; the guidance classes from memory).
 */
export function percentReplication(levels: number, specimens: number): Replication {
  const percent = specimens > 0 ? 100 * (1 - levels / specimens) : 0;
  // Guidance is in whole per cent: one third is 33 %.
  const enough = REPLICATION_CLASSES.filter((row) => specimens >= row.specimens && Math.round(percent) >= row.percent);
  return Object.freeze({ levels, specimens, percent, suitedFor: enough.at(-1)?.use ?? null });
}
