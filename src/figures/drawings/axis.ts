import type { BeamFigure, DrawingOptions, Frame } from './types.ts';

const SMALLEST_WIDTH = 240;
const SMALLEST_TEXT = 12;
const USUAL_TEXT = 15;
/** A phone held upright. */
export const NARROW = 480;
/** A place further out than this many spans would shrink the rest to nothing: it is drawn at the edge, with a note. */
const FURTHEST_IN_SPANS = 1.5;

/** The shaft's axis in the drawing, the same for every drawing of one figure at one width, so that they line up. */
export interface Axis {
  readonly width: number;
  readonly textSize: number;
  readonly frame: Frame;
  readonly pxPerMetre: number;
  /** Left and right ends of the frame, px. */
  readonly left: number;
  readonly right: number;
  /** Place on the axis in px; what lies outside the drawing comes to its edge. */
  readonly x: (position: number) => number;
  readonly shows: (position: number) => boolean;
}

/** The stretch that holds the supports, the loads and the section. */
function fittingFrame(figure: BeamFigure): Frame {
  const { span } = figure;
  const places = [0, span, ...figure.loads.map((load) => load.position), ...figure.dimensions.flatMap((one) => [one.from, one.to])];
  if (figure.section) places.push(figure.section.position);
  const near = places.filter((place) => place >= -FURTHEST_IN_SPANS * span && place <= (1 + FURTHEST_IN_SPANS) * span);
  return { from: Math.min(...near), to: Math.max(...near) };
}

/** Whether a stretch of this length can be drawn with finite scale. */
function drawable(frame: Frame): boolean {
  const length = frame.to - frame.from;
  return Number.isFinite(length) && length > 1e-150 && length < 1e150;
}

/** The stretch that holds both. */
export function frameOfBoth(a: Frame, b: Frame | undefined): Frame {
  return b === undefined ? a : { from: Math.min(a.from, b.from), to: Math.max(a.to, b.to) };
}

/** @param held a state of the shaft that is drawn behind, on the same scale */
export function axisOf(figure: BeamFigure, options: DrawingOptions, held?: BeamFigure): Axis {
  const behind = figure.toScale && held?.toScale === true ? fittingFrame(held) : undefined;
  return axisIn(frameOfBoth(fittingFrame(figure), behind), options);
}

/** The axis that shows a stretch, or the stretch kept while something is dragged. @param fitting of a length above zero */
export function axisIn(fitting: Frame, options: DrawingOptions): Axis {
  const width = Math.max(SMALLEST_WIDTH, options.width);
  const textSize = Math.max(SMALLEST_TEXT, options.textSize ?? (width < NARROW ? SMALLEST_TEXT : USUAL_TEXT));
  const inset = Math.max(34, Math.min(64, width * 0.09));
  const kept = options.frame;
  const frame = kept && drawable(kept) ? kept : fitting;
  const pxPerMetre = (width - 2 * inset) / (frame.to - frame.from);
  return {
    width,
    textSize,
    frame,
    pxPerMetre,
    left: inset,
    right: width - inset,
    x: (position) => Math.max(8, Math.min(width - 8, inset + (position - frame.from) * pxPerMetre)),
    shows: (position) => {
      const x = inset + (position - frame.from) * pxPerMetre;
      return x >= 8 && x <= width - 8;
    },
  };
}

/**
 * The frame to keep while a place is dragged, in the positions as they are after it has moved `by` metres to the right.
 * Positions count from the left support, so moving that one moves the frame the other way and everything else stays where it is.
 */
export function keptFrame(frame: Frame, moved: string, by: number): Frame {
  const shift = moved === 'left support' ? -by : 0;
  return { from: frame.from + shift, to: frame.to + shift };
}
