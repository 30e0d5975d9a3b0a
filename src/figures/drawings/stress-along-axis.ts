import { diameterAt } from '../../core/mechanics/index.ts';
import { axisIn, NARROW, type Axis } from './axis.ts';
import { diagramPanel, hatchPattern, type DrawnPanel } from './diagram-panel.ts';
import { noteLines, svgElement } from './frame-markup.ts';
import { heldPath } from './held-outline.ts';
import { equation, lettering, runsWidth, spoken } from './lettering.ts';
import { group, line, path, safeId } from './markup.ts';
import { centreLine, sectionMark } from './parts.ts';
import { greatestStress, placesAlong, type SpecimenFigure, type StressPoint } from './specimen-figure.ts';
import type { Drawing, DrawingOptions, FigureValue, Handle, TypedFigure } from './types.ts';

/** Height that the specimen is given at most, px: where it would be taller, more of the grips is shown instead. */
const TALLEST = 150;
const SMALLEST_HALF = 1e-6;

/**
 * The specimen's profile, true to scale in both directions, and the nominal stress along it below: greatest value, ends
 * of the test section, and where it broke.
 * @param held drawn behind as an outline
 */
export function stressAlongAxis(figure: SpecimenFigure, options: DrawingOptions, held?: SpecimenFigure): Drawing {
  const half = Math.max(halfShown(figure, options), held?.profile === undefined ? 0 : halfShown(held, options));
  const axis = axisIn({ from: -half, to: half }, options);
  const pattern = `${safeId(options.idPrefix)}-hatch`;
  const shown = Math.max(Math.abs(axis.frame.from), Math.abs(axis.frame.to));
  const greatest = greatestStress(figure, shown);
  const profile = specimen(figure, axis, shown, held);
  const panel = stressPanel(figure, axis, { half: shown, greatest, top: profile.bottom + 4 }, pattern, held);
  const notes = noteLines(figure.notes, axis, panel.bottom + 2);
  const size = { width: axis.width, height: Math.ceil(notes.bottom + 4) };
  const sentence = sentenceOf(figure, greatest);
  const description = descriptionOf(figure, sentence);
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Stress along the specimen', description }, [
      hatchPattern(pattern), guides(figure, axis, profile, panel), profile.svg, panel.svg, fractureMark(figure, axis, profile, panel), notes.svg,
    ]),
    description,
    sentence,
    viewBox: size,
    handles: figure.movable.map((place): Handle => ({
      ...place, x: axis.x(place.position) - 18, y: profile.middle - 24, width: 36, height: 48,
    })),
    figures: profile.figures,
    frame: axis.frame,
    pxPerMetre: axis.pxPerMetre,
  };
}

/** Half the length shown: arcs, test section and fracture, and so much of the grips that the specimen is not too tall. */
function halfShown(figure: SpecimenFigure, options: DrawingOptions): number {
  const { profile, reach, test, fracture } = figure;
  if (profile === undefined) return 0.02;
  const width = Math.max(240, options.width) * 0.82;
  const tall = ((width / 2) * profile.grip) / TALLEST;
  return Math.max(SMALLEST_HALF, 1.12 * reach, 0.6 * (test ?? 0), 1.1 * Math.abs(fracture?.at ?? 0), tall);
}

interface DrawnSpecimen {
  readonly svg: string;
  readonly top: number;
  readonly middle: number;
  readonly bottom: number;
  readonly figures: readonly TypedFigure[];
}

function specimen(figure: SpecimenFigure, axis: Axis, half: number, held: SpecimenFigure | undefined): DrawnSpecimen {
  const { profile, diameter, grip } = figure;
  const size = axis.textSize;
  const top = size * 1.4 + 10;
  if (profile === undefined) return { svg: '', top, middle: top + 30, bottom: top + 60, figures: [] };
  const halves = halvesAlong(figure, axis, half);
  const then = held === undefined ? [] : halvesAlong(held, axis, half);
  const tallest = Math.max(...[...halves, ...then].map((one) => one.half));
  const middle = top + tallest;
  const outline = outlineOf(halves, middle);
  const figures: TypedFigure[] = [];
  const letters = [
    figureAt(diameter, { x: axis.x(0), y: middle - (profile.diameter / 2) * axis.pxPerMetre - 6, anchor: 'middle' }, axis, figures),
    axis.width < NARROW ? '' : figureAt(grip, { x: axis.right, y: middle - tallest - 6, anchor: 'end' }, axis, figures),
  ];
  const svg = group('body', [
    path(outline, 'outline'),
    ...(then.length === 0 ? [] : [heldPath(outlineOf(then, middle), outline)]),
    centreLine(Math.max(2, axis.left - 10), Math.min(axis.width - 2, axis.right + 10), middle),
    ...letters,
  ]);
  return { svg, top, middle, bottom: middle + tallest + 8, figures };
}

interface HalfThickness {
  readonly x: number;
  readonly half: number;
}

/** Half the thickness along the axis, px. */
function halvesAlong(figure: SpecimenFigure, axis: Axis, half: number): readonly HalfThickness[] {
  const { profile } = figure;
  if (profile === undefined) return [];
  return placesAlong(figure, half).map((place) => ({ x: axis.x(place), half: (diameterAt(profile, place) / 2) * axis.pxPerMetre }));
}

