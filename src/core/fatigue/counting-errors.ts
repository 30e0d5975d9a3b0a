import { normalCumulative, normalDensity, invertSymmetric, type Matrix } from '../numeric/index.ts';

/** Standard deviations from the mean beyond which no staircase goes. */
const FAR = 8;
/** Finer steps, in standard deviations, are taken as this: the factors have then long reached their limit, or the tests make no staircase. */
const FINEST = 0.005;

/**
 * Covariance of mean and standard deviation found by counting, for many tests: that of the strengths, σ = 1 and n = 1. The
 * roots of its diagonal are the factors G and H of the published charts, standard errors being G·sd/√n and H·sd/√n with n
 * events counted. They come from the information of one test, averaged over the levels that a long staircase visits.
 * @param step of the staircase, in standard deviations
 * @param offset of any level from the mean, in standard deviations
 * @source Dixon and Mood, JASA 43 (1948) 109: large-sample errors with n half of the tests, their charts of G and H; method from memory.
 */
export function countingCovariance(step: number, offset: number): Matrix | undefined {
  if (!(step > 0 && step < Infinity)) return undefined;
  const d = Math.max(step, FINEST);
  const start = offset - d * Math.round(offset / d);
  const sums = [0, 0, 0];
  let total = 0;
  const visit = (x: number, share: number): void => {
    const weight = (share * normalDensity(x) ** 2) / (normalCumulative(x) * normalCumulative(-x));
    total += share;
    for (let power = 0; power < 3; power++) sums[power] = (sums[power] ?? 0) + weight * x ** power;
  };
  visit(start, 1);
  for (const direction of [d, -d]) {
    // As many moves lead up from a level as lead down from the next: that gives the share of each from its neighbour's.
    let share = 1;
    for (let x = start; Math.abs(x + direction) < FAR; x += direction) {
      const [low, high] = direction > 0 ? [x, x + direction] : [x + direction, x];
      const ratio = normalCumulative(-low) / normalCumulative(high);
      share *= direction > 0 ? ratio : 1 / ratio;
      visit(x + direction, share);
    }
  }
  const [s0 = 0, s1 = 0, s2 = 0] = sums.map((sum) => (2 * sum) / total);
  return invertSymmetric([[s0, s1], [s1, s2]]);
}
