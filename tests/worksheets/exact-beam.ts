/**
 * The exact plane beam, apart from the project's code: curvature M/(E I), any rotation, stretched by its axial force, no shear
 * (elastica with stretch; Timoshenko and Gere, Theory of Elastic Stability, chapter 2, for the one without).
 * Runge-Kutta along the strip from the clamp, Newton's method on what is not known there, the deflection raised in steps.
 * Lengths over the free length, forces over E I/L², moments over E I/L, with E I that at the clamp.
 */
export type Ends = 'follows' | 'slides' | 'blocked';
export type Holding = 'cantilever' | 'guided' | 'tapered' | 'centre';

export interface ExactBeam {
  readonly holding: Holding;
  readonly ends: Ends;
  /** E A L²/(E I), by which the strip resists being stretched. */
  readonly stretch: number;
  /** Width at a share of the length over that at the clamp, where the holding does not say it. */
  readonly width?: (s: number) => number;
  /** Where the moment is asked for, as a share of the length along the strip; at the clamp unless said. */
  readonly at?: number;
}

/** Moment and pull where the bending stress is greatest. */
export interface ExactResult { readonly moment: number; readonly pull: number }

/** Unlike nothing, the tip can be driven; the linear beam to compare with has the same. */
const TIP = 0.01;
const PIECES = 300;

interface Unknowns { readonly moment: number; readonly across: number; readonly along: number; readonly length: number; readonly width: (s: number) => number; readonly stretch: number }

/** Place, rotation and moment at the far end of a piece that is clamped at its near end; number by number, since lists of four take most of the time. */
function farEnd({ moment, across, along, length, width, stretch }: Unknowns): { x: number; y: number; turn: number; moment: number } {
  const h = length / PIECES;
  let [x, y, turn, m] = [0, 0, 0, moment];
  for (let i = 0; i < PIECES; i += 1) {
    // Sums of the four slopes of a step, the two in its middle twice; the next slope is taken at turn and moment moved by the last.
    let [sumX, sumY, sumTurn, sumMoment] = [0, 0, 0, 0];
    let [lastTurn, lastMoment] = [0, 0];
    for (let stage = 0; stage < 4; stage += 1) {
      const [share, weight] = [stage === 0 ? 0 : stage === 3 ? 1 : 0.5, stage === 1 || stage === 2 ? 2 : 1];
      const [here, moved] = [turn + share * h * lastTurn, m + share * h * lastMoment];
      const [cosine, sine] = [Math.cos(here), Math.sin(here)];
      const longer = 1 + (along * cosine + across * sine) / stretch;
      lastTurn = moved / width((i + share) * h);
      lastMoment = -longer * (across * cosine - along * sine);
      sumX += weight * longer * cosine;
      sumY += weight * longer * sine;
      sumTurn += weight * lastTurn;
      sumMoment += weight * lastMoment;
    }
    x += (h / 6) * sumX;
    y += (h / 6) * sumY;
    turn += (h / 6) * sumTurn;
    m += (h / 6) * sumMoment;
  }
  return { x, y, turn, moment: m };
}

/** One piece, clamped: the whole strip, or half of one that is driven in its middle. A strip that slides is pushed square to itself; in a guide, square to that. */
function pieceOf({ holding, ends, stretch, width }: ExactBeam, [moment = 0, force = 0, third = 0, turn = 0]: readonly number[]): Unknowns {
  const tilted = ends === 'slides' && holding !== 'guided';
  return {
    moment, stretch: ends === 'blocked' ? stretch : Infinity,
    across: tilted ? force * Math.cos(turn) : force,
    along: ends === 'blocked' ? third : tilted ? -force * Math.sin(turn) : 0,
    length: ends === 'slides' ? third : freeLength(holding),
    width: width ?? ((s) => (holding === 'tapered' ? Math.max(TIP, 1 - s * (1 - TIP)) : 1)),
  };
}

const freeLength = (holding: Holding): number => (holding === 'centre' ? 0.5 : 1);

