import { axisIn, NARROW, type Axis } from './axis.ts';
import { diagramPanel, hatchPattern, type DrawnPanel, type Panel } from './diagram-panel.ts';
import { noteLines, svgElement } from './frame-markup.ts';
import { equation, lettering } from './lettering.ts';
import { circle, group, line, safeId } from './markup.ts';
import { longestOf, type StripFigure } from './strip-figure.ts';
import type { Drawing, DrawingOptions, FigureValue, Handle, Run } from './types.ts';

type DrawnPoints = Panel['points'];

/** Corners of the curves, as shares of the length: the shapes are straight between ends and middle. */
const CORNERS = [0, 0.5, 1];

/** So many pieces show the stress of a waisted strip as the curve it is. */
const PIECES = 160;

/** Moment and stress amplitude along the free length, over the same axis as the set-up, with the highest stress and the section marked. @param held drawn behind as a line */
export function stressAlong(figure: StripFigure, options: DrawingOptions, held?: StripFigure): Drawing {
  const axis = axisIn({ from: 0, to: longestOf(figure, held) }, options);
  const pattern = `${safeId(options.idPrefix)}-hatch`;
  const { values } = figure;
  const moment = values.moment !== undefined ? panelOf(figure, 'moment', axis, { top: 4, pattern, held }) : undefined;
  const stress = panelOf(figure, 'stress', axis, { top: moment === undefined ? 4 : moment.bottom + 4, pattern, held });
  const missing = [values.moment, values.stress].filter((value) => value !== undefined && !value.hidden && finite(value) === undefined);
  const notes = noteLines(missing.length > 0 || !figure.toScale ? [['The diagrams need moment, stress and length.']] satisfies Run[][] : figure.notes, axis, stress.bottom + 2);
  const size = { width: axis.width, height: Math.ceil(notes.bottom + 4) };
  const sentence = sentenceOf(figure);
  const description = `Moment and stress amplitude along the specimen, from ${figure.support === 'centre' ? 'the left support' : 'the clamp'} to its end. ${sentence}`;
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Moment and stress along the specimen', description }, [
      hatchPattern(pattern), moment === undefined ? '' : moment.svg + momentLetters(figure, axis, moment), stress.svg, marksOf(figure, axis, stress), notes.svg,
    ]),
    description,
    sentence,
    viewBox: size,
    handles: figure.movable.filter(({ name }) => name === 'section').map((place): Handle => ({
      ...place, x: axis.x(place.position) - 18, y: stress.plotTop, width: 36, height: stress.plotBottom - stress.plotTop,
    })),
    figures: [],
    frame: axis.frame,
    pxPerMetre: axis.pxPerMetre,
  };
}

function finite(value: FigureValue | undefined): number | undefined {
  const si = value?.hidden === false ? value.si : undefined;
  return si !== undefined && Number.isFinite(si) && Math.abs(si) < 1e100 ? si : undefined;
}

/** A value to draw: it is known, and so is where it belongs. */
function drawn(figure: StripFigure, role: 'moment' | 'stress'): number | undefined {
  return figure.toScale ? finite(figure.values[role]) : undefined;
}

interface PanelShown {
  readonly top: number;
  /** Id of the pattern that fills the area. */
  readonly pattern: string;
  readonly held: StripFigure | undefined;
}

function panelOf(figure: StripFigure, role: 'moment' | 'stress', axis: Axis, { top, pattern, held }: PanelShown): DrawnPanel {
  const { section, values, length } = figure;
  const greatest = drawn(figure, role);
  return diagramPanel({
    kind: role === 'moment' ? 'moment-amplitude' : 'stress',
    top,
    plotHeight: Math.max(axis.textSize * 6, axis.width < NARROW ? 84 : 110) * (role === 'moment' ? 0.7 : 1),
    points: pointsOf(figure, role),
    behind: held === undefined ? undefined : pointsOf(held, role),
    labels: greatest === undefined || greatest === 0 || isAtEnd(figure, role) ? [] : [{ from: 0, to: length, value: greatest }],
    valueText: role === 'moment' ? figure.momentText : figure.stressText,
    mark: role === 'moment' || greatest === undefined || section === undefined || values.local === undefined ? undefined : { position: section, value: values.local },
    withheld: values[role]?.hidden ?? false,
  }, axis, pattern);
}

