import type { Input } from './types.ts';

/** Combined standard uncertainty of an input, SI. */
export function inputUncertainty(input: Input): number {
  return Math.hypot(...input.components.map((component) => component.standardUncertainty));
}

/** Covariance of two inputs, SI; of an input with itself its variance. */
export function inputCovariance(a: Input, b: Input): number {
  return inputCorrelation(a, b) * inputUncertainty(a) * inputUncertainty(b);
}

/**
 * Correlation coefficient of two inputs: the stated one, which holds for the whole uncertainties; else, for givens read in
 * pairs, that of their means, in which only the scatter of the readings (type A) has a part; else 0.
 * @source JCGM 100:2008, 5.2.3, equation 17: s(x̄, ȳ) = Σ δx δy / (n(n − 1)).
 */
export function inputCorrelation(a: Input, b: Input): number {
  if (a.id === b.id) return 1;
  const stated = statedCoefficient(a, b);
  if (stated !== undefined) return stated;
  const n = pairedReadings(a, b);
  if (n === 0) return 0;
  const scale = inputUncertainty(a) * inputUncertainty(b);
  return scale === 0 ? 0 : scatterCovariance(a, b) / scale;
}

/** The coefficient that either side states. */
export function statedCoefficient(a: Input, b: Input): number | undefined {
  return a.correlations?.get(b.id) ?? b.correlations?.get(a.id);
}

/** How many readings of two givens were taken in pairs; 0 where they were not. */
export function pairedReadings(a: Input, b: Input): number {
  const n = a.together?.deviations.length ?? 0;
  const paired = a.together?.group === b.together?.group && n === b.together?.deviations.length && n >= 2;
  return paired ? n : 0;
}

function scatterCovariance(a: Input, b: Input): number {
  const ofA = a.together?.deviations ?? [];
  const ofB = b.together?.deviations ?? [];
  const products = ofA.map((deviation, k) => deviation * (ofB[k] ?? 0)).sort((x, y) => x - y);
  return products.reduce((sum, product) => sum + product, 0) / (products.length * (products.length - 1));
}

/** Whether an input may be correlated with others: it was read with them, or states so itself. */
export function mayBeCorrelated(input: Input): boolean {
  return input.together !== undefined || (input.correlations !== undefined && input.correlations.size > 0);
}
