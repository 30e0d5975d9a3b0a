/** Properties of a cross-section about its neutral axis, in SI units. */
export interface Section {
  /** I, second moment of area about the neutral axis, m^4. */
  readonly secondMoment: number;
  /** c, distance from the neutral axis to the outermost fibre, m. */
  readonly fibreDistance: number;
  /** Z = I/c, m^3. */
  readonly sectionModulus: number;
  /** m^2 */
  readonly area: number;
}

function section(secondMoment: number, fibreDistance: number, area: number): Section {
  return { secondMoment, fibreDistance, sectionModulus: secondMoment / fibreDistance, area };
}

/** Solid round bar: I = pi d^4/64, c = d/2. @param diameter m, > 0. @source Roark's Formulas, Appendix A */
export function solidRound(diameter: number): Section {
  return section((Math.PI * diameter ** 4) / 64, diameter / 2, (Math.PI * diameter ** 2) / 4);
}

/**
 * Round tube: I = pi (D^4 - d^4)/64, written as a product so that a thin wall keeps its digits.
 * @param outer outer diameter D, m, > 0 @param inner inner diameter d, m, 0 <= d < D. @source Roark's Formulas, Appendix A
 */
export function roundTube(outer: number, inner: number): Section {
  const difference = (outer - inner) * (outer + inner);
  return section((Math.PI * difference * (outer ** 2 + inner ** 2)) / 64, outer / 2, (Math.PI * difference) / 4);
}

/**
 * Rectangle bent about the axis parallel to its width: I = b t^3/12, c = t/2.
 * @param width b, m, > 0 @param height t, in the plane of bending, m, > 0. @source Roark's Formulas, Appendix A
 */
export function rectangle(width: number, height: number): Section {
  return section((width * height ** 3) / 12, height / 2, width * height);
}

/**
 * Nominal bending stress M c/I at the outermost fibre, Pa, with the sign of the moment (sagging: tension below).
 * Elastic, net section, no stress concentration. @param bendingMoment N m
 */
export function nominalBendingStress(bendingMoment: number, of: Section): number {
  return bendingMoment / of.sectionModulus;
}
