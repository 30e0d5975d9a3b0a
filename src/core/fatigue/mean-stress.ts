/** Corrections for a mean stress, by the names of their authors; `none` leaves it out. */
export const MEAN_STRESS_CORRECTIONS = ['none', 'goodman', 'gerber', 'soderberg', 'morrow', 'swt', 'walker'] as const;

export type MeanStressCorrection = (typeof MEAN_STRESS_CORRECTIONS)[number];

/** What the corrections ask of the material; stresses in the unit of amplitude and mean. */
export interface MeanStressConstants {
  readonly tensile?: number;
  readonly yield?: number;
  /** Stress at one reversal of the strain-life line. */
  readonly oneReversal?: number;
  /** Walker's exponent. */
  readonly exponent?: number;
}

/**
 * The stress amplitude that has, at this mean stress, the life of a fully reversed amplitude: a curve of constant life.
 * A compressive mean earns no credit. Undefined where the correction lacks its constant, or has no amplitude left.
 * @source Goodman, Gerber, Soderberg: Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th ed., section 6-12. Morrow; Smith,
 *   Watson and Topper; Walker: Dowling, Mechanical Behavior of Materials, 4th ed., chapter 9 (from memory).
 */
export function amplitudeOfEqualLife(
  correction: MeanStressCorrection, reversed: number, mean: number, constants: MeanStressConstants,
): number | undefined {
  const { tensile, yield: yieldStrength, oneReversal, exponent } = constants;
  const tension = Math.max(0, mean);
  switch (correction) {
    case 'none': return reversed;
    case 'goodman': return shareLeft(reversed, tension, tensile, 1);
    case 'gerber': return shareLeft(reversed, tension, tensile, 2);
    case 'soderberg': return shareLeft(reversed, tension, yieldStrength, 1);
    case 'morrow': return shareLeft(reversed, tension, oneReversal, 1);
    case 'swt': return byGreatestStress(reversed, tension, 0.5);
    case 'walker': return exponent === undefined ? undefined : byGreatestStress(reversed, tension, exponent);
  }
}

function shareLeft(reversed: number, tension: number, end: number | undefined, power: number): number | undefined {
  if (end === undefined || !(end > 0) || tension > end) return undefined;
  return reversed * (1 - (tension / end) ** power);
}

/** Doublings of accuracy that bring a share down to the last bit of a double. */
const HALVINGS = 60;

/**
 * The amplitude a with (a + m)^(1 − γ) a^γ = reversed, which grows with a: between 0 and the reversed amplitude the
 * interval is halved.
 */
function byGreatestStress(reversed: number, tension: number, gamma: number): number | undefined {
  if (!(gamma >= 0 && gamma <= 1) || !(reversed > 0)) return undefined;
  if (gamma === 0) return tension > reversed ? undefined : reversed - tension;
  let [low, high] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const share = (low + high) / 2;
    if ((share + tension / reversed) ** (1 - gamma) * share ** gamma < 1) low = share;
    else high = share;
  }
  return reversed * high;
}
