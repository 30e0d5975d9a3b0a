import type { ShearMomentDiagram } from '../../core/mechanics/index.ts';
import { axisOf, NARROW, type Axis } from './axis.ts';
import { diagramPanel, hatchPattern, type DrawnPanel, type Panel } from './diagram-panel.ts';
import { noteLines, offDrawingNotes, svgElement } from './frame-markup.ts';
import { group, line, px, safeId } from './markup.ts';
import { diagramOf, isBetweenSupports, isWithheld, shearMomentDescription, shearMomentSentence } from './sentences.ts';
import type { BeamFigure, Drawing, DrawingOptions, Handle, Run } from './types.ts';

/**
 * Shear force and bending moment over the same axis as the free body, so that the two line up one above the other.
 * A panel whose shape would give away an unanswered step says so instead.
 * @param held drawn behind as a line
 */
export function shearMoment(figure: BeamFigure, options: DrawingOptions, held?: BeamFigure): Drawing {
  const axis = axisOf(figure, options, held);
  const diagram = diagramOf(figure);
  const pattern = `${safeId(options.idPrefix)}-hatch`;
  const panels = panelsOf(figure, diagram, axis, held);
  const [shear, moment] = [diagramPanel(panels.shear, axis, pattern), diagramPanel(panels.moment, axis, pattern)];
  const notes = noteLines([...reasons(figure, diagram), ...(diagram ? offDrawingNotes(figure, axis) : [])], axis, moment.bottom + 2);
  const size = { width: axis.width, height: Math.ceil(notes.bottom + 4) };
  const description = shearMomentDescription(figure, diagram);
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Shear force and bending moment along the shaft', description }, [
      hatchPattern(pattern),
      guides(figure, axis, shear), guides(figure, axis, moment),
      sectionLine(panels.shear, axis, shear), sectionLine(panels.moment, axis, moment),
      shear.svg, moment.svg, notes.svg,
    ]),
    description,
    sentence: shearMomentSentence(figure, diagram),
    viewBox: size,
    handles: sectionHandle(figure, axis, moment.plotTop, moment.plotBottom),
    figures: [],
    frame: axis.frame,
    pxPerMetre: axis.pxPerMetre,
  };
}

function panelsOf(figure: BeamFigure, diagram: ShearMomentDiagram | undefined, axis: Axis, held: BeamFigure | undefined): { shear: Panel; moment: Panel } {
  const then = held === undefined ? undefined : diagramOf(held);
  const plot = Math.max(axis.textSize * 5, axis.width < NARROW ? 64 : 82);
  const panel = (name: 'shear' | 'moment', top: number): Panel => {
    const shown = diagram !== undefined && !isWithheld(figure, name);
    const mark = markedSection(figure, name);
    return {
      kind: name, top, plotHeight: plot,
      points: shown ? curve(diagram, name) : [],
      behind: held === undefined || then === undefined || isWithheld(held, name) ? undefined : curve(then, name),
      labels: shown ? labelled(diagram, name) : [],
      valueText: name === 'shear' ? figure.shearText : figure.momentText,
      mark: shown ? mark : undefined,
      withheld: isWithheld(figure, name),
    };
  };
  const height = plot + axis.textSize * 4.6 + 10;
  return { shear: panel('shear', 4), moment: panel('moment', 4 + height) };
}

/** The section's line, with the sheet's own values where they hold. */
function markedSection(figure: BeamFigure, name: 'shear' | 'moment'): Panel['mark'] {
  const { section } = figure;
  if (!section || !figure.toScale) return undefined;
  return { position: section.position, ...(isBetweenSupports(figure, section.position) ? { value: section[name] } : {}) };
}

/** The line of the diagram as corners, metres and SI values. */
function curve(diagram: ShearMomentDiagram, name: 'shear' | 'moment'): Panel['points'] {
  if (name === 'moment') return diagram.points.map((point) => ({ position: point.position, value: point.moment }));
  return diagram.points.flatMap((point) => [
    { position: point.position, value: point.shearLeft },
    { position: point.position, value: point.shearRight },
  ]).slice(0, -1).concat({ position: diagram.points.at(-1)?.position ?? 0, value: 0 });
}

/** An extreme this small beside the other is no more than what rounding or the closure of the spans leaves over. */
const LEFT_OVER = 0.02;

/** Which values carry a figure: every level of the shear, the extremes of the moment that stand off the zero line. */
function labelled(diagram: ShearMomentDiagram, name: 'shear' | 'moment'): Panel['labels'] {
  if (name === 'shear') {
    return diagram.points.slice(0, -1).map((point, index) => ({
      from: point.position, to: diagram.points[index + 1]?.position ?? point.position, value: point.shearRight,
    }));
  }
  const { greatest, least } = diagram.moment;
  const largest = Math.max(Math.abs(greatest.value), Math.abs(least.value));
  return [greatest, least].filter((extreme) => Math.abs(extreme.value) > LEFT_OVER * largest)
    .flatMap((extreme) => extreme.places.map((place) => ({ from: place.from, to: place.to, value: extreme.value })));
}

/** Thin lines down from where forces act, through a panel. */
function guides(figure: BeamFigure, axis: Axis, { plotTop, plotBottom }: DrawnPanel): string {
  const places = new Set([0, figure.span, ...figure.loads.map((load) => load.position)].map((position) => px(axis.x(position))));
  return group('guides', [...places].map((x) => line({ x: Number(x), y: plotTop }, { x: Number(x), y: plotBottom }, 'guide')));
}

function sectionLine({ mark }: Panel, axis: Axis, { plotTop, plotBottom }: DrawnPanel): string {
  if (!mark) return '';
  const x = axis.x(mark.position);
  return line({ x, y: plotTop - 6 }, { x, y: plotBottom + 6 }, 'section-line');
}

/** Why there is no diagram, where nothing is merely withheld. */
function reasons(figure: BeamFigure, diagram: ShearMomentDiagram | undefined): (readonly Run[])[] {
  if (diagram) return [];
  if (figure.missing.length > 0) {
    const list = figure.missing.flatMap((symbol, index): Run[] => [index === 0 ? '' : ', ', { symbol }]);
    return [['The diagrams need a value for ', ...list, '.']];
  }
  return [['The diagrams need every length and force in proportion: look at the lengths above.']];
}

function sectionHandle(figure: BeamFigure, axis: Axis, top: number, bottom: number): Handle[] {
  return figure.movable.filter((place) => place.name === 'section')
    .map((place) => ({ ...place, x: axis.x(place.position) - 18, y: top, width: 36, height: bottom - top }));
}
