import { axisIn, NARROW, type Axis } from './axis.ts';
import { dimensionLines, type DimensionRow } from './dimension-lines.ts';
import { noteLines, svgElement } from './frame-markup.ts';
import { equation, lettering, runsWidth, spokenSymbol } from './lettering.ts';
import { group } from './markup.ts';
import { centreLine, GROUND_DEPTH, sectionMark, SUPPORT_HEIGHT } from './parts.ts';
import { longestOf, namedValue, type StripFigure } from './strip-figure.ts';
import { stripFromAbove } from './strip-from-above.ts';
import { driveMark, heightArrows, JAW, slidingGuide, stripSupport, stripOutline, type StripLevels } from './strip-parts.ts';
import type { Drawing, DrawingOptions, FigureValue, Handle, Run, TypedFigure } from './types.ts';

/** Below this a deflection can't be seen beside the strip's outline, above it there is no room for it, px. */
const LEAST_REACH = 12;
const MOST_REACH = 130;
const MOST_HALF = 40;

interface Scales {
  /** Times by which deflections are drawn larger than lengths. */
  readonly enlarged: number;
  /** px per metre of deflection. */
  readonly up: number;
  readonly amplitude: number;
  readonly offset: number;
  /** Furthest that the driven point goes from the unloaded place, px. */
  readonly reach: number;
}

/**
 * The set-up from the side, to scale: what holds the strip, the unloaded strip, its outline at both ends of the stroke in
 * chain line, the drive, the section looked at and the lengths below. Small deflections are drawn larger, and said to be.
 * @param held whose ends of the stroke are drawn behind
 */
export function planeBending(figure: StripFigure, options: DrawingOptions, held?: StripFigure): Drawing {
  const axis = axisIn({ from: 0, to: longestOf(figure, held) }, options);
  const scales = scalesOf(figure, axis);
  const levels = levelsOf(figure, axis, scales);
  const lowest = levels.middle + levels.half + Math.max(scales.reach, figure.support === 'centre' ? SUPPORT_HEIGHT + GROUND_DEPTH : JAW);
  const figures: TypedFigure[] = [];
  const words = lettersOf(figure, axis, levels, scales, figures);
  const dimensions = dimensionLines(rowsOf(figure), axis, lowest + axis.textSize * 1.5, (x) => (x > axis.x(0) + 2 ? levels.middle + levels.half : lowest), []);
  const enlarged: (readonly Run[])[] = scales.enlarged === 1 ? [] : [[`Deflections are drawn ${scales.enlarged} times as large as lengths.`]];
  const fromAbove = stripFromAbove(figure, axis, dimensions.bottom);
  const notes = noteLines([...enlarged, ...fromAbove.notes, ...figure.notes], axis, fromAbove.bottom + 2);
  const size = { width: axis.width, height: Math.ceil(notes.bottom + 4) };
  const sentence = sentenceOf(figure, scales.enlarged);
  const description = descriptionOf(figure, sentence);
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Set-up of the bending test, seen from the side', description }, [
      heldStrip(figure, held, axis, levels, scales), ...stripOf(figure, axis, levels, scales), marksOf(figure, axis, levels), words, dimensions.svg, fromAbove.svg, notes.svg,
    ]),
    description,
    sentence,
    viewBox: size,
    handles: handlesOf(figure, axis, levels, scales),
    figures: [...figures, ...dimensions.figures],
    frame: axis.frame,
    pxPerMetre: axis.pxPerMetre,
  };
}

function scalesOf({ amplitude = 0, offset }: StripFigure, axis: Axis): Scales {
  const reach = (amplitude + Math.abs(offset)) * axis.pxPerMetre;
  const steps = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];
  const enlarged = reach === 0 ? 1 : (steps.find((step) => step * reach >= LEAST_REACH) ?? 1000);
  const up = axis.pxPerMetre * enlarged * Math.min(1, MOST_REACH / (enlarged * reach || 1));
  return { enlarged, up, amplitude: amplitude * up, offset: offset * up, reach: Math.min(MOST_REACH, enlarged * reach) };
}

function levelsOf(figure: StripFigure, axis: Axis, { reach }: Scales): StripLevels {
  const half = Math.max(1.5, Math.min(MOST_HALF, (figure.height / 2) * axis.pxPerMetre));
  return { half, middle: axis.textSize * 2.8 + Math.max(reach, JAW) + half };
}

function stripOf(figure: StripFigure, axis: Axis, levels: StripLevels, { amplitude, offset, reach }: Scales): string[] {
  const { support, length } = figure;
  const drive = axis.x(figure.shape.drive * length);
  const outline = (raised: number, className: string): string => stripOutline(figure, raised, axis, levels, className);
  const moved = figure.amplitude === undefined ? [] : [outline(offset + amplitude, 'moved-outline'), outline(offset - amplitude, 'moved-outline')];
  return [
    group('strip', [outline(0, 'outline'), ...moved, centreLine(Math.max(2, axis.left - 38), Math.min(axis.width - 2, axis.right + 12), levels.middle)]),
    stripSupport(support, length, axis, levels),
    support === 'guided' ? slidingGuide(length, reach, axis, levels) : '',
    figure.amplitude === undefined ? '' : driveMark(drive, levels.middle - offset, levels.middle - offset + amplitude, levels.middle - offset - amplitude),
  ];
}

