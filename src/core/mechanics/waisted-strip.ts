import type { StripShape } from './strip.ts';

/** A flat strip that two arcs of a circle, one from each edge, make narrower at one place. Lengths in metres. */
export interface Waist {
  /** The narrowest place, from the clamp. */
  readonly place: number;
  /** Width there. */
  readonly narrow: number;
  /** Width beside the arcs. */
  readonly wide: number;
  /** Radius of the arcs. */
  readonly radius: number;
}

/** Width at a place, which counts from the clamp. */
export function waistedWidth({ place, narrow, wide, radius }: Waist, at: number): number {
  const from = Math.abs(at - place);
  return from >= radius ? wide : Math.min(wide, narrow + 2 * (radius - Math.sqrt(radius ** 2 - from ** 2)));
}

/** Whether the arcs lie between clamp and drive and take something away. */
export function waistFits({ place, narrow, wide, radius }: Waist, length: number): boolean {
  const deep = (wide - narrow) / 2;
  return narrow > 0 && deep > 0 && radius > deep && place > 0 && place < length
    && Math.min(place, length - place) ** 2 >= radius ** 2 - (radius - deep) ** 2;
}

/** Pieces in which the curvature is summed; a drawing shows far less. */
const PIECES = 400;

/**
 * Shape of a waisted cantilever that is driven at its end: moment and stress over those at the waist, deflection by summing the curvature twice.
 * @source unit-load theorem, as in any textbook of strength of materials; stress M c/I with the width of the place
 */
export function waistedShape(waist: Waist, length: number): StripShape {
  const bending = (place: number): number => (1 - place) / waistedWidth(waist, place * length);
  const deflections = [0];
  let [slope, deflection, highest] = [0, 0, 0];
  for (let i = 0; i < PIECES; i += 1) {
    const curvature = bending((i + 0.5) / PIECES);
    deflection += (slope + curvature / (2 * PIECES)) / PIECES;
    slope += curvature / PIECES;
    deflections.push(deflection);
    if (bending(i / PIECES) > bending(highest)) highest = i / PIECES;
  }
  const atWaist = bending(waist.place / length);
  return {
    deflection: (place) => {
      const at = Math.max(0, Math.min(PIECES, place * PIECES));
      const before = Math.min(PIECES - 1, Math.floor(at));
      const [low = 0, high = 0] = [deflections[before], deflections[before + 1]];
      return (low + (at - before) * (high - low)) / deflection;
    },
    moment: (place) => (1 - place) / (1 - waist.place / length),
    stress: (place) => bending(place) / atWaist,
    drive: 1,
    highest: [highest],
  };
}
