import type { PhotoState } from '../../graph/index.ts';

/*
 * What the trade takes a fracture surface for, after the classic charts of fracture surfaces by kind of bending, nominal
 * stress and stress concentration. The limits of the shares and of "central" are common practice, no published source:
 * toughness shifts them.
 */

const SMALL = 0.2;
const LARGE = 0.5;
const CENTRAL = 0.15;
const OFF_CENTRE = 0.35;
/** Ten degrees: less can't be told from outlines drawn by hand. */
const TURNED = (10 * Math.PI) / 180;

export const UNTOLD = 'The surface suggests, it never proves. It can’t tell the load in figures, the number of cycles, or which of two causes that look alike it was; a lack of beach marks does not speak against fatigue.';

/** Sentences on what the marks suggest; empty until the zones are outlined. */
export function photoSays({ reading, origins }: PhotoState): readonly string[] {
  if (reading === undefined) return [];
  const says: string[] = [];
  const { finalShare, eccentricity, rotation } = reading;
  if (finalShare < SMALL) says.push('A small final zone (below about 20 %) suggests a low nominal stress, or a tough material, and a long life.');
  else if (finalShare > LARGE) says.push('A large final zone (above about half) suggests a high nominal stress and a short life.');
  else says.push('A final zone of this share suggests a moderate nominal stress.');
  if (eccentricity < CENTRAL) {
    says.push('A final zone nearly in the middle suggests rotating bending with cracks from all round: a sharp stress concentration, or a high stress.');
  } else if (eccentricity > OFF_CENTRE) {
    says.push('A final zone near the rim suggests a smooth specimen at a lower stress, or bending one way only.');
  } else says.push('A final zone somewhat off the middle suggests rotating bending with a mild stress concentration.');
  if (rotation !== null && Math.abs(rotation) > TURNED && Math.abs(rotation) < Math.PI / 2) {
    says.push('A final zone turned from the place opposite the origin suggests rotating bending; it is mostly turned against the sense of rotation. Which half the picture shows decides how that sense is seen.');
  }
  if (origins.length === 1) says.push('One origin suggests a low stress and a smooth surface, or a single flaw: look for a scratch or a tool ring there.');
  else if (origins.length === 2) says.push('Two origins: on opposite sides with a band between, they suggest reversed plane bending.');
  else if (origins.length > 2) {
    says.push('Many origins, with ratchet marks between neighbours, suggest a high stress, a strong stress concentration, or both. Ratchet marks all round number as the origins or one fewer.');
  }
  return says;
}