/** Both ends of the stroke of a held state, where they are others than now. */
function heldStrip(figure: StripFigure, held: StripFigure | undefined, axis: Axis, levels: StripLevels, { up }: Scales): string {
  if (held?.amplitude === undefined || figure.amplitude === undefined || !held.toScale || !figure.toScale) return '';
  const { amplitude, offset } = held;
  const ends = (one: StripFigure, half: number): number[] => [one.offset + half, one.offset - half].map((raised) => Math.max(-MOST_REACH, Math.min(MOST_REACH, raised * up)));
  const same = held.support === figure.support && Math.abs(held.length - figure.length) * axis.pxPerMetre < 0.75
    && Math.abs(offset - figure.offset) * up < 0.75 && Math.abs(amplitude - figure.amplitude) * up < 0.75;
  return same ? '' : group('held', ends(held, amplitude).map((raised) => stripOutline(held, raised, axis, levels, 'held-outline')));
}

/** The section looked at; the place of the highest stress is marked in the stress diagram. */
function marksOf({ section }: StripFigure, axis: Axis, { middle, half }: StripLevels): string {
  return section === undefined ? '' : sectionMark(axis.x(section), middle - half - 16, middle + half + 16);
}

/** Amplitude above the upper outline beside the drive, offset below the lower one, the height in the first half. */
function lettersOf(figure: StripFigure, axis: Axis, levels: StripLevels, { reach }: Scales, figures: TypedFigure[]): string {
  const { support, length, values } = figure;
  const size = axis.textSize;
  const drive = axis.x(figure.shape.drive * length);
  const anchor = support === 'centre' ? 'middle' : 'end';
  const parts: string[] = [];
  const place = (value: FigureValue | undefined, x: number, y: number, side: 'middle' | 'end' | 'start'): void => {
    if (value === undefined) return;
    const runs = equation(value);
    const width = runsWidth(runs, size);
    const left = side === 'middle' ? x - width / 2 : side === 'end' ? x - width : x;
    if (value.given !== undefined) figures.push({ given: value.given, x: left - 2, y: y - size, width: width + 4, height: size * 1.35 });
    parts.push(lettering(runs, { x, y, anchor: side, size, className: value.given === undefined ? 'value' : 'value yours' }));
  };
  const right = support === 'centre' ? drive : Math.min(axis.width - 4, drive + 16);
  place(values.amplitude, right, levels.middle - levels.half - reach - size * 1.3, anchor);
  if (figure.offset !== 0) place(values.offset, support === 'centre' ? drive : drive - 6, levels.middle + levels.half + reach + size * 1.2, anchor);
  const at = axis.x((support === 'centre' ? 0.22 : 0.4) * length);
  place(values.height, at + 6, levels.middle - levels.half - 10 - shapeRise(figure, at, axis, reach), 'start');
  return group('measures', [heightArrows(at, levels), ...parts]);
}

/** How far the upper outline stands above the unloaded strip at a place, px. */
function shapeRise({ shape, length }: StripFigure, x: number, axis: Axis, reach: number): number {
  return reach * shape.deflection((x - axis.x(0)) / (axis.x(length) - axis.x(0)));
}

function rowsOf({ toScale, length, section, values }: StripFigure): DimensionRow[] {
  const row = (name: string, to: number | undefined, value: FigureValue | undefined): DimensionRow =>
    ({ name, dimensions: to === undefined || value === undefined || (name === 'section' && !toScale) ? [] : [{ from: 0, to, value }] });
  return [row('section', section, values.section), row('overall', length, values.length)];
}

function handlesOf(figure: StripFigure, axis: Axis, { middle, half }: StripLevels, { up, amplitude, offset }: Scales): Handle[] {
  const along = figure.movable.map((place): Handle => ({ ...place, x: axis.x(place.position) - 18, y: middle - 22, width: 36, height: 44 }));
  const drive = axis.x(figure.shape.drive * figure.length);
  // Beside the drive, so that the places for the length and for the stroke don't lie on each other.
  const x = figure.support === 'centre' ? drive + 20 : drive - (axis.width < NARROW ? 62 : 72);
  const upright = figure.ends.map(({ side, ...place }): Handle => {
    const edge = middle - (offset + side * amplitude) * figure.shape.deflection((x + 22 - axis.x(0)) / (axis.right - axis.left)) - side * half;
    return { ...place, x, y: side === 1 ? edge - 36 : edge - 8, width: 44, height: 44, upright: { pxPerMetre: up } };
  });
  return [...along, ...upright];
}

const HELD: Readonly<Record<StripFigure['support'], string>> = {
  cantilever: 'clamped at its left end and driven up and down at its right end',
  guided: 'clamped at its left end, its right end guided up and down without turning',
  tapered: 'clamped at its left end and driven at its right end, where its width tapers to nothing',
  waisted: 'clamped at its left end, waisted in its width and driven up and down at its right end',
  centre: 'on two supports, driven up and down at mid-span',
};

function sentenceOf(figure: StripFigure, enlarged: number): string {
  const { amplitude, values, toScale } = figure;
  const scale = enlarged === 1 ? 'To scale' : 'Lengths to scale';
  const first = `${toScale ? `${scale}: the` : 'The'} specimen is ${HELD[figure.support]}`;
  if (amplitude === undefined || values.amplitude === undefined) return `${first}.`;
  const offset = figure.offset === 0 || values.offset === undefined || values.offset.text === '' ? '' : `, about a middle ${values.offset.text} off the unloaded position`;
  return `${first}, ${values.amplitude.text} to either side${offset}; chain lines show it at both ends of the stroke.`;
}

function descriptionOf(figure: StripFigure, sentence: string): string {
  const { length, height, section } = figure.values;
  const parts = [length, height, section].flatMap((value) => (value === undefined ? [] : [namedValue(value)]));
  const notes = figure.notes.map((note) => ` ${note.map((run) => (typeof run === 'string' ? run : spokenSymbol(run.symbol))).join('')}`).join('');
  return `Side view of the bending test. ${sentence} Free length, height and section looked at: ${parts.join(', ')}.${notes}`;
}
