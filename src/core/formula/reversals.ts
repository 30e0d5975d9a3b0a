/** The five arguments of `reversals`, in order: strain amplitude, elastic strain at one reversal, its exponent, plastic strain at one reversal, its exponent. */
export type StrainLine = readonly [strain: number, elastic: number, b: number, plastic: number, c: number];

const MOST_STEPS = 200;

/** What the arguments must be, for the sentence about a missing value. */
export const REVERSALS_NEEDS = 'a strain above zero, strains at one reversal of zero or more and not both zero, and exponents below zero';

/**
 * Reversals 2N at which elastic·(2N)^b + plastic·(2N)^c equals the strain amplitude (Basquin, Coffin and Manson; Dowling,
 * Mechanical Behavior of Materials, 4th ed., section 14.2). NaN outside of what `REVERSALS_NEEDS` says.
 *
 * In x = ln 2N the logarithm of the sum is convex and falls, and each term alone reaches the strain no later than the sum
 * does: Newton's steps from the later of the two come up to the root from one side and cannot miss it.
 */
export function reversals([strain, elastic, b, plastic, c]: StrainLine): number {
  if (!(strain > 0 && elastic >= 0 && plastic >= 0 && elastic + plastic > 0 && b < 0 && c < 0)) return Number.NaN;
  const alone = (start: number, exponent: number): number => (start > 0 ? Math.log(strain / start) / exponent : -Infinity);
  let x = Math.max(alone(elastic, b), alone(plastic, c));
  for (let step = 0; step < MOST_STEPS; step++) {
    const [first, second] = [elastic * Math.exp(b * x), plastic * Math.exp(c * x)];
    const sum = first + second;
    const forward = (Math.log(sum / strain) * sum) / -(b * first + c * second);
    const next = x + forward;
    if (!(Math.abs(forward) > 1e-15 * Math.max(1, Math.abs(x)))) return Math.exp(next);
    x = next;
  }
  return Math.exp(x);
}

/** Partial derivatives of the reversals by the five arguments, from the implicit equation. @param value the reversals */
export function reversalsSlopes([, elastic, b, plastic, c]: StrainLine, value: number): StrainLine {
  const [first, second] = [value ** b, value ** c];
  const along = (b * elastic * first + c * plastic * second) / value;
  const logarithm = Math.log(value);
  return [1 / along, -first / along, (-elastic * first * logarithm) / along, -second / along, (-plastic * second * logarithm) / along];
}
