import { type Axis, axisIn, frameOfBoth, NARROW } from './axis.ts';
import { dimensionLines, type DimensionRow } from './dimension-lines.ts';
import { arrowLengths, forceLabels, type DrawnForce } from './force-labels.ts';
import { noteLines, svgElement } from './frame-markup.ts';
import { lettering, runsWidth } from './lettering.ts';
import { leverDescription, leverSentence } from './lever-sentences.ts';
import type { LeverFigure, LeverWeight } from './lever-figure.ts';
import { circle, group, line, path } from './markup.ts';
import { centreLine, forceArrow, GROUND_DEPTH, pinSupport, SUPPORT_HEIGHT } from './parts.ts';
import { lineArea, placeFree } from './placement.ts';
import type { Area, Dimension, Drawing, DrawingOptions, FigureValue, Frame, Handle, MovablePlace, Run } from './types.ts';

/** Vertical places of the drawing, px. */
interface Levels {
  readonly axis: number;
  readonly beamTop: number;
  readonly beamBottom: number;
  readonly underSupport: number;
  readonly longestArrow: number;
  readonly belowArrows: number;
}

/** Half the height of the beam, px: a drawing of where things stand, not of how thick they are. */
const BEAM_HALF = 5;
/** Half height of the largest weight; smaller ones by the cube root of their share, as like bodies do. */
const LARGEST_WEIGHT = 21;
const SMALLEST_WEIGHT = 8;
/** Left of the fulcrum, as a share of what lies right of it. */
const ROOM_AT_FULCRUM = 0.25;
/** Distances shorter than this share of the longest are written beside their lines, and have a row of their own. */
const SHORT = 0.3;
const HANDLE = { width: 36, height: 48 };

/**
 * The lever cut free: beam, weights and hanger to scale along the beam, every force with its arrow to one scale, the
 * travel of the weights, the place that is wanted, the distances from the fulcrum below.
 */
export function loadingLever(figure: LeverFigure, options: DrawingOptions, held?: LeverFigure): Drawing {
  const axis = axisIn(frameOfBoth(fittingFrame(figure), held === undefined ? undefined : fittingFrame(held)), options);
  const levels = levelsOf(figure, axis);
  const half = weightHalves(figure);
  const forces = drawnForces(figure, axis, levels, half);
  const arrows = forces.map((force) => forceArrow(force.x, force.tail, force.tip, `force ${force.kind === 'reaction' ? 'reaction' : 'load'}`));
  const blocks = figure.weights.map((one): Area => blockArea(axis.x(one.at), half(one), levels));
  const wanted = wantedPlace(figure, axis, levels, half);
  const beam = lineArea(axis.left, levels.beamTop, axis.right, levels.beamBottom, 0);
  const hold = figure.movable.map((place): Area => handleOf(place, axis, levels));
  const labels = forceLabels(forces, axis, [...blocks, ...hold, beam, ...wanted.taken], extensionAreas(figure, axis, levels, half));
  const dimensions = dimensionLines(rowsOf(figure), axis, levels.belowArrows, (x) => extensionStart(x, figure, axis, levels, half), labels.letters);
  const notes = noteLines([...figure.notes, ...beyondNotes(figure, axis)], axis, dimensions.bottom + 2);
  const size = { width: axis.width, height: Math.ceil(notes.bottom + 4) };
  const description = leverDescription(figure);
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Loading lever', description }, [
      body(figure, axis, levels), heldWeights(figure, held, axis, levels), group('forces', arrows), weightBlocks(blocks), wanted.svg, labels.svg, dimensions.svg, notes.svg,
    ]),
    description,
    sentence: leverSentence(figure),
    viewBox: size,
    handles: figure.movable.map((place) => handleOf(place, axis, levels)),
    figures: dimensions.figures,
    frame: axis.frame,
    pxPerMetre: axis.pxPerMetre,
  };
}

/** The stretch that holds all that has a place; a wanted place far outside the travel is drawn at the edge. */
function fittingFrame(figure: LeverFigure): Frame {
  const places = [0, ...figure.weights.map(({ at }) => at), ...figure.dimensions.map(({ to }) => to)];
  if (figure.travel) places.push(figure.travel.from, figure.travel.to);
  const [from, to] = [Math.min(...places), Math.max(...places)];
  const length = to - from;
  if (length < 1e-100) return { from: -0.1, to: 0.5 };
  const wanted = figure.wanted?.at;
  const isFar = wanted === undefined || wanted < from - length / 4 || wanted > to + length / 4;
  // The fulcrum's reaction is written at its left, where a hanger close by leaves no room at its right.
  const left = figure.reaction === undefined ? from : Math.min(from, -ROOM_AT_FULCRUM * to);
  return isFar ? { from: left, to } : { from: Math.min(left, wanted), to: Math.max(to, wanted) };
}

