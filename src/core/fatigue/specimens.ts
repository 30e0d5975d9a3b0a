import { fail, ok, type Result } from '../problem/index.ts';
import * as problems from './problems.ts';
import type { Outcome, Replication, ReplicationClass, Specimens } from './types.ts';

/** The specimens that a fit may use, with X and Y worked out. */
export interface Sample {
  /** Place in the table of each specimen. */
  readonly rows: readonly number[];
  readonly stressMpa: Float64Array;
  readonly cycles: Float64Array;
  readonly log10Cycles: Float64Array;
  readonly censored: Uint8Array;
  /** Number of its level, from 0, of each specimen. */
  readonly levels: Int32Array;
  readonly levelCount: number;
  readonly failures: number;
  readonly runouts: number;
  readonly invalid: number;
}

/** The valid rows of the table, or why one of them can't be used. The only conditions are S > 0 and N > 0, both finite. */
export function readSpecimens(specimens: Specimens): Result<Sample> {
  const { stressMpa, cycles } = specimens;
  const length = stressMpa.length;
  const outcomes = specimens.outcomes;
  if (cycles.length !== length || (outcomes !== undefined && outcomes.length !== length)) return fail(problems.columnsUneven());
  const rows: number[] = [];
  for (let row = 0; row < length; row++) {
    if (outcomes?.[row] === 'invalid') continue;
    if (!positive(stressMpa[row])) return fail(problems.stressNotPositive(row));
    if (!positive(cycles[row])) return fail(problems.cyclesNotPositive(row));
    rows.push(row);
  }
  return ok(sampleOf(specimens, rows, length - rows.length));
}

/** The same sample without its runouts and suspended tests, which stay counted. */
export function failuresOnly(sample: Sample): Sample {
  if (sample.runouts === 0) return sample;
  return picked(sample, sample.rows.flatMap((_, place) => (sample.censored[place] === 1 ? [] : [place])));
}

/** Some of a sample's specimens, by place in the sample; counts of runouts and invalid stay those of the table. */
export function picked(sample: Sample, places: readonly number[]): Sample {
  const of = (column: ArrayLike<number>): Float64Array => gathered(column, places);
  const censored = Uint8Array.from(of(sample.censored));
  const { levels, levelCount } = numbered(places.map((place) => sample.levels[place] ?? 0));
  return {
    ...sample,
    rows: places.map((place) => sample.rows[place] ?? 0),
    stressMpa: of(sample.stressMpa),
    cycles: of(sample.cycles),
    log10Cycles: of(sample.log10Cycles),
    censored,
    levels,
    levelCount,
    failures: places.length - count(censored),
  };
}

function sampleOf(specimens: Specimens, rows: readonly number[], invalid: number): Sample {
  const outcome = (row: number): Outcome => specimens.outcomes?.[row] ?? 'fracture';
  const censored = new Uint8Array(rows.length);
  for (const [place, row] of rows.entries()) censored[place] = outcome(row) === 'fracture' ? 0 : 1;
  const cycles = gathered(specimens.cycles, rows);
  const runouts = count(censored);
  return {
    rows,
    stressMpa: gathered(specimens.stressMpa, rows),
    cycles,
    log10Cycles: cycles.map((value) => Math.log10(value)),
    censored,
    ...numbered(rows.map((row) => (specimens.levels ?? specimens.stressMpa)[row])),
    failures: rows.length - runouts,
    runouts,
    invalid,
  };
}

/** The column's values at the places; a plain loop, since tables may have 10⁵ rows. */
function gathered(column: ArrayLike<number>, places: readonly number[]): Float64Array {
  const values = new Float64Array(places.length);
  for (let i = 0; i < places.length; i++) values[i] = column[places[i] ?? 0] ?? 0;
  return values;
}

function numbered(labels: readonly (number | string | undefined)[]): { levels: Int32Array; levelCount: number } {
  const known = new Map<number | string | undefined, number>();
  const levels = new Int32Array(labels.length);
  for (const [place, label] of labels.entries()) {
    const number = known.get(label) ?? known.size;
    if (number === known.size) known.set(label, number);
    levels[place] = number;
  }
  return { levels, levelCount: known.size };
}

function count(flags: Uint8Array): number {
  return flags.reduce((sum, flag) => sum + flag, 0);
}

function positive(value: number | undefined): boolean {
  return value !== undefined && value > 0 && value < Infinity;
}

/** Lowest and highest stress, MPa, and life, cycles, of a sample. */
export function testedRange(sample: Sample): { stressMpa: readonly [number, number]; cycles: readonly [number, number] } {
  const range = (column: Float64Array): readonly [number, number] =>
    Object.freeze([column.reduce((a, b) => Math.min(a, b), Infinity), column.reduce((a, b) => Math.max(a, b), 0)] as const);
  return Object.freeze({ stressMpa: range(sample.stressMpa), cycles: range(sample.cycles) });
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
