import type { Expansion } from '../numeric/index.ts';
import { remembered } from '../remembered/index.ts';
import { Derivatives } from './derivatives.ts';
import { HALF_LOG_TWO_PI, logSurvivals } from './life-distribution.ts';
import type { LifeDistribution } from './types.ts';

/** Log lives, some only exceeded, on a linear predictor: y = design·β + s·ε. */
export interface CensoredLives {
  readonly life: LifeDistribution;
  /** log10 of the lives, from any zero. */
  readonly y: Float64Array;
  readonly censored: Uint8Array;
  /** Columns of the design; a censored specimen whose entries are not finite can't break and adds nothing. */
  readonly columns: readonly Float64Array[];
  /** Specimens that each entry stands for; one each where absent. */
  readonly weights?: Float64Array;
  /** Sum of squares of y within entries that stand for several lives of different length (lognormal only). */
  readonly within?: number;
}

/** Entries looked at together: their columns for the time being stay where the processor is quickest. */
const PART = 512;

/**
 * Logarithm of the likelihood with its derivatives to φ = (β/s, 1/s), by z = y/s − design·β/s. Of failures all that a trial point needs is summed once: lognormal ones
 * are as many rows as the design has columns and a sum of squares, of Weibull ones Σz is linear. What is left to every trial is the survival of entries: of lognormal
 * runouts, and of all Weibull lives, whose density is z less what their survival has.
 */
export function expandConcave(lives: CensoredLives, point: readonly number[]): Expansion {
  const size = point.length;
  const last = size - 1;
  const precision = point[last] ?? Number.NaN;
  const sums = new Derivatives(size);
  if (!(precision > 0)) return { value: -Infinity, gradient: sums.gradient(), hessian: sums.hessian() };
  const { failures, within, rows, linear, surviving } = summedOnce(lives);
  let value = -0.5 * within * precision * precision - (lives.life === 'lognormal' ? failures * HALF_LOG_TWO_PI : 0);
  for (const { weight, slopes } of rows) {
    const z = along(slopes, point);
    value -= 0.5 * weight * z * z;
    sums.add(slopes, -weight * z, -weight);
  }
  const straight = along(linear, point);
  for (let j = 0; j < size; j++) sums.addFirst(j, linear[j] as number);
  const survival = addSurvival(sums, lives.life, surviving, point);
  const ofScale = failures * Math.log(precision);
  sums.addMixed(last, last, -failures / precision ** 2 - within);
  sums.addFirst(last, failures / precision - within * precision);
  return {
    value: value + straight + survival + ofScale, gradient: sums.gradient(), hessian: sums.hessian(),
    size: Math.abs(value) + Math.abs(straight) + Math.abs(survival) + Math.abs(ofScale),
  };
}

/** z where it has these slopes to φ. */
function along(slopes: Float64Array, point: readonly number[]): number {
  let sum = 0;
  for (let j = 0; j < slopes.length; j++) sum += (slopes[j] as number) * (point[j] as number);
  return sum;
}

/** Entries by columns that z has as slopes to φ: of the design, with the minus sign left to the sums, and the lives. */
interface Entries {
  readonly columns: readonly Float64Array[];
  readonly y: Float64Array;
  readonly weights: Float64Array | undefined;
}

interface SummedOnce {
  /** So many specimens broke. */
  readonly failures: number;
  /** Sum of squares that no coefficients can explain. */
  readonly within: number;
  /** What else the squares of lognormal failures are, by the slopes of z to φ. */
  readonly rows: readonly { readonly weight: number; readonly slopes: Float64Array }[];
  /** Slopes of the sum of z of Weibull failures. */
  readonly linear: Float64Array;
  readonly surviving: Entries;
}

const summedOnce = remembered(({ life, y, censored, columns, weights, within = 0 }: CensoredLives): SummedOnce => {
  const size = columns.length;
  const linear = new Float64Array(size + 1);
  const squares = new SquaresByRows(size);
  const row = new Float64Array(size);
  const left = new Uint32Array(y.length);
  let [failures, count] = [0, 0];
  for (let i = 0; i < y.length; i++) {
    let isFinite = true;
    for (let j = 0; j < size; j++) isFinite &&= Number.isFinite((row[j] = (columns[j] as Float64Array)[i] as number));
    const isBroken = censored[i] === 0;
    if (isFinite && (!isBroken || life === 'weibull')) left[count++] = i;
    if (!isBroken) continue;
    const weight = weights === undefined ? 1 : (weights[i] as number);
    const own = y[i] as number;
    failures += weight;
    if (life === 'lognormal') squares.add(row, own, weight);
    else {
      for (let j = 0; j < size; j++) linear[j] = (linear[j] as number) - weight * (row[j] as number);
      linear[size] = (linear[size] as number) + weight * own;
    }
  }
  const places = left.subarray(0, count);
  return {
    failures, linear,
    within: within + squares.left,
    rows: life === 'lognormal' ? squares.rows() : [],
    surviving: { columns: columns.map((column) => pick(column, places)), y: pick(y, places), weights: weights === undefined ? undefined : pick(weights, places) },
  };
});

function pick(column: Float64Array, places: Uint32Array): Float64Array {
  if (places.length === column.length) return column;
  const picked = new Float64Array(places.length);
  for (let i = 0; i < picked.length; i++) picked[i] = column[places[i] as number] as number;
  return picked;
}