function levelsOf(figure: LeverFigure, axis: Axis): Levels {
  const longestArrow = Math.max(axis.textSize * 4.5, axis.width < NARROW ? 56 : 76);
  const length = arrowLengths(allForces(figure), longestArrow);
  const longestLoad = Math.max(0, ...figure.weights.map(({ weight }) => Math.abs(length(weight))));
  // Above the weights: their arrows, their labels in two storeys, the label of the wanted place.
  const middle = axis.textSize * 4.6 + longestLoad + LARGEST_WEIGHT;
  const underSupport = middle + BEAM_HALF + SUPPORT_HEIGHT + GROUND_DEPTH + 3;
  return {
    axis: middle, beamTop: middle - BEAM_HALF, beamBottom: middle + BEAM_HALF, underSupport, longestArrow,
    belowArrows: underSupport + longestArrow + 6,
  };
}

/** Half heights of the weights, px. */
function weightHalves(figure: LeverFigure): (one: LeverWeight) => number {
  const largest = Math.max(0, ...figure.weights.map(({ weight }) => size(weight)));
  return ({ weight }) => Math.max(SMALLEST_WEIGHT, LARGEST_WEIGHT * Math.cbrt(largest > 0 ? size(weight) / largest : 1));
}

function size(value: FigureValue): number {
  return value.si === undefined || !Number.isFinite(value.si) ? 0 : Math.abs(value.si);
}

/** A weight hung over the beam, as wide as it is high, but for the largest. */
function blockArea(x: number, half: number, levels: Levels): Area {
  const width = Math.min(2 * half, 26);
  return { x: x - width / 2, y: levels.axis - half, width, height: 2 * half };
}

function rectangle({ x, y, width, height }: Area, className: string): string {
  return path(['M', x, y, 'h', width, 'v', height, 'h', -width, 'Z'], className);
}

/** The weights of a held state where they hang elsewhere, or are others. */
function heldWeights(figure: LeverFigure, held: LeverFigure | undefined, axis: Axis, levels: Levels): string {
  if (held === undefined) return '';
  const [now, then] = [weightHalves(figure), weightHalves(held)];
  return group('held', held.weights.flatMap((one, i) => {
    const other = figure.weights[i];
    const isSame = other !== undefined && Math.abs(axis.x(one.at) - axis.x(other.at)) < 0.75 && Math.abs(now(other) - then(one)) < 0.75;
    return isSame ? [] : [rectangle(blockArea(axis.x(one.at), then(one), levels), 'held-outline')];
  }));
}

function weightBlocks(blocks: readonly Area[]): string {
  return group('weights', blocks.map((block) => rectangle(block, 'outline')));
}

function body(figure: LeverFigure, axis: Axis, levels: Levels): string {
  const [from, to] = [Math.max(4, axis.left - 16), Math.min(axis.width - 4, axis.right + 16)];
  const fulcrum = axis.x(0);
  const stops = figure.travel === undefined ? [] : [figure.travel.from, figure.travel.to].filter(axis.shows)
    .map((place) => line({ x: axis.x(place), y: levels.beamTop - 7 }, { x: axis.x(place), y: levels.beamTop }, 'ground'));
  const centre = figure.own === undefined || !axis.shows(figure.own.at) ? [] : [circle({ x: axis.x(figure.own.at), y: levels.axis }, 3.2, 'outline')];
  return group('body', [
    pinSupport(fulcrum, levels.beamBottom),
    rectangle({ x: from, y: levels.beamTop, width: to - from, height: 2 * BEAM_HALF }, 'outline'),
    centreLine(from - 2, to + 2, levels.axis),
    ...stops,
    ...centre,
  ]);
}

function allForces({ weights, own, hanger, reaction }: LeverFigure): FigureValue[] {
  return [...weights.map(({ weight }) => weight), ...[own?.weight, hanger?.force, reaction].flatMap((value) => value ?? [])];
}

/** Weights pull down from above, the beam's own weight below it; the hanger and the fulcrum act from below. */
function drawnForces(figure: LeverFigure, axis: Axis, levels: Levels, half: (one: LeverWeight) => number): DrawnForce[] {
  const { hanger, own, reaction } = figure;
  const length = arrowLengths(allForces(figure), levels.longestArrow);
  const forces = figure.weights.map((one): DrawnForce => {
    const top = levels.axis - half(one);
    return { kind: 'load', x: axis.x(one.at), tail: top - length(one.weight), tip: top, value: one.weight };
  });
  const upwards = (x: number, from: number, value: FigureValue): DrawnForce => {
    const reach = length(value);
    const foot = from + Math.abs(reach);
    return { kind: 'reaction', x, tail: reach >= 0 ? foot : from, tip: reach >= 0 ? from : foot, value };
  };
  if (reaction !== undefined) forces.push(upwards(axis.x(0), levels.underSupport, reaction));
  if (hanger !== undefined) forces.push(upwards(axis.x(hanger.at), levels.beamBottom, hanger.force));
  if (own !== undefined) {
    forces.push({ kind: 'weight', x: axis.x(own.at), tail: levels.beamBottom, tip: levels.beamBottom + length(own.weight), value: own.weight });
  }
  return forces;
}

