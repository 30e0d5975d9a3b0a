import { shearMomentDiagram, type Extreme, type ShearMomentDiagram } from '../../core/mechanics/index.ts';
import { spoken, spokenSymbol } from './lettering.ts';
import type { BeamFigure, FigureValue, Run } from './types.ts';

function plain(runs: readonly Run[]): string {
  return runs.map((run) => (typeof run === 'string' ? run : spokenSymbol(run.symbol))).join('');
}

function named(value: FigureValue): string {
  const text = spoken(value);
  const name = spokenSymbol(value.symbol) + (value.names === undefined ? '' : ` = ${spokenSymbol(value.names)}`);
  return text === spokenSymbol(value.symbol) ? name : `${name} = ${text}`;
}

function seen(value: FigureValue): value is FigureValue & { si: number } {
  return !value.hidden && value.si !== undefined;
}

/** The free-body drawing as one paragraph. */
export function freeBodyDescription(figure: BeamFigure): string {
  const { left, right } = figure.reactions;
  const loads = figure.loads.map((load) => {
    const where = figure.toScale ? ` ${figure.lengthText(load.position)} from the left support` : '';
    return `${named(load.force)} ${(load.force.si ?? 0) < 0 && !load.force.hidden ? 'upwards' : 'downwards'}${where}`;
  });
  const spans = figure.dimensions.filter((one) => one.line !== 'section').map((one) => named(one.value));
  const section = figure.dimensions.filter((one) => one.line === 'section').map((one) => ` The section is at ${named(one.value)}`
    + `${figure.diameter ? `, diameter ${named(figure.diameter)}` : ''}.`);
  const notes = figure.notes.map((note) => ` ${plain(note)}`).join('');
  return `A rotating shaft on two supports, pin on the left and roller on the right. Loads: ${loads.join('; ')}. `
    + `Reactions: ${named(left)} on the left, ${named(right)} on the right. Lengths: ${spans.join(', ')}.${section.join('')}${notes}`;
}

/** What to see in the free-body drawing, for the reader's eye. */
export function freeBodySentence(figure: BeamFigure): string {
  const { left, right } = figure.reactions;
  if (!figure.toScale) return 'The shaft cut free, not to scale: some lengths are still missing or out of order.';
  const scale = figure.closes ? 'to scale' : 'not to scale, for the spans do not close';
  if (left.hidden || right.hidden) return `The shaft cut free, ${scale}. The support forces appear here once you have worked them out.`;
  if (!seen(left) || !seen(right)) return `The shaft cut free, ${scale}.`;
  const carries = (side: string, value: FigureValue & { si: number }) =>
    (value.si < 0 ? `the ${side} support holds the shaft down (${value.text})` : `the ${side} support carries ${value.text}`);
  return `${figure.closes ? 'To scale' : 'Not to scale, for the spans do not close'}: ${carries('left', left)}, ${carries('right', right)}.`;
}

/** Beyond this no plot has a finite scale. */
const LARGEST = 1e150;

/** The diagram with the sheet's own reactions, where every value it needs is there. */
export function diagramOf(figure: BeamFigure): ShearMomentDiagram | undefined {
  const { left, right } = figure.reactions;
  if (!figure.toScale || left.si === undefined || right.si === undefined) return undefined;
  const loads = figure.loads.flatMap((load) => (load.force.si === undefined ? [] : [{ position: load.position, force: load.force.si }]));
  if (loads.length < figure.loads.length) return undefined;
  const diagram = shearMomentDiagram({ span: figure.span, loads }, { left: left.si, right: right.si });
  const drawable = diagram.points.every((point) => Math.abs(point.moment) < LARGEST && Math.abs(point.shearRight) < LARGEST);
  return drawable ? diagram : undefined;
}

/** Where the sheet's shear and moment at the section hold: its formulas build from the left up to the right support. */
export function isBetweenSupports(figure: BeamFigure, position: number): boolean {
  return position >= 0 && position <= figure.span;
}

/** Whether a panel would give away what the reader is asked to work out. */
export function isWithheld(figure: BeamFigure, panel: 'shear' | 'moment'): boolean {
  const { left, right } = figure.reactions;
  const forces = figure.loads.map((load) => load.force);
  return [left, right, ...forces].some((value) => value.hidden) || (figure.section?.[panel].hidden ?? false);
}

/** `the left load point`, or the distance, for a place. */
function placeName(figure: BeamFigure, position: number): string {
  const [first, second] = [...figure.loads].map((load) => load.position).sort((a, b) => a - b);
  if (position === first && first === second) return 'where both loads act';
  if (position === first) return 'at the left load point';
  if (position === second) return 'at the right load point';
  if (position === 0) return 'at the left support';
  if (position === figure.span) return 'at the right support';
  return `${figure.lengthText(position)} from the left support`;
}

function stretchName(figure: BeamFigure, from: number, to: number): string {
  const loads = figure.loads.map((load) => load.position).sort((a, b) => a - b);
  if (figure.loads.length === 2 && from === loads[0] && to === loads[1]) return 'between the load points';
  if (from === 0 && to === figure.span) return 'between the supports';
  return `from ${figure.lengthText(from)} to ${figure.lengthText(to)}`;
}

/** The one of the two extremes that lies further from zero. */
function largest(extremes: { greatest: Extreme; least: Extreme }): Extreme {
  return Math.abs(extremes.least.value) > Math.abs(extremes.greatest.value) ? extremes.least : extremes.greatest;
}

/** What to see in the shear and moment diagrams. */
export function shearMomentSentence(figure: BeamFigure, diagram: ShearMomentDiagram | undefined): string {
  if (isWithheld(figure, 'moment')) return 'The diagrams appear here once you have worked out the forces and the moment.';
  if (!diagram) return 'The diagrams appear here when every length and force has a value.';
  const extreme = largest(diagram.moment);
  const value = figure.momentText(extreme.value);
  if (extreme.value === 0) return 'Nothing bends the shaft: the moment is zero everywhere.';
  const [place] = extreme.places;
  if (!place) return `The largest bending moment is ${value}.`;
  if (place.to > place.from) return `Shear is zero ${stretchName(figure, place.from, place.to)}, so the moment there is constant at ${value}.`;
  const places = extreme.places.map((one) => placeName(figure, one.from)).join(' and ');
  const { section } = figure;
  const atSection = section && seen(section.moment) && isBetweenSupports(figure, section.position) && !extreme.places.some((one) => one.from === section.position)
    ? `; at the section it is ${section.moment.text}` : '';
  return `The largest bending moment, ${value}, is ${places}${atSection}.`;
}

/** The shear and moment diagrams as one paragraph. */
export function shearMomentDescription(figure: BeamFigure, diagram: ShearMomentDiagram | undefined): string {
  const sentence = shearMomentSentence(figure, diagram);
  const notes = figure.notes.map((note) => ` ${plain(note)}`).join('');
  if (!diagram || isWithheld(figure, 'shear') || isWithheld(figure, 'moment')) return `Shear and moment diagrams. ${sentence}${notes}`;
  const at = diagram.points.map((point) => `${placeName(figure, point.position)}: shear ${figure.shearText(point.shearRight)} just right of it, `
    + `moment ${figure.momentText(point.moment)}`);
  const { section } = figure;
  const marked = section && isBetweenSupports(figure, section.position) ? ` At the section: shear ${spoken(section.shear)}, moment ${spoken(section.moment)}.` : '';
  return `Shear and moment diagrams along the shaft, moment positive when it sags. ${at.join('; ')}.${marked} ${sentence}${notes}`;
}