/**
 * Weighted squares Σ w·(y − design·β)² turned row by row into as many rows as there are coefficients and a rest, for every β: rotations without roots, as exact as a factorisation of
 * the whole.
 * @source Gentleman, Algorithm AS 75, Applied Statistics 23 (1974) 448; from memory.
 */
class SquaresByRows {
  readonly #size: number;
  readonly #weights: Float64Array;
  /** Row by row, the ones on the diagonal left out; lives last. */
  readonly #turned: readonly Float64Array[];
  left = 0;

  constructor(size: number) {
    this.#size = size;
    this.#weights = new Float64Array(size);
    this.#turned = Array.from({ length: size }, () => new Float64Array(size + 1));
  }

  /** @param row is used up */
  add(row: Float64Array, y: number, weight: number): void {
    const size = this.#size;
    let [life, share] = [y, weight];
    for (let i = 0; i < size && share !== 0; i++) {
      const first = row[i] as number;
      if (first === 0) continue;
      const turned = this.#turned[i] as Float64Array;
      const before = this.#weights[i] as number;
      const after = before + share * first * first;
      const [keep, take] = [before / after, (share * first) / after];
      this.#weights[i] = after;
      share *= keep;
      for (let k = i + 1; k < size; k++) {
        const entry = row[k] as number;
        row[k] = entry - first * (turned[k] as number);
        turned[k] = keep * (turned[k] as number) + take * entry;
      }
      const entry = life;
      life = entry - first * (turned[size] as number);
      turned[size] = keep * (turned[size] as number) + take * entry;
    }
    this.left += share * life * life;
  }

  rows(): SummedOnce['rows'] {
    return this.#turned.map((turned, i) => ({
      weight: this.#weights[i] as number,
      slopes: turned.map((entry, k) => (k === this.#size ? entry : k < i ? 0 : k === i ? -1 : -entry)),
    }));
  }
}

/** Adds the logarithms of the entries' survival, by their derivatives; returns their sum. */
function addSurvival(sums: Derivatives, life: LifeDistribution, { columns, y, weights }: Entries, point: readonly number[]): number {
  const last = columns.length;
  const terms = { value: new Float64Array(PART), slope: new Float64Array(PART), curvature: new Float64Array(PART) };
  const z = new Float64Array(PART);
  let total = 0;
  for (let from = 0; from < y.length; from += PART) {
    const count = Math.min(PART, y.length - from);
    const part = (column: Float64Array): Float64Array => column.subarray(from, from + count);
    const [lives, rows] = [part(y), columns.map(part)];
    const precision = point[last] as number;
    for (let i = 0; i < count; i++) z[i] = precision * (lives[i] as number);
    for (let j = 0; j < last; j++) addTimes(z, rows[j] as Float64Array, -(point[j] as number));
    logSurvivals(life, z, count, terms);
    if (weights !== undefined) weigh(terms, part(weights));
    for (let i = 0; i < count; i++) total += terms.value[i] as number;
    const [first, second] = rows;
    if (last === 2 && first !== undefined && second !== undefined) addPairs(sums, first, second, lives, terms);
    else addProducts(sums, rows, lives, terms);
  }
  return total;
}

interface Terms {
  readonly value: Float64Array;
  readonly slope: Float64Array;
  readonly curvature: Float64Array;
}

/** into + column·factor, over the column. */
function addTimes(into: Float64Array, column: Float64Array, factor: number): void {
  for (let i = 0; i < column.length; i++) into[i] = (into[i] as number) + (column[i] as number) * factor;
}

function weigh({ value, slope, curvature }: Terms, weights: Float64Array): void {
  for (let i = 0; i < weights.length; i++) {
    const weight = weights[i] as number;
    value[i] = (value[i] as number) * weight;
    slope[i] = (slope[i] as number) * weight;
    curvature[i] = (curvature[i] as number) * weight;
  }
}

/** What z with the slopes (−row, life) adds, term by term. */
function addProducts(sums: Derivatives, rows: readonly Float64Array[], lives: Float64Array, { slope, curvature }: Terms): void {
  const slopes = new Float64Array(rows.length + 1);
  for (let i = 0; i < lives.length; i++) {
    for (let j = 0; j < rows.length; j++) slopes[j] = -((rows[j] as Float64Array)[i] as number);
    slopes[rows.length] = lives[i] as number;
    sums.add(slopes, slope[i] as number, curvature[i] as number);
  }
}

/** The same of two columns, as a straight line has them: long tables are mostly of one, and each sum by itself takes three times as long. */
function addPairs(sums: Derivatives, first: Float64Array, second: Float64Array, lives: Float64Array, { slope, curvature }: Terms): void {
  let [s0, s1, s2, c00, c01, c02, c11, c12, c22] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < lives.length; i++) {
    const [a, b, life, own, bend] = [first[i] as number, second[i] as number, lives[i] as number, slope[i] as number, curvature[i] as number];
    s0 += own * a;
    s1 += own * b;
    s2 += own * life;
    c00 += bend * a * a;
    c01 += bend * a * b;
    c02 += bend * a * life;
    c11 += bend * b * b;
    c12 += bend * b * life;
    c22 += bend * life * life;
  }
  for (const [j, sum] of [-s0, -s1, s2].entries()) sums.addFirst(j, sum);
  for (const [k, sum] of [c00, c01, -c02].entries()) sums.addMixed(0, k, sum);
  for (const [k, sum] of [c11, -c12].entries()) sums.addMixed(1, k + 1, sum);
  sums.addMixed(2, 2, c22);
}