interface Wanted {
  readonly svg: string;
  readonly taken: readonly Area[];
}

/** Where the moved weight has to stand: its outline in chain line, with its distance above. */
function wantedPlace(figure: LeverFigure, axis: Axis, levels: Levels, half: (one: LeverWeight) => number): Wanted {
  const { wanted } = figure;
  if (wanted === undefined) return { svg: '', taken: [] };
  const x = axis.x(wanted.at);
  const moved = figure.weights.find(({ at }) => at === wanted.now);
  const high = moved === undefined ? SMALLEST_WEIGHT : half(moved);
  const runs: Run[] = [{ symbol: wanted.place.symbol }, `\u00A0=\u00A0${wanted.place.text.replaceAll(' ', '\u00A0')}`];
  const [width, height] = [runsWidth(runs, axis.textSize), axis.textSize * 1.2];
  const area = placeFree([{ x: x - width / 2, y: 2, width, height }], [], axis.width);
  const foot = levels.axis - high - 3;
  const mark = [
    line({ x, y: area.y + height + 2 }, { x, y: foot }, 'section-line'),
    lettering(runs, { x: area.x + width / 2, y: area.y + axis.textSize * 0.95, anchor: 'middle', size: axis.textSize, className: 'value look' }),
  ];
  const ghost = axis.shows(wanted.at) ? [rectangle(blockArea(x, high, levels), 'section-line')] : [];
  return { svg: group('wanted', [...ghost, ...mark]), taken: [area, lineArea(x, area.y + height, x, foot)] };
}

/** One row for each distance, the nearest first; distances to opposite sides share a row. */
function rowsOf({ dimensions }: LeverFigure): DimensionRow[] {
  const left = dimensions.filter(({ to }) => to < 0);
  const right = dimensions.filter(({ to }) => to >= 0);
  const longest = Math.max(...dimensions.map(({ to }) => Math.abs(to)));
  const isShort = (one: Dimension | undefined): boolean => one !== undefined && Math.abs(one.to) < SHORT * longest;
  if (isShort(left[0]) && isShort(right[0])) right.unshift(...left.splice(0, 1));
  return Array.from({ length: Math.max(left.length, right.length) }, (_, index) => ({
    name: 'distances', dimensions: [left[index], right[index]].flatMap((one) => one ?? []),
  }));
}

/** Extension lines begin below the arrows that point up or down below the beam, else below the beam or the weight there. */
function extensionStart(x: number, figure: LeverFigure, axis: Axis, levels: Levels, half: (one: LeverWeight) => number): number {
  const below = [0, ...[figure.hanger?.at, figure.own?.at].flatMap((at) => at ?? [])];
  if (below.some((at) => Math.abs(axis.x(at) - x) < 6)) return levels.belowArrows - 6;
  const weight = figure.weights.find(({ at }) => Math.abs(axis.x(at) - x) < 2);
  return weight === undefined ? levels.beamBottom : levels.axis + half(weight);
}

/** The extension lines beside the arrows below the beam, so that labels keep off them. */
function extensionAreas(figure: LeverFigure, axis: Axis, levels: Levels, half: (one: LeverWeight) => number): Area[] {
  return figure.dimensions.map(({ to }) => axis.x(to)).map((x) => lineArea(x, extensionStart(x, figure, axis, levels, half), x, levels.belowArrows));
}

function beyondNotes(figure: LeverFigure, axis: Axis): (readonly Run[])[] {
  const { wanted } = figure;
  const notes: (readonly Run[])[] = [];
  if (wanted !== undefined && !axis.shows(wanted.at)) notes.push([{ symbol: wanted.place.symbol }, ' would lie beyond the edge of the drawing.']);
  const beyond = figure.weights.filter(({ at }) => !axis.shows(at)).map(({ weight }) => weight.symbol);
  for (const symbol of beyond) notes.push([{ symbol }, ' stands beyond the edge of the drawing.']);
  return notes;
}

function handleOf(place: MovablePlace, axis: Axis, levels: Levels): Handle {
  return { ...place, x: axis.x(place.position) - HANDLE.width / 2, y: levels.axis - HANDLE.height / 2, ...HANDLE };
}
