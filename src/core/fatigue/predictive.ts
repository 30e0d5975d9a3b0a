import { bilinear, findRoot, integrate, normalDensity } from '../numeric/index.ts';
import { standardQuantile, standardSurvival } from './life-distribution.ts';
import { locationAt, locationGradient, type FittedLine } from './line.ts';

const NORMAL_BREAKS = [-6, 0, 6];

/**
 * log10 life that all of the next m specimens exceed with the given probability, their distribution averaged over the
 * normal distribution of (location, ln s) that the observed information gives: for large samples.
 * @source Barndorff-Nielsen and Cox, Bernoulli 2 (1996) 319 discuss such predictive distributions (from memory).
 */
export function predictiveQuantile(line: FittedLine, stressMpa: number, several: number, probability: number): number {
  const location = locationAt(line, stressMpa);
  const gradient = [...locationGradient(line, stressMpa), 0];
  const scale = [...line.parameters.map(() => 0), 1];
  const seLocation = Math.sqrt(Math.max(0, bilinear(gradient, line.covariance, gradient)));
  const seScale = Math.sqrt(Math.max(0, bilinear(scale, line.covariance, scale)));
  const correlation = seLocation * seScale > 0 ? bilinear(gradient, line.covariance, scale) / (seLocation * seScale) : 0;
  const rest = Math.sqrt(Math.max(0, 1 - correlation * correlation));
  const chance = (y: number): number => integrate((u) => normalDensity(u) * integrate((v) => {
    const s = line.s * Math.exp(seScale * (correlation * u + rest * v));
    return normalDensity(v) * standardSurvival(line.life, (y - location - seLocation * u) / s) ** several;
  }, NORMAL_BREAKS, 12), NORMAL_BREAKS, 12);
  const plain = location + line.s * standardQuantile(line.life, 1 - probability ** (1 / several));
  let reach = line.s + seLocation;
  const gap = (y: number): number => chance(y) - probability;
  while (reach < 1e6 && (gap(plain - reach) < 0 || gap(plain + reach) > 0)) reach *= 2;
  return findRoot(gap, plain - reach, plain + reach, 1e-9) ?? plain;
}
