import { allForces, beamReactions, momentAt, shearAt, type Beam, type Reactions } from './beam.ts';

/** A place where a force acts. Between neighbouring break points the shear is constant and the moment a straight line. */
export interface BreakPoint {
  readonly position: number;
  readonly shearLeft: number;
  readonly shearRight: number;
  readonly moment: number;
}

/** From where to where a value stands, metres from the left support; `from` equals `to` at a single place. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface Extreme {
  readonly value: number;
  /** Every place or stretch that reaches the value, left to right, at least one. */
  readonly places: readonly Stretch[];
}

export interface ShearMomentDiagram {
  readonly points: readonly BreakPoint[];
  readonly shear: { readonly greatest: Extreme; readonly least: Extreme };
  readonly moment: { readonly greatest: Extreme; readonly least: Extreme };
}

/** What is smaller than this share of the largest value is rounding of the sums, and is taken as zero. */
const ROUNDING = 1e-12;

/**
 * Shear and moment over the whole beam, from its leftmost to its rightmost force.
 * Forces at one place share a break point. Values within rounding of zero are zero, so that a stretch of pure bending shows as one.
 */
export function shearMomentDiagram(beam: Beam, reactions: Reactions = beamReactions(beam)): ShearMomentDiagram {
  const forces = allForces(beam, reactions);
  const positions = [...new Set(forces.map((force) => force.position))].sort((a, b) => a - b);
  const first = positions[0] ?? 0;
  const length = (positions.at(-1) ?? 0) - first;
  const forceRounding = ROUNDING * Math.max(...forces.map((force) => Math.abs(force.force)));
  const momentRounding = forceRounding * length;
  const points = positions.map((position, index): BreakPoint => {
    const before = positions[index - 1];
    return {
      position,
      shearLeft: before === undefined ? 0 : clean(shearAt(beam, before, reactions), forceRounding),
      shearRight: clean(shearAt(beam, position, reactions), forceRounding),
      moment: clean(momentAt(beam, position, reactions), momentRounding),
    };
  });
  const shears = points.slice(1).map((point, index) => ({
    value: point.shearLeft, from: positions[index] ?? first, to: point.position,
  }));
  const moments = points.map((point) => ({ value: point.moment, from: point.position, to: point.position }));
  return { points, shear: extremes(shears, forceRounding), moment: extremes(moments, momentRounding) };
}

function clean(value: number, rounding: number): number {
  return Math.abs(value) <= rounding ? 0 : value;
}

type Piece = Stretch & { readonly value: number };

function extremes(pieces: readonly Piece[], rounding: number): { greatest: Extreme; least: Extreme } {
  const values = pieces.map((piece) => piece.value);
  return {
    greatest: reached(pieces, Math.max(...values), rounding),
    least: reached(pieces, Math.min(...values), rounding),
  };
}

/** Neighbouring pieces that hold the value are one stretch: shear pieces touch, and the moment is straight between its points. */
function reached(pieces: readonly Piece[], value: number, rounding: number): Extreme {
  const places: { from: number; to: number }[] = [];
  let holding = false;
  for (const piece of pieces) {
    const holds = Math.abs(piece.value - value) <= rounding;
    const last = places.at(-1);
    if (holds && holding && last) last.to = piece.to;
    else if (holds) places.push({ from: piece.from, to: piece.to });
    holding = holds;
  }
  return { value, places };
}
