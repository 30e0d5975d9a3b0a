/** A point load across the beam. Position in metres from the left support, force in newtons, downwards positive. */
export interface PointLoad {
  readonly position: number;
  readonly force: number;
}

/**
 * A straight beam on two simple supports. Positions count from the left support (0), the right support stands at `span`;
 * loads may stand anywhere, in any order, also left of 0 or beyond `span` (overhangs) and also pull upwards (negative).
 */
export interface Beam {
  /** Distance between the supports, m, finite, not zero. */
  readonly span: number;
  readonly loads: readonly PointLoad[];
}

/** Support forces in newtons, upwards positive. */
export interface Reactions {
  readonly left: number;
  readonly right: number;
}

/**
 * Reactions by equilibrium of moments about each support.
 * @source statics; beam tables (AISC Manual, beam diagrams; Roark's Formulas, Table 8.1): R1 = P (l - a)/l, R2 = P a/l for each load, superposed.
 */
export function beamReactions(beam: Beam): Reactions {
  let left = 0;
  let right = 0;
  for (const load of beam.loads) {
    left += (load.force * (beam.span - load.position)) / beam.span;
    right += (load.force * load.position) / beam.span;
  }
  return { left, right };
}

/** Every force on the beam as a load (downwards positive), the reactions among them. */
export function allForces(beam: Beam, reactions: Reactions): PointLoad[] {
  return [
    ...beam.loads,
    { position: 0, force: -reactions.left },
    { position: beam.span, force: -reactions.right },
  ];
}

/**
 * Shear force in newtons just right of `position`: the sum of the upward forces at or left of it.
 * @param reactions those of equilibrium unless the caller has its own (a sheet's, which carry the closure of measured spans)
 */
export function shearAt(beam: Beam, position: number, reactions: Reactions = beamReactions(beam)): number {
  let shear = 0;
  for (const force of allForces(beam, reactions)) if (force.position <= position) shear -= force.force;
  return shear;
}

/** Bending moment in newton metres at `position`, sagging positive, built from the left. Reactions as in `shearAt`. */
export function momentAt(beam: Beam, position: number, reactions: Reactions = beamReactions(beam)): number {
  let moment = 0;
  for (const force of allForces(beam, reactions)) {
    if (force.position < position) moment -= force.force * (position - force.position);
  }
  return moment;
}
