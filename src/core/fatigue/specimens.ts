import { fail, ok, type Problem, type Result } from '../problem/index.ts';
import { remembered, rememberedByName, whenAsked } from '../remembered/index.ts';
import { momentsOf, numberValues, type Numbering, type RowValues } from '../rows/index.ts';
import * as problems from './problems.ts';
import type { LifeDistribution, LineFit, Replication, ReplicationClass, Specimens } from './types.ts';

/** The specimens that a fit may use, with X and Y worked out, as columns. */
export interface Observed {
  /** Place in the table that was given of each specimen; absent where that is its own. */
  readonly rows?: Uint32Array;
  readonly stressMpa: Float64Array;
  readonly cycles: Float64Array;
  /** Worked out when it is first read: a long line never asks for it. */
  readonly log10Cycles: Float64Array;
  readonly censored: Uint8Array;
  /** The level of each, by any name; the stress itself where none are given. */
  readonly level: RowValues;
  /** Lowest and highest stress, MPa, and life, cycles. */
  readonly tested: LineFit['tested'];
  readonly failures: number;
  readonly runouts: number;
  readonly invalid: number;
  /** Specimens that each entry stands for, where equal ones were merged; one each where absent. */
  readonly weights?: Float64Array;
  /** Sum of squares of log10 lives about their means within merged entries. */
  readonly within?: number;
}

/** The valid rows of the table, or why one of them can't be used. The only conditions are S > 0 and N > 0, both finite. Columns are read where they lie, if they can be. */
export const readSpecimens = remembered(({ stressMpa, cycles, outcomes, levels }: Specimens): Result<Observed> => {
  const { length } = stressMpa;
  if (cycles.length !== length || (outcomes !== undefined && outcomes.length !== length)) return fail(problems.columnsUneven());
  const invalid = outcomes?.reduce((sum, outcome) => (outcome === 'invalid' ? sum + 1 : sum), 0) ?? 0;
  const [count, used] = [length - invalid, invalid === 0 ? undefined : placesWhere(length, (row) => outcomes?.[row] !== 'invalid')];
  const censored = new Uint8Array(count);
  let runouts = 0;
  for (let i = 0; i < count && outcomes !== undefined; i++) if (outcomes[used?.[i] ?? i] !== 'fracture') runouts += censored[i] = 1;
  const [stress, life] = [pick(stressMpa, used), pick(cycles, used)];
  const tested = Object.freeze({ stressMpa: rangeOf(stress), cycles: rangeOf(life) });
  if (!isPositive(tested.stressMpa) || !isPositive(tested.cycles)) return fail(firstProblem(stress, life, used));
  return ok(withLogLife({
    ...(used === undefined ? {} : { rows: used }), stressMpa: stress, cycles: life, censored,
    level: levels === undefined ? stress : Array.from(stress, (_, i) => levels[used?.[i] ?? i] ?? Number.NaN),
    failures: count - runouts, runouts, invalid, tested,
  }));
});

/** Places from 0 to before n for which `keeps` holds. */
function placesWhere(n: number, keeps: (place: number) => boolean): Uint32Array {
  const places = new Uint32Array(n);
  let count = 0;
  for (let place = 0; place < n; place++) if (keeps(place)) places[count++] = place;
  return places.subarray(0, count);
}

/** The entries of a column at these places; without places the column itself, as doubles. */
function pick(column: ArrayLike<number>, places: Uint32Array | undefined): Float64Array {
  if (places === undefined) return column instanceof Float64Array ? column : Float64Array.from(column);
  const picked = new Float64Array(places.length);
  for (let i = 0; i < picked.length; i++) picked[i] = column[places[i] as number] as number;
  return picked;
}

/** The place in the table that was given of a specimen. */
export function rowOf({ rows }: Pick<Observed, 'rows'>, specimen: number): number {
  return rows?.[specimen] ?? specimen;
}

function withLogLife(observed: Omit<Observed, 'log10Cycles'>): Observed {
  const logarithms = whenAsked(() => {
    const { cycles } = observed;
    const found = new Float64Array(cycles.length);
    for (let i = 0; i < found.length; i++) found[i] = Math.log10(cycles[i] as number);
    return found;
  });
  return { ...observed, get log10Cycles() { return logarithms(); } };
}

