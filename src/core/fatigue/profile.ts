import { chiSquareQuantile, dot, findRoot, studentQuantile } from '../numeric/index.ts';
import { fail, ok, type Result } from '../problem/index.ts';
import { designOf, type Design } from './design.ts';
import { standardQuantile } from './life-distribution.ts';
import { lifeLimits, type LimitApproach } from './life-limits.ts';
import { bestLimit } from './limit-search.ts';
import { maximiseLocationScale, type Condition } from './location-scale.ts';
import { fitCensored, valueOf, type MaximumLikelihoodOptions } from './maximum-likelihood-fit.ts';
import { failuresOnly, merged, readSpecimens, type Observed } from './specimens.ts';
import { strengthByDelta, strengthLimits } from './strength.ts';
import type { LineFit, ParameterName, Specimens } from './types.ts';

/** What profile likelihood is asked for: a parameter, s, log10 of a life, or a strength; `share` is the share that survives. */
export type ProfileQuantity =
  | { readonly of: 'parameter'; readonly name: ParameterName }
  | { readonly of: 's' }
  | { readonly of: 'life'; readonly stressMpa: number; readonly share: number }
  | { readonly of: 'strength'; readonly cycles: number; readonly share: number };

export interface ProfileLimits {
  readonly estimate: number;
  /** Null where the likelihood never falls far enough on that side: the data set no bound. */
  readonly lower: number | null;
  readonly upper: number | null;
}

/**
 * Limits by profile likelihood: the values of a quantity for which twice the loss of the greatest log likelihood stays
 * below χ² with one degree of freedom. Lives are given as log10 cycles, strengths and S_0 in MPa. In small samples, and
 * where the likelihood is lopsided, these hold their confidence better than value ∓ z·se. `adjusted` takes, in place of χ²,
 * the loss at which the limits of a complete lognormal sample are exact (own; no published source).
 * Problems: those of `fitMaximumLikelihood`, `life-not-reached`.
 * @source Meeker and Escobar, Statistical Methods for Reliability Data (1998), 8.2 (from memory). Every condition asked for
 * is linear in (β/s, 1/s), where the likelihood is concave, so each point of the profile is found for certain.
 */
export function profileLimits(
  specimens: Specimens,
  options: MaximumLikelihoodOptions,
  quantity: ProfileQuantity,
  confidence = options.confidence ?? 0.95,
  approach: LimitApproach = 'large sample',
): Result<ProfileLimits> {
  const read = readSpecimens(specimens);
  if (!read.ok) return read;
  const fit = fitCensored(read.value, options);
  if (!fit.ok) return fit;
  const start = startOf(fit.value, quantity);
  if (!start.ok) return fail(start.problem);
  const { estimate, se, lowest } = start.value;
  const profile = profileOf(merged(read.value, fit.value.life), fit.value, quantity);
  const top = profile(estimate);
  // The root of twice the loss is all but straight in the value: a few trials find where it has grown to that of the loss allowed.
  const wanted = Math.sqrt(2 * allowedLoss(fit.value, confidence, approach));
  const beyond = (value: number): number => Math.sqrt(2 * Math.min(MOST_LOSS, Math.max(0, top - profile(value)))) - wanted;
  const reach = FURTHER * wanted * se;
  return ok(Object.freeze({
    estimate,
    lower: side(beyond, { estimate, wanted, reach: -reach, bound: lowest, tolerance: se * NEAR }),
    upper: side(beyond, { estimate, wanted, reach, bound: Infinity, tolerance: se * NEAR }),
  }));
}

/** More loss than any limit asks for, where there is no likelihood at all. */
const MOST_LOSS = 1e6;
/** The first value tried lies this much further than where an even likelihood would have the limit: mostly just beyond it. */
const FURTHER = 1.05;
const MOST_STEPS = 40;
/** Limits are found to this share of the standard error. */
const NEAR = 1e-9;
/** Further than so many times what lies between two tops these tell nothing of the next. */
const MOST_SHARE = 5;
/** With a gain of log likelihood as small as this to come, its top is known to 12 digits. */
const ENOUGH = 1e-8;

/** Loss of log likelihood at the limits. Without runouts, twice the loss is f·ln(1 + t²/(f − p)) for a coefficient of a line. */
function allowedLoss({ failures, parameters }: LineFit, confidence: number, approach: LimitApproach): number {
  const dof = failures - parameters.length;
  if (approach === 'large sample' || dof < 1) return chiSquareQuantile(confidence, 1) / 2;
  return (failures * Math.log1p(studentQuantile((1 + confidence) / 2, dof) ** 2 / dof)) / 2;
}

interface Side {
  readonly estimate: number;
  /** What `beyond` lacks at the estimate. */
  readonly wanted: number;
  /** From the estimate to the first value tried. */
  readonly reach: number;
  readonly bound: number;
  readonly tolerance: number;
}

