import { remembered } from '../remembered/index.ts';
import { inputUncertainty, mayBeTied, tiedCorrelation } from './input.ts';
import type { Estimate, Input, Sensitivity } from './types.ts';

/** A sum of derivatives that is smaller than this part of its terms is rounding: the terms cancel, as in x − x. */
const CANCELLED = 8 * Number.EPSILON;

/** A number without uncertainty. */
export function exactly(value: number): Estimate {
  return Object.freeze({ value, sensitivities: new Map() });
}

/** The estimate of an input itself. */
export function fromInput(input: Input): Estimate {
  const sensitivity = Object.freeze({ input, derivative: 1 });
  return Object.freeze({ value: input.value, sensitivities: new Map([[input.id, sensitivity]]) });
}

/**
 * A value computed from estimates, with its derivatives by the chain rule. What two parts have in common is counted once,
 * so that x − x has no uncertainty and x/x is exactly 1.
 * @param parts the estimates and the value's partial derivative with respect to each, SI
 */
export function combine(
  value: number,
  parts: readonly { readonly estimate: Estimate; readonly derivative: number }[],
): Estimate {
  const sums = new Map<string, { readonly input: Input; derivative: number; size: number }>();
  for (const { estimate, derivative } of parts) {
    for (const [id, inner] of estimate.sensitivities) {
      const term = derivative * inner.derivative;
      const sum = sums.get(id);
      if (sum === undefined) sums.set(id, { input: inner.input, derivative: term, size: Math.abs(term) });
      else {
        sum.derivative += term;
        sum.size += Math.abs(term);
      }
    }
  }
  const sensitivities = new Map<string, Sensitivity>();
  for (const [id, { input, derivative, size }] of sums) {
    const left = Math.abs(derivative) <= CANCELLED * size ? 0 : derivative;
    sensitivities.set(id, Object.freeze({ input, derivative: left }));
  }
  return Object.freeze({ value, sensitivities });
}

/** What an input gives a result: derivative times standard uncertainty, with its sign. */
export interface Contribution {
  readonly input: Input;
  readonly derivative: number;
  readonly size: number;
}

/** Contributions that are not zero. */
export function contributions(estimate: Estimate): readonly Contribution[] {
  const all: Contribution[] = [];
  for (const { input, derivative } of estimate.sensitivities.values()) {
    const size = derivative === 0 ? 0 : derivative * inputUncertainty(input);
    if (size !== 0) all.push({ input, derivative, size });
  }
  return all;
}

/**
 * Combined standard uncertainty, SI. Worked out once for an estimate: whether it can be reckoned with, what reads it and every place that shows it ask.
 * @source JCGM 100:2008, 5.2.2, equation 16.
 */
export const standardUncertainty = remembered((estimate: Estimate): number => {
  const own = contributions(estimate);
  const unit = largestSize(own);
  if (unit === 0 || !Number.isFinite(unit)) return unit;
  // Over the largest, so that neither tiny nor huge squares leave the range of doubles; rounding may fall below zero.
  return unit * Math.sqrt(Math.max(0, doubleSum(own, own, unit, unit)));
});

/**
 * Covariance of two results, SI.
 * @source JCGM 100:2008, H.2.3, equation H.9.
 */
export function covariance(a: Estimate, b: Estimate): number {
  return doubleSum(contributions(a), contributions(b), 1, 1);
}

/** Correlation coefficient of two results, −1 … 1; undefined where one of them has no uncertainty. */
export function correlation(a: Estimate, b: Estimate): number | undefined {
  const ofA = contributions(a);
  const ofB = contributions(b);
  const [unitA, unitB] = [largestSize(ofA), largestSize(ofB)];
  const scale = (standardUncertainty(a) / unitA) * (standardUncertainty(b) / unitB);
  return scale > 0 ? Math.max(-1, Math.min(1, doubleSum(ofA, ofB, unitA, unitB) / scale)) : undefined;
}

/** Change in % of a result per 1 % of an input, d ln y / d ln x; undefined where the result is 0. */
export function elasticity(estimate: Estimate, inputId: string): number | undefined {
  const sensitivity = estimate.sensitivities.get(inputId);
  if (sensitivity === undefined) return 0;
  return estimate.value === 0 ? undefined : (sensitivity.derivative * sensitivity.input.value) / estimate.value;
}

function largestSize(own: readonly Contribution[]): number {
  return own.reduce((largest, { size }) => Math.max(largest, Math.abs(size)), 0);
}

/** ΣΣ r_ij a_i b_j over the contributions, those of each side in a unit of their own. */
function doubleSum(a: readonly Contribution[], b: readonly Contribution[], unitA: number, unitB: number): number {
  const ofB = new Map(b.map((contribution) => [contribution.input.id, contribution]));
  const causes = sharedCauses([...a, ...b]);
  const tiedB = b.filter(({ input }) => mayBeTied(input));
  let sum = 0;
  for (const { input, size } of a) {
    const same = ofB.get(input.id);
    if (same !== undefined) sum += ownShare(input, causes) * (size / unitA) * (same.size / unitB);
    for (const other of mayBeTied(input) ? b : tiedB) {
      if (other.input.id === input.id) continue;
      sum += tiedCorrelation(input, other.input) * (size / unitA) * (other.size / unitB);
    }
  }
  // What one scale does to all that was measured on it is one deviation: its parts add up before they are squared.
  for (const cause of causes) sum += sumOfCause(a, cause, unitA) * sumOfCause(b, cause, unitB);
  return sum;
}

/** Causes that more than one of the inputs have in common. */
export function sharedCauses(own: readonly { readonly input: Input }[]): ReadonlySet<string> {
  const first = new Map<string, string>();
  const shared = new Set<string>();
  for (const { input: { id, components } } of own) {
    for (const { common } of components) {
      if (common === undefined) continue;
      const earlier = first.get(common);
      if (earlier === undefined) first.set(common, id);
      else if (earlier !== id) shared.add(common);
    }
  }
  return shared;
}

/** The part of an input's variance that it has by itself. */
function ownShare({ components }: Input, causes: ReadonlySet<string>): number {
  if (!components.some(({ common }) => common !== undefined && causes.has(common))) return 1;
  const largest = Math.max(...components.map(({ standardUncertainty: u }) => u));
  const sizes = components.map(({ standardUncertainty: u, common }) => ({ square: (u / largest) ** 2, isOwn: common === undefined || !causes.has(common) }));
  const total = sizes.reduce((sum, { square }) => sum + square, 0);
  return sizes.reduce((sum, { square, isOwn }) => (isOwn ? sum + square : sum), 0) / total;
}

/** What a cause gives a result, with its sign, in units of `unit`. */
export function sumOfCause(own: readonly Contribution[], cause: string, unit: number): number {
  let sum = 0;
  for (const { input, derivative } of own) {
    for (const { common, standardUncertainty: u } of input.components) if (common === cause) sum += (derivative * Math.sign(input.value) * u) / unit;
  }
  return sum;
}