function outlineOf(halves: readonly HalfThickness[], middle: number): (string | number)[] {
  const upper = halves.flatMap((one, index) => [index === 0 ? 'M' : 'L', one.x, middle - one.half]);
  return [...upper, ...halves.toReversed().flatMap((one) => ['L', one.x, middle + one.half]), 'Z'];
}

/** A diameter's figure, which can be typed over where it is the reader's own. */
function figureAt(
  value: FigureValue | undefined, { x, y, anchor }: { readonly x: number; readonly y: number; readonly anchor: 'middle' | 'end' }, axis: Axis, figures: TypedFigure[],
): string {
  if (value === undefined || value.si === undefined || value.hidden) return '';
  const runs = ['⌀\u00A0', ...equation(value)];
  const width = runsWidth(runs, axis.textSize);
  if (value.given !== undefined) {
    figures.push({ given: value.given, x: (anchor === 'middle' ? x - width / 2 : x - width) - 2, y: y - axis.textSize, width: width + 4, height: axis.textSize * 1.3 });
  }
  return lettering(runs, { x, y, anchor, size: axis.textSize, className: value.given === undefined ? 'value' : 'value yours' });
}

interface PanelShown {
  /** From the waist to either side, m. */
  readonly half: number;
  readonly greatest: StressPoint | undefined;
  readonly top: number;
}

function stressPanel(figure: SpecimenFigure, axis: Axis, { half, greatest, top }: PanelShown, pattern: string, held: SpecimenFigure | undefined): DrawnPanel {
  const { stressAt, fracture } = figure;
  const points = stressPoints(figure, half);
  return diagramPanel({
    kind: 'stress',
    top,
    plotHeight: Math.max(axis.textSize * 6, axis.width < NARROW ? 84 : 110),
    points,
    behind: held === undefined || held.withheld ? undefined : stressPoints(held, half),
    labels: greatest === undefined || greatest.stress === 0 ? [] : [{ from: greatest.position, to: greatest.position, value: greatest.stress }],
    valueText: figure.stressText,
    mark: stressAt === undefined || fracture === undefined ? undefined : { position: fracture.at, value: fracture.stress },
    withheld: figure.withheld,
  }, axis, pattern);
}

function stressPoints(figure: SpecimenFigure, half: number): readonly { readonly position: number; readonly value: number }[] {
  const { stressAt } = figure;
  return stressAt === undefined ? [] : placesAlong(figure, half).map((position) => ({ position, value: stressAt(position) }));
}

/** Ends of the test section, through specimen and diagram. */
function guides({ test }: SpecimenFigure, axis: Axis, profile: DrawnSpecimen, panel: DrawnPanel): string {
  if (test === undefined) return '';
  const size = axis.textSize;
  const ends = [-test / 2, test / 2].filter(axis.shows).map((place) => axis.x(place));
  return group('guides', [
    ...ends.map((x) => line({ x, y: profile.top }, { x, y: panel.plotBottom }, 'guide')),
    lettering(['test section'], { x: axis.x(0), y: panel.plotBottom - 6, anchor: 'middle', size, className: 'word soft' }),
  ]);
}

function fractureMark({ fracture, stressAt }: SpecimenFigure, axis: Axis, profile: DrawnSpecimen, panel: DrawnPanel): string {
  if (fracture === undefined) return '';
  const x = axis.x(fracture.at);
  const size = axis.textSize;
  return sectionMark(x, profile.top - 6, profile.bottom)
    + (stressAt === undefined ? '' : line({ x, y: panel.plotTop - 4 }, { x, y: panel.plotBottom + 4 }, 'section-line'))
    + lettering(['fracture'], { x: Math.max(32, Math.min(axis.width - 32, x)), y: size, anchor: 'middle', size, className: 'word look' });
}

function sentenceOf(figure: SpecimenFigure, greatest: StressPoint | undefined): string {
  if (figure.withheld) return 'The stress along the specimen appears here once you have worked it out.';
  if (figure.profile === undefined) return 'The specimen appears here when its diameters and its radius have values.';
  if (greatest === undefined) return 'The specimen, to scale. The stress appears here when the moment has a value.';
  const { profile, fracture, lengthText, stressText } = figure;
  const flat = profile.flat > 0 ? 'in the cylindrical part' : 'at the waist';
  const off = Math.abs(greatest.position) - profile.flat;
  const where = off < 0.01 * profile.diameter ? flat : `${lengthText(Math.abs(greatest.position))} from the waist`;
  const first = `To scale. The nominal stress is greatest ${where}, ${stressText(greatest.stress)}`;
  if (fracture === undefined || fracture.stress.hidden || fracture.stress.si === undefined) return `${first}.`;
  const share = `${((100 * fracture.stress.si) / greatest.stress).toFixed(1)}\u00A0%`;
  return `${first}; where it broke, ${lengthText(Math.abs(fracture.at))} from the waist, it is ${fracture.stress.text} (${share} of that).`;
}

function descriptionOf(figure: SpecimenFigure, sentence: string): string {
  const { diameter, grip, test, lengthText } = figure;
  const shape = diameter === undefined || grip === undefined ? '' : ` Least diameter ${spoken(diameter)}, grip diameter ${spoken(grip)}.`;
  const section = test === undefined ? '' : ` The test section is ${lengthText(test)} long, centred on the waist.`;
  return `Profile of the specimen with the nominal stress along its axis below.${shape}${section} ${sentence}`;
}
