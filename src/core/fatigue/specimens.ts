import { fail, ok, type Result } from '../problem/index.ts';
import { remembered } from '../remembered/index.ts';
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
export const readSpecimens = remembered((specimens: Specimens): Result<Sample> => readAnew(specimens));

function readAnew(specimens: Specimens): Result<Sample> {
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
  const before = brokenOf.get(sample);
  if (before !== undefined) return before;
  const places = new Uint32Array(sample.rows.length);
  let broken = 0;
  for (let place = 0; place < places.length; place++) if (sample.censored[place] === 0) places[broken++] = place;
  const some = picked(sample, places.slice(0, broken));
  brokenOf.set(sample, some);
  return some;
}

const brokenOf = new WeakMap<Sample, Sample>();

/** Some of a sample's specimens, by place in the sample; counts of runouts and invalid stay those of the table. */
function picked(sample: Sample, places: Uint32Array): Sample {
  const { weights } = sample;
  const n = places.length;
  const rows = new Uint32Array(n);
  const censored = new Uint8Array(n);
  const levels = new Int32Array(n);
  // One loop for each type of column: a loop over several types is many times as slow.
  for (let i = 0; i < n; i++) {
    const place = places[i] ?? 0;
    rows[i] = sample.rows[place] ?? 0;
    censored[i] = sample.censored[place] ?? 0;
    levels[i] = sample.levels[place] ?? 0;
  }
  return {
    ...sample,
    rows,
    stressMpa: pickedNumbers(sample.stressMpa, places),
    cycles: pickedNumbers(sample.cycles, places),
    log10Cycles: pickedNumbers(sample.log10Cycles, places),
    censored,
    ...renumbered(levels, sample.levelCount),
    failures: n - count(censored),
    ...(weights === undefined ? {} : { weights: pickedNumbers(weights, places) }),
  };
}

function pickedNumbers(column: Float64Array, places: Uint32Array): Float64Array {
  const values = new Float64Array(places.length);
  for (let i = 0; i < places.length; i++) values[i] = column[places[i] ?? 0] ?? 0;
  return values;
}

/** Numbers of levels without those that are not used any more, in order of first appearance. */
function renumbered(levels: Int32Array, before: number): { levels: Int32Array; levelCount: number } {
  const numbers = new Int32Array(before).fill(-1);
  let levelCount = 0;
  const next = levels.slice();
  for (let i = 0; i < levels.length; i++) {
    const old = levels[i] ?? 0;
    if (numbers[old] === -1) numbers[old] = levelCount++;
    next[i] = numbers[old] ?? 0;
  }
  return { levels: next, levelCount };
}

/**
 * The sample with equal specimens merged, for a likelihood that does not change by it: runouts of one stress and life; for
 * lognormal lives also the failures of one stress, of which their mean and their squares about it say all (sufficient
 * statistics of the normal law). Failures of Weibull lives stay as they are. Entries of one stress come one after the other:
 * long tables of few stresses get short, or at least quick to sum over.
 */
export function merged(sample: Sample, life: LifeDistribution): Sample {
  const before = mergedOf.get(sample)?.get(life);
  if (before !== undefined) return before;
  const { order, starts } = byStress(sample);
  const { censored, cycles, log10Cycles } = sample;
  const first: number[] = [];
  const counts: number[] = [];
  const means: number[] = [];
  let within = 0;
  const add = (place: number, count: number, mean: number): void => {
    first.push(place);
    counts.push(count);
    means.push(mean);
  };
  for (let level = 0; level + 1 < starts.length; level++) {
    const places = order.subarray(starts[level], starts[level + 1]);
    const broken = places.filter((place) => censored[place] === 0);
    if (life === 'lognormal' && broken.length > 0) {
      let sum = 0;
      for (let i = 0; i < broken.length; i++) sum += log10Cycles[broken[i] ?? 0] ?? 0;
      const mean = sum / broken.length;
      for (let i = 0; i < broken.length; i++) within += ((log10Cycles[broken[i] ?? 0] ?? 0) - mean) ** 2;
      add(broken[0] ?? 0, broken.length, mean);
    } else {
      for (let i = 0; i < broken.length; i++) add(broken[i] ?? 0, 1, log10Cycles[broken[i] ?? 0] ?? 0);
    }
    const runouts = new Map<number, number>();
    for (let i = 0; i < places.length && broken.length < places.length; i++) {
      const place = places[i] ?? 0;
      if (censored[place] === 0) continue;
      const entry = runouts.get(cycles[place] ?? 0);
      if (entry !== undefined) {
        counts[entry] = (counts[entry] ?? 0) + 1;
        continue;
      }
      runouts.set(cycles[place] ?? 0, first.length);
      add(place, 1, log10Cycles[place] ?? 0);
    }
  }
  const some: Sample = {
    ...picked(sample, Uint32Array.from(first)),
    failures: sample.failures, log10Cycles: Float64Array.from(means), weights: Float64Array.from(counts), within,
  };
  mergedOf.set(sample, new Map([...(mergedOf.get(sample) ?? []), [life, some]]));
  return some;
}

const mergedOf = new WeakMap<Sample, ReadonlyMap<LifeDistribution, Sample>>();

/** Places stress by stress, in order of first appearance; those of a stress as they lie, from each start to the next. */
function byStress({ stressMpa }: Sample): { order: Uint32Array; starts: Uint32Array } {
  const n = stressMpa.length;
  const numbers = new Map<number, number>();
  const level = new Uint32Array(n);
  for (let i = 0; i < n; i++) {
    const stress = stressMpa[i] ?? 0;
    const known = numbers.get(stress);
    level[i] = known ?? numbers.size;
    if (known === undefined) numbers.set(stress, numbers.size);
  }
  const starts = new Uint32Array(numbers.size + 1);
  for (let i = 0; i < n; i++) starts[(level[i] ?? 0) + 1] = (starts[(level[i] ?? 0) + 1] ?? 0) + 1;
  for (let k = 1; k < starts.length; k++) starts[k] = (starts[k] ?? 0) + (starts[k - 1] ?? 0);
  const next = starts.slice();
  const order = new Uint32Array(n);
  for (let i = 0; i < n; i++) {
    const at = next[level[i] ?? 0] ?? 0;
    order[at] = i;
    next[level[i] ?? 0] = at + 1;
  }
  return { order, starts };
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