function pointsOf(figure: StripFigure, role: 'moment' | 'stress'): DrawnPoints {
  const greatest = drawn(figure, role);
  const shape = figure.shape[role];
  const shares = figure.waist !== undefined && role === 'stress' ? Array.from({ length: PIECES + 1 }, (_, i) => i / PIECES) : CORNERS;
  return greatest === undefined ? [] : shares.map((share) => ({ position: share * figure.length, value: greatest * shape(share) }));
}

/** Where the value is highest at an end alone, or at a waist, its figure stands in the free corner of the diagram instead of on the curve. */
function isAtEnd({ support }: StripFigure, role: 'moment' | 'stress'): boolean {
  return support === 'cantilever' || support === 'guided' || support === 'waisted' || (support === 'tapered' && role === 'moment');
}

interface CornerLine {
  readonly runs: readonly Run[];
  readonly row: number;
  readonly className: string;
  readonly role: 'moment' | 'stress';
}

/** A line of letters in the corner that a falling line leaves free, or in the middle where the line is another. */
function corner(figure: StripFigure, axis: Axis, panel: DrawnPanel, { runs, row, className, role }: CornerLine): string {
  const isRight = figure.support === 'cantilever' || figure.support === 'waisted' || (figure.support === 'tapered' && role === 'moment');
  return lettering(runs, {
    x: axis.x(isRight ? figure.length : figure.length / 2), y: panel.plotTop + axis.textSize * (0.4 + 1.3 * row),
    anchor: isRight ? 'end' : 'middle', size: axis.textSize, className,
  });
}

/** A value, and where it is one of the waist. */
function placed({ waist }: StripFigure, value: FigureValue): Run[] {
  return waist === undefined ? [...equation(value)] : [...equation(value), ' at the waist'];
}

function momentLetters(figure: StripFigure, axis: Axis, panel: DrawnPanel): string {
  const { moment } = figure.values;
  return moment !== undefined && (drawn(figure, 'moment') ?? 0) > 0 && isAtEnd(figure, 'moment') ? corner(figure, axis, panel, { runs: placed(figure, moment), row: 0, className: 'value', role: 'moment' }) : '';
}

/** A dot wherever the stress is highest; what it means stands where the diagram leaves room. */
function marksOf(figure: StripFigure, axis: Axis, panel: DrawnPanel): string {
  const { support, shape, length, section, values } = figure;
  if ((drawn(figure, 'stress') ?? 0) <= 0) return '';
  const dots = shape.highest.map((share) => circle({ x: axis.x(share * length), y: panel.plotTop }, 3.5, 'section-dot'));
  const looked = section === undefined ? '' : line({ x: axis.x(section), y: panel.plotTop - 6 }, { x: axis.x(section), y: panel.plotBottom + 6 }, 'section-line');
  const isEnd = isAtEnd(figure, 'stress');
  const own = isEnd && values.stress !== undefined ? [corner(figure, axis, panel, { runs: placed(figure, values.stress), row: 0, className: 'value', role: 'stress' })] : [];
  return group('marks', [looked, ...dots, ...own, corner(figure, axis, panel, { runs: [EXPECTED[support]], row: isEnd ? 1 : 2, className: 'word look', role: 'stress' })]);
}

const EXPECTED: Readonly<Record<StripFigure['support'], string>> = {
  cantilever: 'fracture expected at the clamp',
  guided: 'fracture expected at an end',
  tapered: 'fracture anywhere on the taper',
  waisted: 'fracture expected at the waist',
  centre: 'fracture expected here',
};

const HIGHEST: Readonly<Record<StripFigure['support'], string>> = {
  cantilever: ', at the clamp’s edge and falls in a straight line to nothing at the drive',
  guided: ', at both ends and nothing in the middle, where the moment changes its sign',
  tapered: ' and the same all along the taper, since the width falls as the moment does',
  waisted: ' at the narrowest place, and a little more just before it; towards clamp and drive it falls',
  centre: ', at mid-span and falls in straight lines to nothing at the supports',
};

function sentenceOf(figure: StripFigure): string {
  const { support, values, section, lengthText } = figure;
  if (values.stress?.hidden === true) return 'The stress along the specimen appears here once you have worked it out.';
  if (drawn(figure, 'stress') === undefined || values.stress === undefined) return 'The stress along the specimen appears here when it has a value.';
  const first = `The stress amplitude is highest, ${values.stress.text}${HIGHEST[support]}`;
  const { local } = values;
  return section === undefined || local === undefined || local.text === '' || local.hidden
    ? `${first}.` : `${first}; at the section looked at, ${lengthText(section)} along, it is ${local.text}.`;
}
