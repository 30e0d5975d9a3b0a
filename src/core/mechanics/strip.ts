/**
 * How a strip that is bent by a set displacement is held, and the factor k of its greatest stress k E t delta/L^2
 * (thickness t in the plane of bending, displacement delta of the driven point, free length L):
 * - cantilever: clamped at one end, the other end driven and free to turn
 * - guided: clamped, the driven end kept from turning
 * - tapered: triangular cantilever, clamped at its root, driven at its apex: the same stress all along
 * - centre: on two simple supports, driven in the middle of the span
 * @source beam tables (AISC Manual, beam diagrams; Roark's Formulas, Table 8.1): sigma = M c/I with the moment for the displacement;
 * tapered: leaf-spring theory (Shigley; Roark). The factors are from memory, recomputed.
 */
const STRIP_STRESS_FACTORS = { cantilever: 3 / 2, guided: 3, tapered: 1, centre: 6 } as const;

export type StripSupport = keyof typeof STRIP_STRESS_FACTORS;

/** A strip of constant thickness, lengths in metres, modulus in pascals. */
export interface Strip {
  readonly support: StripSupport;
  readonly youngsModulus: number;
  /** Free length, between supports for `centre`. */
  readonly length: number;
  readonly thickness: number;
}

/** Greatest nominal bending stress in pascals where the driven point has moved by `displacement` metres. Small elastic deflection. */
export function stripStress(strip: Strip, displacement: number): number {
  const factor = STRIP_STRESS_FACTORS[strip.support];
  return (factor * strip.youngsModulus * strip.thickness * displacement) / strip.length ** 2;
}