/** The same without its runouts and suspended tests, which stay counted. */
export const failuresOnly = remembered((observed: Observed): Observed => {
  if (observed.runouts === 0) return observed;
  const places = placesWhere(observed.cycles.length, (place) => observed.censored[place] === 0);
  const { level, weights } = observed;
  const [stressMpa, cycles] = [pick(observed.stressMpa, places), pick(observed.cycles, places)];
  const column = {
    stressMpa, cycles,
    rows: places.map((place) => rowOf(observed, place)),
    censored: new Uint8Array(places.length),
    level: level === observed.stressMpa ? stressMpa : Array.from(places, (place) => level[place] ?? Number.NaN),
    failures: places.length, runouts: observed.runouts, invalid: observed.invalid,
    tested: Object.freeze({ stressMpa: rangeOf(stressMpa), cycles: rangeOf(cycles) }),
  };
  // Entries that stand for several lives have the mean of their logarithms.
  if (weights === undefined) return withLogLife(column);
  return { ...column, log10Cycles: pick(observed.log10Cycles, places), weights: pick(weights, places), within: observed.within ?? 0 };
});

/** Number of its level, from 0, of each specimen, and how many levels there are. */
export const levelsOf = remembered(({ level }: Observed): Numbering => numberValues(level));

/** At how many stresses specimens broke, counted no further than to `most`. */
export function stressesUpTo(most: number, { stressMpa, censored }: Observed): number {
  const found = new Set<number>();
  for (let i = 0; i < stressMpa.length && found.size < most; i++) if (censored[i] === 0) found.add(stressMpa[i] as number);
  return found.size;
}

/** From here on a table is long: tables of laboratory classes have some tens of rows. */
const LONG = 1000;
export const isLong = ({ cycles }: Observed): boolean => cycles.length >= LONG;

/** Whether the specimens of a long table mostly have a stress of their own, by so many of them from all over it: then nothing is gained by merging. */
function isScattered(observed: Observed): boolean {
  const { stressMpa } = observed;
  const some = new Set(Array.from({ length: LONG }, (_, i) => stressMpa[Math.floor((i * stressMpa.length) / LONG)]));
  return isLong(observed) && some.size > 0.9 * LONG;
}

/**
 * The specimens with equal specimens merged, for a likelihood that does not change by it: runouts of one stress and life; for
 * lognormal lives also the failures of one stress, of which their mean and their squares about it say all (sufficient
 * statistics of the normal law). Failures of Weibull lives stay as they are. Entries of one stress come one after the other:
 * long tables of few stresses get short, or at least quick to sum over. A long table of many stresses stays as it is.
 */
export const merged = rememberedByName((observed: Observed, life: LifeDistribution): Observed => {
  if (isScattered(observed)) return observed;
  const { stressMpa, cycles, log10Cycles, censored, level, failures, runouts, invalid } = observed;
  const [stress, alike] = [numberValues(stressMpa), numberValues(cycles)];
  // One number for each runout's stress and life, below zero one for each stress whose failures are merged, and below these one for each failure.
  const groups = numberValues(cycles.map((_, i) => {
    const own = stress.numbers[i] as number;
    if (censored[i] !== 0) return own * alike.count + (alike.numbers[i] as number);
    return -1 - (life === 'lognormal' ? own : stress.count + i);
  }));
  const { first, count, mean, squares } = momentsOf(groups, log10Cycles);
  // By stress, failures first, then as they came: numbers sort faster than by a comparison.
  const rank = (place: number): number => 2 * (stress.numbers[place] as number) + (censored[place] as number);
  const order = Uint32Array.from(Float64Array.from(first, (place, group) => rank(place) * first.length + group).sort(), (value) => value % first.length);
  const places = order.map((group) => first[group] as number);
  const stresses = pick(stressMpa, places);
  return {
    stressMpa: stresses, cycles: pick(cycles, places), log10Cycles: pick(mean, order),
    rows: places.map((place) => rowOf(observed, place)), censored: Uint8Array.from(places, (place) => censored[place] as number),
    level: level === stressMpa ? stresses : Array.from(places, (place) => level[place] ?? Number.NaN),
    failures, runouts, invalid, tested: observed.tested,
    weights: pick(count, order),
    within: squares.reduce((sum, own) => sum + own, 0),
  };
});

/** Least and greatest of a column; NaN where it has one. Comparing by `if` would take three times as long. */
function rangeOf(column: Float64Array): readonly [low: number, high: number] {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < column.length; i++) {
    low = Math.min(low, column[i] as number);
    high = Math.max(high, column[i] as number);
  }
  return Object.freeze([low, high] as const);
}

/** Of a range; that of no values counts as one. */
function isPositive([low, high]: readonly [number, number]): boolean {
  return low > 0 && high < Infinity;
}

function firstProblem(stress: Float64Array, life: Float64Array, rows?: Uint32Array): Problem {
  const isGood = (value: number | undefined): boolean => value !== undefined && value > 0 && value < Infinity;
  const at = stress.findIndex((own, i) => !isGood(own) || !isGood(life[i]));
  return isGood(stress[at]) ? problems.cyclesNotPositive(rows?.[at] ?? at) : problems.stressNotPositive(rows?.[at] ?? at);
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
