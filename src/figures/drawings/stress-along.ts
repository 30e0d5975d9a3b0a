import { STRIP_SHAPES } from '../../core/mechanics/index.ts';
import { axisIn, NARROW, type Axis } from './axis.ts';
import { diagramPanel, hatchPattern, type DrawnPanel } from './diagram-panel.ts';
import { noteLines, svgElement } from './frame-markup.ts';
import { equation, lettering } from './lettering.ts';
import { circle, group, line, safeId } from './markup.ts';
import type { StripFigure } from './strip-figure.ts';
import type { Drawing, DrawingOptions, Handle, Run } from './types.ts';

/** Corners of the curve: the shapes are straight between clamp, middle and end. */
const CORNERS = [0, 0.25, 0.5, 0.75, 1];

/** The stress amplitude along the free length, over the same axis as the set-up, with its highest places and the section marked. */
export function stressAlong(figure: StripFigure, options: DrawingOptions): Drawing {
  const axis = axisIn({ from: 0, to: figure.length }, options);
  const pattern = `${safeId(options.idPrefix)}-hatch`;
  const greatest = figure.withheld || !figure.toScale ? undefined : finite(figure.values.stress?.si);
  const panel = panelOf(figure, axis, greatest, pattern);
  const notes = noteLines(greatest === undefined && !figure.withheld ? [['The diagram needs a stress and a length.']] satisfies Run[][] : figure.notes, axis, panel.bottom + 2);
  const size = { width: axis.width, height: Math.ceil(notes.bottom + 4) };
  const sentence = sentenceOf(figure, greatest);
  const description = `Stress amplitude along the specimen, from ${figure.support === 'centre' ? 'the left support' : 'the clamp'} to its end. ${sentence}`;
  return {
    svg: svgElement(options.idPrefix, size, 'Stress along the specimen', description, [
      hatchPattern(pattern), panel.svg, marksOf(figure, axis, panel, greatest), notes.svg,
    ]),
    description,
    sentence,
    viewBox: size,
    handles: figure.movable.filter(({ name }) => name === 'section').map((place): Handle => ({
      ...place, x: axis.x(place.position) - 18, y: panel.plotTop, width: 36, height: panel.plotBottom - panel.plotTop,
    })),
    figures: [],
    frame: axis.frame,
    pxPerMetre: axis.pxPerMetre,
  };
}

function finite(si: number | undefined): number | undefined {
  return si !== undefined && Number.isFinite(si) && Math.abs(si) < 1e100 ? si : undefined;
}

function panelOf(figure: StripFigure, axis: Axis, greatest: number | undefined, pattern: string): DrawnPanel {
  const { stress } = STRIP_SHAPES[figure.support];
  const { section, values } = figure;
  return diagramPanel({
    kind: 'stress',
    top: 4,
    plotHeight: Math.max(axis.textSize * 6, axis.width < NARROW ? 84 : 110),
    points: greatest === undefined ? [] : CORNERS.map((share) => ({ position: share * figure.length, value: greatest * stress(share) })),
    labels: greatest === undefined || greatest === 0 || isAtEnd(figure) ? [] : [{ from: 0, to: figure.length, value: greatest }],
    valueText: figure.stressText,
    mark: greatest === undefined || section === undefined || values.local === undefined ? undefined : { position: section, value: values.local },
    withheld: figure.withheld,
  }, axis, pattern);
}

/** Where the stress is highest at an end, its figure stands in the free corner of the diagram instead of on the curve. */
function isAtEnd({ support }: StripFigure): boolean {
  return support === 'cantilever' || support === 'guided';
}

/** A dot wherever the stress is highest; what it means stands where the diagram leaves room. */
function marksOf(figure: StripFigure, axis: Axis, panel: DrawnPanel, greatest: number | undefined): string {
  if (greatest === undefined || greatest <= 0) return '';
  const { support, length, section, values } = figure;
  const size = axis.textSize;
  const dots = STRIP_SHAPES[support].highest.map((share) => circle({ x: axis.x(share * length), y: panel.plotTop }, 3.5, 'section-dot'));
  const looked = section === undefined ? '' : line({ x: axis.x(section), y: panel.plotTop - 6 }, { x: axis.x(section), y: panel.plotBottom + 6 }, 'section-line');
  const right = support === 'cantilever';
  const word = (runs: readonly Run[], row: number, className: string): string => lettering(runs, {
    x: right ? axis.x(length) : axis.x(length / 2), y: panel.plotTop + size * (0.4 + 1.3 * row), anchor: right ? 'end' : 'middle', size, className,
  });
  const own = isAtEnd(figure) && values.stress !== undefined ? [word(equation(values.stress), 0, 'value')] : [];
  return group('marks', [looked, ...dots, ...own, word([EXPECTED[support]], isAtEnd(figure) ? 1 : 2, 'word look')]);
}

const EXPECTED: Readonly<Record<StripFigure['support'], string>> = {
  cantilever: 'fracture expected at the clamp',
  guided: 'fracture expected at an end',
  tapered: 'fracture anywhere on the taper',
  centre: 'fracture expected here',
};

const HIGHEST: Readonly<Record<StripFigure['support'], string>> = {
  cantilever: 'at the clamp’s edge and falls in a straight line to nothing at the drive',
  guided: 'at both ends and nothing in the middle',
  tapered: 'the same all along the taper',
  centre: 'at mid-span and falls in straight lines to nothing at the supports',
};

function sentenceOf({ support, values, withheld, section, lengthText }: StripFigure, greatest: number | undefined): string {
  if (withheld) return 'The stress along the specimen appears here once you have worked it out.';
  if (greatest === undefined || values.stress === undefined) return 'The stress along the specimen appears here when it has a value.';
  const first = `The stress amplitude is highest, ${values.stress.text}, ${HIGHEST[support]}`.replace(', the same', ' and the same');
  const { local } = values;
  return section === undefined || local === undefined || local.text === '' || local.hidden
    ? `${first}.` : `${first}; at the section looked at, ${lengthText(section)} along, it is ${local.text}.`;
}