/** First value at which `beyond` rises to zero, going out by steps that grow. */
function side(beyond: (value: number) => number, { estimate, wanted, reach, bound, tolerance }: Side): number | null {
  let [from, missing] = [estimate, -wanted];
  for (let count = 0, step = reach; count < MOST_STEPS; count++, step = count === 1 ? reach / 4 : step * 1.5) {
    const to = step < 0 ? Math.max(bound, from + step) : from + step;
    const there = beyond(to);
    if (there >= 0) {
      const known = new Map([[from, missing], [to, there]]);
      return findRoot((value) => known.get(value) ?? beyond(value), from, to, tolerance) ?? null;
    }
    if (to === bound) return null;
    [from, missing] = [to, there];
  }
  return null;
}

function startOf(fit: LineFit, quantity: ProfileQuantity): Result<{ estimate: number; se: number; lowest: number }> {
  if (quantity.of === 'parameter') {
    const found = fit.parameters.find(({ name }) => name === quantity.name);
    if (found === undefined) throw new RangeError(`the ${fit.model} model has no parameter ${quantity.name}`);
    return ok({ estimate: found.value, se: found.se, lowest: quantity.name === 'S_0' ? 0 : -Infinity });
  }
  if (quantity.of === 's') {
    return ok({ estimate: fit.s, se: fit.s * Math.sqrt(fit.covariance.at(-1)?.at(-1) ?? 0), lowest: fit.s * 1e-6 });
  }
  const asked = { kind: 'share', share: quantity.share, confidence: 0.68 } as const;
  if (quantity.of === 'life') {
    const { estimate, upper } = lifeLimits(fit, quantity.stressMpa, asked);
    return ok({ estimate, se: (upper ?? estimate) - estimate, lowest: -Infinity });
  }
  const strength = strengthLimits(fit, quantity.cycles, asked);
  if (!strength.ok) return strength;
  const delta = strengthByDelta(fit, quantity.cycles, 0.68);
  const { estimate } = strength.value;
  return ok({ estimate, se: delta.ok ? estimate * Math.LN10 * delta.value.seLog10 : estimate / 100, lowest: estimate * 1e-3 });
}

/** Greatest log likelihood with the quantity fixed. */
function profileOf(observed: Observed, fit: LineFit, quantity: ProfileQuantity): (value: number) => number {
  if (quantity.of === 'parameter' && quantity.name === 'S_0') {
    const lowestBroken = lowestBrokenOf(observed);
    return (limit) => (limit < lowestBroken ? valueOf(maximiseLocationScale(designOf(observed, fit, limit).lives)) : -Infinity);
  }
  const tops = new Map<number, readonly number[]>();
  const fixed = (design: Design, value: number): number => {
    const condition = conditionOf(design, fit, quantity, value);
    if (condition === undefined) return -Infinity;
    const top = maximiseLocationScale(design.lives, condition, between(tops, value), ENOUGH);
    const found = valueOf(top);
    if (found > -Infinity) tops.set(value, top.point);
    return found;
  };
  if (fit.model !== 'limit') {
    const design = designOf(observed, fit);
    return (value) => fixed(design, value);
  }
  return (value) => bestLimit((limit) => fixed(designOf(observed, fit, limit), value), lowestBrokenOf(observed)).value;
}

/** Where the top for a value is looked for: the top moves evenly with the value, so that the two nearest ones tell; or the nearest, or none. */
function between(tops: ReadonlyMap<number, readonly number[]>, value: number): readonly number[] | undefined {
  const [near, other] = [...tops].sort(([a], [b]) => Math.abs(a - value) - Math.abs(b - value));
  if (near === undefined || other === undefined) return near?.[1];
  const share = (value - near[0]) / (other[0] - near[0]);
  const point = near[1].map((own, j) => own + share * ((other[1][j] ?? own) - own));
  return Math.abs(share) < MOST_SHARE && (point.at(-1) ?? 0) > 0 ? point : near[1];
}

function lowestBrokenOf(observed: Observed): number {
  return failuresOnly(observed).stressMpa.reduce((a, b) => Math.min(a, b), Infinity);
}

/** The value fixed, as a linear condition on (β/s, 1/s); undefined where it can't be. */
function conditionOf({ back, origin, termsAt }: Design, fit: LineFit, quantity: ProfileQuantity, value: number): Condition | undefined {
  if (quantity.of === 's') return value > 0 ? { row: [...back.map(() => 0), 1], right: 1 / value } : undefined;
  if (quantity.of === 'parameter') {
    const place = fit.parameters.findIndex(({ name }) => name === quantity.name);
    return { row: [...(back[place] ?? []), place === 0 ? origin - value : -value], right: 0 };
  }
  const [stressMpa, log10Cycles] = quantity.of === 'life' ? [quantity.stressMpa, value] : [value, Math.log10(quantity.cycles)];
  const terms = termsAt(stressMpa);
  if (!Number.isFinite(dot(terms, terms))) return undefined;
  // terms·β + z·s = log10 life: divided by s it is linear in (β/s, 1/s).
  return { row: [...terms, origin - log10Cycles], right: -standardQuantile(fit.life, 1 - quantity.share) };
}
