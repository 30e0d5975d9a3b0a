import { fail, ok, type Result } from '../problem/index.ts';
import * as problems from './problems.ts';
import type { LifeDistribution, Replication, ReplicationClass, Specimens } from './types.ts';

/** The specimens that a fit may use, with X and Y worked out. */
export interface Sample {
  /** Place in the table of each specimen. */
  readonly rows: Uint32Array;
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
  /** Specimens that each entry stands for, where equal ones were merged; one each where absent. */
  readonly weights?: Float64Array;
  /** Sum of squares of log10 lives about their means within merged entries. */
  readonly within?: number;
}

/** The valid rows of the table, or why one of them can't be used. The only conditions are S > 0 and N > 0, both finite. */
export function readSpecimens(specimens: Specimens): Result<Sample> {
  const { stressMpa, cycles } = specimens;
  const length = stressMpa.length;
  const outcomes = specimens.outcomes;
  if (cycles.length !== length || (outcomes !== undefined && outcomes.length !== length)) return fail(problems.columnsUneven());
  const rows = new Uint32Array(length);
  let valid = 0;
  for (let row = 0; row < length; row++) {
    if (outcomes?.[row] === 'invalid') continue;
    if (!positive(stressMpa[row])) return fail(problems.stressNotPositive(row));
    if (!positive(cycles[row])) return fail(problems.cyclesNotPositive(row));
    rows[valid++] = row;
  }
  return ok(sampleOf(specimens, rows.slice(0, valid), length - valid));
}

/** The same sample without its runouts and suspended tests, which stay counted. */
export function failuresOnly(sample: Sample): Sample {
  if (sample.runouts === 0) return sample;
  const places = new Uint32Array(sample.rows.length);
  let broken = 0;
  for (let place = 0; place < places.length; place++) if (sample.censored[place] === 0) places[broken++] = place;
  return picked(sample, places.slice(0, broken));
}

/** Some of a sample's specimens, by place in the sample; counts of runouts and invalid stay those of the table. */
function picked(sample: Sample, places: Uint32Array): Sample {
  const of = (column: ArrayLike<number>): Float64Array => gathered(column, places);
  const censored = Uint8Array.from(of(sample.censored));
  const { levels, levelCount } = numbered(of(sample.levels));
  return {
    ...sample,
    rows: Uint32Array.from(of(sample.rows)),
    stressMpa: of(sample.stressMpa),
    cycles: of(sample.cycles),
    log10Cycles: of(sample.log10Cycles),
    censored,
    levels,
    levelCount,
    failures: places.length - count(censored),
    ...(sample.weights === undefined ? {} : { weights: of(sample.weights) }),
  };
}

/**
 * The sample with equal specimens merged, for a likelihood that does not change by it: runouts of one stress and life; for
 * lognormal lives also the failures of one stress, of which their mean and their squares about it say all (sufficient
 * statistics of the normal law). Failures of Weibull lives stay as they are. Entries of one stress come one after the other:
 * long tables of few stresses get short, or at least quick to sum over.
 */
export function merged(sample: Sample, life: LifeDistribution): Sample {
  const entries: Entry[] = [];
  for (const places of placesByStress(sample)) {
    const broken: Entry = { first: 0, count: 0, sum: 0 };
    const runouts = new Map<number, Entry>();
    for (const place of places) {
      const isBroken = sample.censored[place] === 0;
      const cycles = sample.cycles[place] ?? 0;
      const alike = isBroken ? (life === 'lognormal' ? broken : undefined) : runouts.get(cycles);
      const entry = alike ?? { first: place, count: 0, sum: 0 };
      if (entry.count === 0) {
        entry.first = place;
        entries.push(entry);
        if (!isBroken) runouts.set(cycles, entry);
      }
      entry.count++;
      entry.sum += sample.log10Cycles[place] ?? 0;
    }
  }
  const weights = Float64Array.from(entries, ({ count }) => count);
  const means = Float64Array.from(entries, (entry) => entry.sum / entry.count);
  const some = picked(sample, Uint32Array.from(entries, ({ first }) => first));
  return { ...some, failures: sample.failures, log10Cycles: means, weights, within: life === 'lognormal' ? squaresWithin(sample) : 0 };
}

interface Entry {
  first: number;
  count: number;
  sum: number;
}

function placesByStress({ stressMpa }: Sample): Iterable<readonly number[]> {
  const byStress = new Map<number, number[]>();
  for (let place = 0; place < stressMpa.length; place++) {
    const there = byStress.get(stressMpa[place] ?? 0);
    if (there === undefined) byStress.set(stressMpa[place] ?? 0, [place]);
    else there.push(place);
  }
  return byStress.values();
}

/** Squares of log10 lives of failures about the mean of their stress. */
function squaresWithin(sample: Sample): number {
  let squares = 0;
  for (const places of placesByStress(sample)) {
    const broken = places.filter((place) => sample.censored[place] === 0);
    const mean = broken.reduce((sum, place) => sum + (sample.log10Cycles[place] ?? 0), 0) / Math.max(1, broken.length);
    for (const place of broken) squares += ((sample.log10Cycles[place] ?? 0) - mean) ** 2;
  }
  return squares;
}

function sampleOf(specimens: Specimens, rows: Uint32Array, invalid: number): Sample {
  const { outcomes } = specimens;
  const censored = new Uint8Array(rows.length);
  for (let place = 0; place < rows.length; place++) censored[place] = (outcomes?.[rows[place] ?? 0] ?? 'fracture') === 'fracture' ? 0 : 1;
  const cycles = gathered(specimens.cycles, rows);
  const runouts = count(censored);
  return {
    rows,
    stressMpa: gathered(specimens.stressMpa, rows),
    cycles,
    log10Cycles: cycles.map((value) => Math.log10(value)),
    censored,
    ...numbered(labelsOf(specimens, rows)),
    failures: rows.length - runouts,
    runouts,
    invalid,
  };
}

/** The column's values at the places; a plain loop, since tables may have 10⁵ rows. */
function gathered(column: ArrayLike<number>, places: Uint32Array): Float64Array {
  const values = new Float64Array(places.length);
  for (let i = 0; i < places.length; i++) values[i] = column[places[i] ?? 0] ?? 0;
  return values;
}

function labelsOf({ levels, stressMpa }: Specimens, rows: Uint32Array): ArrayLike<number | string | undefined> {
  return levels === undefined ? gathered(stressMpa, rows) : Array.from(rows, (row) => levels[row]);
}

function numbered(labels: ArrayLike<number | string | undefined>): { levels: Int32Array; levelCount: number } {
  const known = new Map<number | string | undefined, number>();
  const levels = new Int32Array(labels.length);
  for (let place = 0; place < labels.length; place++) {
    const number = known.get(labels[place]) ?? known.size;
    if (number === known.size) known.set(labels[place], number);
    levels[place] = number;
  }
  return { levels, levelCount: known.size };
}

function count(flags: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < flags.length; i++) sum += flags[i] ?? 0;
  return sum;
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
