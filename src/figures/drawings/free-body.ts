import { axisOf, NARROW, type Axis } from './axis.ts';
import { dimensionLines, type DimensionRow } from './dimension-lines.ts';
import { arrowLengths, forceLabels, type DrawnForce } from './force-labels.ts';
import { noteLines, offDrawingNotes, svgElement } from './frame-markup.ts';
import { heldArrowAreas, heldShaft } from './held-outline.ts';
import { equation, lettering, runsWidth } from './lettering.ts';
import { group } from './markup.ts';
import {
  centreLine, forceArrow, GROUND_DEPTH, pinSupport, rollerSupport, rotation, sectionMark, shaft, SHAFT_HALF, SUPPORT_HEIGHT,
} from './parts.ts';
import { lineArea, placeFree } from './placement.ts';
import { freeBodyDescription, freeBodySentence } from './sentences.ts';
import type { Area, BeamFigure, Drawing, DrawingOptions, FigureValue, Handle, MovablePlace, PlaceName, Run, TypedFigure } from './types.ts';

/** Vertical places of the drawing, px. */
interface Levels {
  readonly shaftTop: number;
  readonly axis: number;
  readonly shaftBottom: number;
  /** Where reactions push from below. */
  readonly underSupports: number;
  readonly longestArrow: number;
  readonly belowReactions: number;
}

const HANDLE = { width: 36, height: 44 };

function levelsOf(axis: Axis): Levels {
  const longestArrow = Math.max(axis.textSize * 4.5, axis.width < NARROW ? 56 : 76);
  const shaftTop = axis.textSize * 1.2 + 8 + longestArrow;
  const shaftBottom = shaftTop + 2 * SHAFT_HALF;
  const underSupports = shaftBottom + SUPPORT_HEIGHT + GROUND_DEPTH + 3;
  return { shaftTop, axis: shaftTop + SHAFT_HALF, shaftBottom, underSupports, longestArrow, belowReactions: underSupports + longestArrow + 6 };
}

/**
 * The shaft cut free: to scale along its axis, pin and roller, loads and reactions with lengths in proportion to their
 * magnitudes, the section, the dimensions below. Missing values show as letters and in a note.
 * @param held drawn behind as an outline
 */
export function freeBody(figure: BeamFigure, options: DrawingOptions, held?: BeamFigure): Drawing {
  const axis = axisOf(figure, options, held);
  const levels = levelsOf(axis);
  const length = arrowLengths([figure, ...(held === undefined ? [] : [held])].flatMap(forcesOf), levels.longestArrow);
  const forces = drawnForces(figure, axis, levels, length);
  const then = held === undefined || !figure.toScale || !held.toScale ? [] : drawnForces(held, axis, levels, length);
  const behind = held === undefined ? '' : heldShaft(figure, held, axis, { held: then, now: forces }, levels);
  const arrows = forces.map((force) => forceArrow(force.x, force.tail, force.tip, `force ${force.kind}`));
  const thin = extensionAreas(figure, axis, levels);
  const labels = forceLabels(forces, axis, [...supportAreas(figure, axis, levels), ...heldArrowAreas(then, forces)], thin);
  const section = figure.section ? sectionLabel(figure, figure.section.position, axis, levels, { taken: labels.taken, thin }) : undefined;
  const letters = [...labels.letters, ...(section === undefined ? [] : [section.letters])];
  const dimensions = dimensionLines(rowsOf(figure), axis, levels.belowReactions, (x) => extensionStart(x, axis, figure, levels), letters);
  const notes = noteLines([...figure.notes, ...offDrawingNotes(figure, axis)], axis, dimensions.bottom + 2);
  const size = { width: axis.width, height: Math.ceil(notes.bottom + 4) };
  const description = freeBodyDescription(figure);
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Free-body drawing of the shaft', description }, [
      behind, body(figure, axis, levels), group('forces', arrows), section?.svg ?? '', labels.svg, dimensions.svg, notes.svg,
    ]),
    description,
    sentence: freeBodySentence(figure),
    viewBox: size,
    handles: figure.movable.map((place) => handleOf(place, axis, levels)),
    figures: [...dimensions.figures, ...(section?.figures ?? [])],
    frame: axis.frame,
    pxPerMetre: axis.pxPerMetre,
  };
}

/** The section's distance nearest, the chain of part-spans on one line, the overall span below. */
function rowsOf({ dimensions }: BeamFigure): DimensionRow[] {
  return (['section', 'chain', 'overall'] as const).map((name) => ({ name, dimensions: dimensions.filter((one) => one.line === name) }));
}

function body(figure: BeamFigure, axis: Axis, levels: Levels): string {
  const ends = [axis.left, axis.right, axis.x(0), axis.x(figure.span)];
  const [from, to] = [Math.max(8, Math.min(...ends) - 20), Math.min(axis.width - 8, Math.max(...ends) + 20)];
  const waist = figure.section && figure.diameter && figure.diameter.si !== undefined ? axis.x(figure.section.position) : undefined;
  return group('body', [
    pinSupport(axis.x(0), levels.shaftBottom),
    rollerSupport(axis.x(figure.span), levels.shaftBottom),
    shaft(from, to, levels.axis, waist),
    centreLine(Math.max(2, from - 7), Math.min(axis.width - 2, to + 7), levels.axis),
    rotation(to - 1, levels.axis),
  ]);
}

