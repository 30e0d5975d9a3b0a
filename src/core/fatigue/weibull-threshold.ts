import { chiSquareCumulative, findRoot, studentQuantile } from '../numeric/index.ts';
import { fail, ok, type Result } from '../problem/index.ts';
import { standardQuantile } from './life-distribution.ts';
import { bestLimit } from './limit-search.ts';
import type { CensoredLives } from './censored-lives.ts';
import { maximiseLocationScale, type Condition, type LocationScale } from './location-scale.ts';
import { fitOneStress, type LivesAtOneStress } from './one-stress.ts';
import * as problems from './problems.ts';

/** Limits of a quantity; null for a side on which the likelihood never falls far enough. */
export interface ProfiledQuantity {
  readonly estimate: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Weibull lives that none ends before a threshold N_0: chance of a longer life exp(−((N − N_0)/(η − N_0))^β). */
export interface ThresholdFit {
  /** N_0, cycles. */
  readonly threshold: number;
  readonly thresholdLimits: Omit<ProfiledQuantity, 'estimate'>;
  /** β. */
  readonly shape: number;
  /** η, the life that 36.8 % exceed, cycles from zero. */
  readonly characteristic: number;
  readonly failures: number;
  readonly runouts: number;
  /** Natural logarithm of the likelihood of the lives in cycles. */
  readonly logLikelihood: number;
  readonly confidence: number;
  /** Chance of at least this gain over two parameters where there is no threshold. */
  readonly p: number;
  /** Life in cycles that a share of all specimens exceeds. */
  quantile(share: number): ProfiledQuantity;
}

/** With a shape below one the density has no top at the threshold, and the likelihood none either. */
const LEAST_SHAPE = 1;
const PARAMETERS = 3;
/** Three parameters from fewer than this many broken specimens are none. */
const LEAST_FAILURES = 5;
/** A top nearer to the shortest life than this share of it lies at the edge. */
const AT_EDGE = 1e-4;

/**
 * The three-parameter Weibull distribution by maximum likelihood, with the threshold from zero to the shortest life, shapes of 1 and more alone: towards
 * the shortest life, with shapes below 1, the likelihood has no bound. Limits by profile likelihood, with the loss
 * that is exact for a coefficient of a normal line with three parameters in place of χ² (see `profileLimits`).
 * Problems: `threshold-few` (fewer than five broken), `threshold-none` (zero is best: two parameters say as much), `threshold-unbounded` (the likelihood only grows towards the shortest
 * life), those of `fitOneStress`.
 * @source Smith, Biometrika 72 (1985) 67 (non-regular likelihood); Meeker and Escobar (1998), 11.7; Lawless, Statistical Models and Methods for Lifetime
 * Data (2003), 5.4; the edge at zero as Self and Liang, JASA 82 (1987) 605; from memory.
 */
export function fitWeibullThreshold(lives: LivesAtOneStress, confidence = 0.95): Result<ThresholdFit> {
  const plain = fitOneStress(lives, 'weibull', confidence);
  if (!plain.ok) return plain;
  const { failures, runouts } = plain.value;
  if (failures < LEAST_FAILURES) return fail(problems.thresholdFew(failures, LEAST_FAILURES));
  const data = dataOf(lives);
  const valueAt = (threshold: number): number => valueOf(fitAt(data, threshold));
  if (!Number.isFinite(valueAt(0))) return fail(problems.thresholdUnbounded());
  const best = bestLimit(valueAt, data.shortest);
  if (best.at === 0) return fail(problems.thresholdNone());
  if (best.at > data.shortest * (1 - AT_EDGE) || shapeOf(fitAt(data, best.at).top) < LEAST_SHAPE * (1 + AT_EDGE)) return fail(problems.thresholdUnbounded());
  const { top } = fitAt(data, best.at);
  const gain = 2 * (best.value - valueAt(0));
  const dof = failures - PARAMETERS;
  const allowed = (failures * Math.log1p(studentQuantile((1 + confidence) / 2, dof) ** 2 / dof)) / 2;
  const gap = (threshold: number): number => Math.max(-1e6, valueAt(threshold) - best.value + allowed);
  return ok(Object.freeze({
    threshold: best.at,
    thresholdLimits: { lower: gap(0) > 0 ? null : (findRoot(gap, 0, best.at, 1e-9 * best.at) ?? null), upper: upperOf(data, best, allowed) },
    shape: shapeOf(top),
    characteristic: best.at + 10 ** (top.beta[0] ?? 0),
    failures,
    runouts,
    logLikelihood: best.value,
    confidence,
    p: (1 - chiSquareCumulative(gain, 1)) / 2,
    quantile: (share: number) => quantileOf(data, { at: best.at, value: best.value, top }, share, allowed),
  }));
}

/** Towards the shortest life the likelihood has no bound, so that it may turn up again before it has fallen far enough: then there is no limit. */
function upperOf(data: Data, best: { readonly at: number; readonly value: number }, allowed: number): number | null {
  const gap = (threshold: number): number => fitAt(data, threshold).value - best.value + allowed;
  const room = data.shortest - best.at;
  let from = best.at;
  for (let left = 0.8; left > 1e-4; left *= 0.8) {
    const to = data.shortest - room * left;
    if (gap(to) <= 0) return findRoot(gap, from, to, 1e-9 * to) ?? null;
    from = to;
  }
  return null;
}

interface Data {
  readonly cycles: readonly number[];
  readonly broken: readonly boolean[];
  readonly shortest: number;
}

function dataOf({ cycles, outcomes }: LivesAtOneStress): Data {
  const rows = Array.from(cycles).map((life, i) => ({ life, outcome: outcomes?.[i] ?? 'fracture' })).filter(({ outcome }) => outcome !== 'invalid');
  const broken = rows.map(({ outcome }) => outcome === 'fracture');
  return {
    cycles: rows.map(({ life }) => life),
    broken,
    shortest: rows.reduce((least, { life }, i) => (broken[i] === true ? Math.min(least, life) : least), Infinity),
  };
}

interface BeyondThreshold {
  readonly top: LocationScale;
  /** Log likelihood of lives in cycles. */
  readonly value: number;
}

/** The best two parameters beyond a threshold, perhaps under a condition on (location/s, 1/s); runouts below the threshold say nothing. */
function fitAt({ cycles, broken }: Data, threshold: number, condition?: Condition): BeyondThreshold {
  const used = cycles.flatMap((life, i) => (life > threshold ? [{ y: Math.log10(life - threshold), isBroken: broken[i] === true }] : []));
  const lives: CensoredLives = {
    life: 'weibull',
    y: Float64Array.from(used, ({ y }) => y),
    censored: Uint8Array.from(used, ({ isBroken }) => (isBroken ? 0 : 1)),
    columns: [new Float64Array(used.length).fill(1)],
  };
  const top = maximiseLocationScale(lives, condition);
  const jacobian = used.reduce((sum, { y, isBroken }) => sum + (isBroken ? y * Math.LN10 + Math.log(Math.LN10) : 0), 0);
  return { top, value: top.logLikelihood - jacobian };
}

function shapeOf({ s }: LocationScale): number {
  return 1 / (s * Math.LN10);
}

function valueOf({ top, value }: BeyondThreshold): number {
  return top.converged && shapeOf(top) >= LEAST_SHAPE ? value : -Infinity;
}

/** log10 of the steps by which limits of a life are looked for, growing. */
const FIRST_STEP = 0.02;
const MOST_STEPS = 40;

function quantileOf(data: Data, { at, value, top }: { readonly at: number; readonly value: number; readonly top: LocationScale }, share: number, allowed: number): ProfiledQuantity {
  const z = standardQuantile('weibull', 1 - share);
  const estimate = at + 10 ** ((top.beta[0] ?? 0) + z * top.s);
  const gap = (logLife: number): number => Math.max(-1e6, profileAt(data, 10 ** logLife, z) - value + allowed);
  const limit = (direction: -1 | 1): number | null => {
    let from = Math.log10(estimate);
    for (let count = 0, step = FIRST_STEP; count < MOST_STEPS; count++, step *= 1.4) {
      const to = from + direction * step;
      if (gap(to) <= 0) return 10 ** (findRoot(gap, from, to, 1e-7) ?? to);
      from = to;
    }
    return null;
  };
  return Object.freeze({ estimate, lower: limit(-1), upper: limit(1) });
}

/** Greatest log likelihood with a life fixed that the share exceeds: over thresholds below it, and below the shortest life. */
function profileAt(data: Data, life: number, z: number): number {
  const most = Math.min(life, data.shortest);
  // location + z·s = log10(life − threshold), divided by s.
  const fixedAt = (threshold: number): number => valueOf(fitAt(data, threshold, { row: [1, -Math.log10(life - threshold)], right: -z }));
  return bestLimit(fixedAt, most).value;
}
