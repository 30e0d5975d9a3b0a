/** The test section of a round specimen, symmetrical about its waist. Lengths in metres. */
export interface Profile {
  /** Least diameter, > 0. */
  readonly diameter: number;
  /** Diameter of the grips, at least the least. */
  readonly grip: number;
  /** Radius of the waist, of the fillets of a cylindrical gauge length, or at the root of a groove, > 0. */
  readonly radius: number;
  /** Half the length of the cylindrical part; 0 for a waist or a groove. */
  readonly flat: number;
}

/**
 * Diameter at a distance from the waist: constant over the cylindrical part, then along the arc up to the grip.
 * @source plain geometry: d(x) = d + 2 (R - sqrt(R^2 - u^2)), u the distance beyond the cylindrical part.
 */
export function diameterAt({ diameter, grip, radius, flat }: Profile, x: number): number {
  const beyond = Math.max(Math.abs(x) - flat, 0);
  if (beyond >= radius) return grip;
  // The rise of the arc, R - sqrt(R² - u²), as a quotient: the difference would lose its digits near the waist.
  const rise = (beyond * beyond) / (radius + Math.sqrt((radius - beyond) * (radius + beyond)));
  return Math.min(grip, diameter + 2 * rise);
}

/** Distance from the waist at which the grip diameter is reached. */
export function profileReach({ diameter, grip, radius, flat }: Profile): number {
  const rise = Math.min((grip - diameter) / 2, radius);
  return flat + Math.sqrt(Math.max(0, rise * (2 * radius - rise)));
}