/** What is left open at the far end of a piece. */
function residuals(beam: ExactBeam, deflection: number, unknown: readonly number[]): number[] {
  const { holding, ends } = beam;
  const end = farEnd(pieceOf(beam, unknown));
  const held = [holding === 'guided' ? end.turn : end.moment, end.y - deflection];
  if (ends !== 'follows') held.push(end.x - freeLength(holding));
  if (ends === 'slides' && holding !== 'guided') held.push(end.turn - (unknown[3] ?? 0));
  return held;
}

/** Newton's method with slopes by differences, solved by elimination. */
function newton(of: (unknown: readonly number[]) => number[], start: readonly number[]): number[] {
  let at = [...start];
  for (let round = 0; round < 20; round += 1) {
    const here = of(at);
    if (Math.hypot(...here) < 1e-11) return at;
    const columns = at.map((value, i) => {
      const h = 1e-7 * Math.max(1e-3, Math.abs(value));
      return of(at.map((one, k) => (k === i ? one + h : one))).map((moved, k) => (moved - (here[k] ?? 0)) / h);
    });
    const step = eliminated(here.map((value, k) => [...columns.map((column) => column[k] ?? 0), -value]));
    at = at.map((value, i) => value + (step[i] ?? 0));
  }
  throw new Error('the exact beam was not found');
}

function eliminated(given: readonly (readonly number[])[]): number[] {
  const rows = given.map((row) => [...row]);
  for (let i = 0; i < rows.length; i += 1) {
    const best = rows.slice(i).reduce((most, row, k) => (Math.abs(row[i] ?? 0) > Math.abs(rows[most]?.[i] ?? 0) ? i + k : most), i);
    [rows[i], rows[best]] = [rows[best] ?? [], rows[i] ?? []];
    for (let k = 0; k < rows.length; k += 1) {
      if (k === i) continue;
      const factor = (rows[k]?.[i] ?? 0) / (rows[i]?.[i] ?? 1);
      rows[k] = (rows[k] ?? []).map((value, c) => value - factor * (rows[i]?.[c] ?? 0));
    }
  }
  return rows.map((row, i) => (row.at(-1) ?? 0) / (row[i] ?? 1));
}

/** The exact beam at a deflection, as a share of the free length. */
export function exactBeam(beam: ExactBeam, deflection: number): ExactResult {
  // With a pull, in steps of a tenth of the thickness.
  const steps = Math.max(1, Math.ceil(deflection / (beam.ends === 'blocked' ? 0.1 * Math.sqrt(12 / beam.stretch) : 0.02)));
  const first = deflection / steps;
  const factor = { cantilever: 3, guided: 6, tapered: 2, centre: 12 }[beam.holding];
  let found = [factor * first, factor * first * { cantilever: 1, guided: 2, tapered: 1, centre: 2 }[beam.holding]];
  if (beam.ends === 'blocked') found.push(0.5 * beam.stretch * first ** 2);
  if (beam.ends === 'slides') found.push(beam.holding === 'centre' ? 0.5 : 1);
  if (beam.ends === 'slides' && beam.holding !== 'guided') found.push(2 * first);
  // Each step starts from a parabola through those before; what goes with the square of the deflection (the pull) begins as such.
  const past: number[][] = [];
  for (let step = 1; step <= steps; step += 1) {
    const [one, two, three] = [past.at(-1), past.at(-2), past.at(-3)];
    const start = found.map((value, i) => {
      if (one === undefined) return value;
      if (two === undefined) return i < 2 || i === 3 ? 2 * value : beam.ends === 'blocked' ? 4 * value : value;
      return three === undefined ? 2 * value - (two[i] ?? 0) : 3 * value - 3 * (two[i] ?? 0) + (three[i] ?? 0);
    });
    found = newton((unknown) => residuals(beam, step * first, unknown), start);
    past.push(found);
  }
  const moment = beam.at === undefined ? found[0] : farEnd({ ...pieceOf(beam, found), length: beam.at }).moment;
  return { moment: moment ?? 0, pull: beam.ends === 'blocked' ? (found[2] ?? 0) : 0 };
}