function forcesOf({ loads, reactions }: BeamFigure): FigureValue[] {
  return [...loads.map((load) => load.force), reactions.left, reactions.right];
}

/** Loads end on top of the shaft, reactions below the supports; lengths are in proportion, hidden ones all alike. */
function drawnForces(figure: BeamFigure, axis: Axis, levels: Levels, length: (value: FigureValue) => number): DrawnForce[] {
  const { left, right } = figure.reactions;
  const loads = figure.loads.map(({ position, force }): DrawnForce => {
    const reach = length(force);
    const [tail, tip] = reach >= 0 ? [levels.shaftTop - reach, levels.shaftTop] : [levels.shaftTop, levels.shaftTop + reach];
    return { kind: 'load', x: axis.x(position), tail, tip, value: force };
  });
  const reaction = (position: number, value: FigureValue): DrawnForce => {
    const reach = length(value);
    const foot = levels.underSupports + Math.abs(reach);
    const [tail, tip] = reach >= 0 ? [foot, levels.underSupports] : [levels.underSupports, foot];
    return { kind: 'reaction', x: axis.x(position), tail, tip, value };
  };
  return [...loads, reaction(0, left), reaction(figure.span, right)];
}

/** From where an extension line may start: below the reaction arrows at the supports, else just below the shaft. */
function extensionStart(x: number, axis: Axis, figure: BeamFigure, levels: Levels): number {
  const atSupport = [0, figure.span].some((position) => Math.abs(axis.x(position) - x) < 18);
  return atSupport ? levels.belowReactions - 6 : levels.shaftBottom;
}

/** The extension lines that pass beside the reactions, so that labels keep off them. */
function extensionAreas(figure: BeamFigure, axis: Axis, levels: Levels): Area[] {
  return figure.dimensions.flatMap((one) => [axis.x(one.from), axis.x(one.to)])
    .filter((x) => extensionStart(x, axis, figure, levels) === levels.shaftBottom)
    .map((x) => lineArea(x, levels.shaftBottom, x, levels.belowReactions));
}

/** Pin and roller with their ground. */
function supportAreas(figure: BeamFigure, axis: Axis, levels: Levels): Area[] {
  return [0, figure.span].map((position) => lineArea(axis.x(position), levels.shaftBottom, axis.x(position), levels.underSupports, 18));
}

interface SectionLabel {
  readonly svg: string;
  readonly letters: Area;
  readonly figures: readonly TypedFigure[];
}

/** The section's mark with its words beside the upper end, or below the shaft where the loads leave no room. */
function sectionLabel(
  figure: BeamFigure, position: number, axis: Axis, levels: Levels, { taken, thin }: { readonly taken: readonly Area[]; readonly thin: readonly Area[] },
): SectionLabel {
  const size = axis.textSize;
  const x = axis.x(position);
  const lines: Run[][] = [['section'], ...(figure.diameter ? [equation(figure.diameter)] : [])];
  const width = Math.max(...lines.map((runs) => runsWidth(runs, size)));
  const height = lines.length * size * 1.2;
  const beside = (y: number): Area[] => [{ x: x + 5, y, width, height }, { x: x - 5 - width, y, width, height }];
  const above = levels.shaftTop - height - 4;
  const below = levels.shaftBottom + 5;
  const [top, bottom] = [levels.shaftTop - Math.max(30, height + 4), levels.shaftBottom + 14];
  const deeper = [0, 12, 30, 45, 60, 75, 90].map((down) => below + down).filter((y) => y + height < levels.belowReactions);
  const mark = lineArea(x, top, x, bottom, 3);
  const area = placeFree([above, above - 8, ...deeper].flatMap(beside), [...taken, mark], axis.width, thin);
  const svg = lines.map((runs, index) => lettering(runs, {
    x: area.x, y: area.y + size * (0.95 + 1.2 * index), anchor: 'start', size, className: index === 0 ? 'word look' : classOf(figure.diameter),
  }));
  const given = figure.diameter?.given;
  return {
    svg: sectionMark(x, top, bottom) + svg.join(''),
    letters: area,
    figures: given === undefined ? [] : [{ given, x: area.x - 2, y: area.y + size * 1.2, width: width + 4, height: size * 1.2 + 2 }],
  };
}

function classOf(value: FigureValue | undefined): string {
  return value?.given === undefined ? 'value' : 'value yours';
}

function handleOf(place: MovablePlace<PlaceName>, axis: Axis, levels: Levels): Handle {
  const centre = {
    'left load point': levels.shaftTop - 26,
    'right load point': levels.shaftTop - 26,
    'left support': levels.shaftBottom + SUPPORT_HEIGHT / 2 + 4,
    'right support': levels.shaftBottom + SUPPORT_HEIGHT / 2 + 4,
    section: levels.axis,
  }[place.name];
  return { ...place, x: axis.x(place.position) - HANDLE.width / 2, y: centre - HANDLE.height / 2, ...HANDLE };
}
