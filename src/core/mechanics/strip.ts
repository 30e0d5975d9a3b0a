/**
 * How a strip that is bent by a set displacement is supported, and the factor k of its greatest stress k E t delta/L^2
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

/** Along the strip, as shares of the greatest value; the place as a share of the length, from the clamp or the left support, 0 to 1. */
export interface StripShape {
  /** Deflection over that of the driven point. */
  readonly deflection: (place: number) => number;
  /** Bending moment over the greatest; where it changes its sign it is below zero. */
  readonly moment: (place: number) => number;
  /** Stress over the greatest. Differs from the moment only where the width does. */
  readonly stress: (place: number) => number;
  readonly drive: number;
  /** Where the stress is greatest; both ends of a stretch in which it is everywhere. */
  readonly highest: readonly number[];
}

const fromMiddle = (place: number): number => Math.abs(1 - 2 * place);

/**
 * Shapes of the deflection, moment and stress of a strip bent by a set displacement.
 * @source integration of E I v'' = M with the conditions at the ends; cantilever, guided and simple beams as in any table of beams
 */
export const STRIP_SHAPES: Readonly<Record<StripSupport, StripShape>> = {
  cantilever: {
    deflection: (x) => (x * x * (3 - x)) / 2, moment: (x) => 1 - x, stress: (x) => 1 - x, drive: 1, highest: [0],
  },
  guided: {
    deflection: (x) => x * x * (3 - 2 * x), moment: (x) => 1 - 2 * x, stress: fromMiddle, drive: 1, highest: [0, 1],
  },
  tapered: {
    deflection: (x) => x * x, moment: (x) => 1 - x, stress: () => 1, drive: 1, highest: [0, 1],
  },
  centre: {
    deflection: (x) => 3 * Math.min(x, 1 - x) - 4 * Math.min(x, 1 - x) ** 3,
    moment: (x) => 1 - fromMiddle(x), stress: (x) => 1 - fromMiddle(x), drive: 0.5, highest: [0.5],
  },
};
