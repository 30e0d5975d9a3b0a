import { remembered } from '../remembered/index.ts';
import type { Input } from './types.ts';

/** Combined standard uncertainty of an input, SI. */
export const inputUncertainty = remembered((input: Input): number => Math.hypot(...input.components.map((component) => component.standardUncertainty)));

/** Covariance of two inputs, SI; of an input with itself its variance. */
export function inputCovariance(a: Input, b: Input): number {
  return inputCorrelation(a, b) * inputUncertainty(a) * inputUncertainty(b);
}

/**
 * Correlation coefficient of two inputs: the stated one, which holds for the whole uncertainties; else by what they have in
 * common: the scatter of readings taken in pairs (type A), and the error of one instrument.
 * @source JCGM 100:2008, 5.2.3, equation 17: s(x̄, ȳ) = Σ δx δy / (n(n − 1)); F.1.2.3, equation F.2, for what comes from one source.
 */
export function inputCorrelation(a: Input, b: Input): number {
  if (a.id === b.id) return 1;
  const stated = statedCoefficient(a, b);
  if (stated !== undefined) return stated;
  const scale = inputUncertainty(a) * inputUncertainty(b);
  return scale === 0 ? 0 : (scatterCovariance(a, b) + commonCovariance(a, b)) / scale;
}

/** What a coefficient has beyond the instruments that two inputs share: readings in pairs, or a stated coefficient in place of both. */
export function tiedCorrelation(a: Input, b: Input): number {
  if (statedCoefficient(a, b) === undefined && pairedReadings(a, b) === 0) return 0;
  const scale = inputUncertainty(a) * inputUncertainty(b);
  return scale === 0 ? 0 : inputCorrelation(a, b) - commonCovariance(a, b) / scale;
}

/** Whether an input was read in pairs with others, or states a coefficient itself. */
export function mayBeTied(input: Input): boolean {
  return input.together !== undefined || (input.correlations !== undefined && input.correlations.size > 0);
}

/** The coefficient that either side states. */
export function statedCoefficient(a: Input, b: Input): number | undefined {
  return a.correlations?.get(b.id) ?? b.correlations?.get(a.id);
}

/** How many readings of two givens were taken in pairs; 0 where they were not, or where one of the two scatters by less than a step of its scale. */
export function pairedReadings(a: Input, b: Input): number {
  const n = a.together?.deviations.length ?? 0;
  const paired = a.together?.group === b.together?.group && n === b.together?.deviations.length && n >= 2;
  return paired && hasScatter(a) && hasScatter(b) ? n : 0;
}

function hasScatter({ components }: Input): boolean {
  return components.some(({ kind }) => kind === 'A');
}

function commonCovariance(a: Input, b: Input): number {
  const sign = Math.sign(a.value) * Math.sign(b.value);
  let sum = 0;
  for (const one of a.components) {
    if (one.common === undefined) continue;
    for (const other of b.components) if (other.common === one.common) sum += sign * one.standardUncertainty * other.standardUncertainty;
  }
  return sum;
}

function scatterCovariance(a: Input, b: Input): number {
  if (pairedReadings(a, b) === 0) return 0;
  const ofA = a.together?.deviations ?? [];
  const ofB = b.together?.deviations ?? [];
  const products = ofA.map((deviation, k) => deviation * (ofB[k] ?? 0)).sort((x, y) => x - y);
  return products.reduce((sum, product) => sum + product, 0) / (products.length * (products.length - 1));
}

/** Whether an input may be correlated with others: it was read with them or with the same instrument, or states so itself. */
export function mayBeCorrelated(input: Input): boolean {
  return mayBeTied(input) || input.components.some(({ common }) => common !== undefined);
}
