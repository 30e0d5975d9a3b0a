import type { Problem } from '../../core/problem/index.ts';
import { FORCE_DIMENSION, LENGTH_DIMENSION, MOMENT_DIMENSION, STRESS_DIMENSION } from '../../core/units/index.ts';
import {
  beamFigureFrom, freeBody, LEVER_ROLES, leverFigureFrom, loadingLever, planeBending, shearMoment, SPECIMEN_ROLES, specimenFigureFrom,
  showsHeld, stressAlong, stressAlongAxis, WITHHELD_PANEL,
  type BeamFigure, type BeamRole, type Drawing, type DrawingOptions, type LeverFigure, type SpecimenFigure,
} from '../../figures/drawings/index.ts';
import type { Chart, ChartOptions } from '../../figures/charts/index.ts';
import type { FigureCell } from '../../sheet/types.ts';
import { figureBudget } from './budget-figure.ts';
import { CHART_NAMES, presentChart } from './chart.ts';
import { roleValues, textLike } from './figure-values.ts';
import { referenceContext } from './held.ts';
import { isGuessing, awaitsGuess } from './hidden.ts';
import { notesOf } from './notes.ts';
import { stripOf } from './strip-drawing.ts';
import type { PresentContext, PresentedBudget, PresentedNotes } from './types.ts';

type Draw = (options: DrawingOptions) => Drawing;

export interface PresentedFigure extends PresentedNotes {
  /** Draws it at a width; absent for charts, and where the kind of drawing is not known. */
  readonly draw?: Draw;
  /** Draws a chart at a width. */
  readonly chart?: (options: ChartOptions) => Chart;
  /** What is said in place of a chart that has nothing to show. */
  readonly instead?: string;
  /** The table that belongs to the bars of a budget. */
  readonly budget?: PresentedBudget;
}

/** What each kind of drawing makes of the values that a cell names. */
const DRAWINGS: ReadonlyMap<string, (cell: FigureCell, context: PresentContext) => Draw> = new Map([
  ['free-body', withHeld(beamOf, freeBody)],
  ['shear-moment', withHeld(beamOf, shearMoment)],
  ['loading-lever', withHeld(leverOf, loadingLever)],
  ['plane-bending', withHeld(stripOf, planeBending)],
  ['stress-along', withHeld(stripOf, stressAlong)],
  ['stress-along-axis', withHeld(specimenOf, stressAlongAxis)],
]);

const BEAM_ROLES: readonly BeamRole[] = [
  'span', 's1', 's2', 's3', 'F1', 'F2', 'RA', 'RB', 'section', 'shear', 'moment', 'diameter',
];

export function presentFigure(cell: FigureCell, context: PresentContext): PresentedFigure {
  const notes = notesOf(cell, context);
  const chart = presentChart(cell, context);
  if (chart !== undefined && awaitsGuess(cell.id, context)) return { ...notes, instead: 'Held back for a guess.' };
  const budget = figureBudget(cell, context);
  if (chart !== undefined) return { ...notes, ...chart, ...(budget === undefined ? {} : { budget }) };
  const drawing = DRAWINGS.get(cell.drawing);
  if (drawing === undefined) return { ...notes, problems: [...notes.problems, ...drawingProblems(cell)] };
  const draw = drawing(cell, context);
  return { ...notes, draw: !isGuessing(context) ? draw : (options) => afterTheGuess(draw(options)) };
}

/** Where neither a drawing nor a chart has the name that the cell asks for; a name that is not there yet is said as every missing key is. */
export function drawingProblems(cell: FigureCell): readonly Problem[] {
  const known = [...DRAWINGS.keys(), ...CHART_NAMES];
  if (cell.drawing === '' || known.includes(cell.drawing)) return [];
  return [{
    code: 'drawing-unknown',
    what: `“${cell.drawing}” is no drawing that this version knows.`,
    mend: `Choose one of: ${known.join(', ')}.`,
    cell: cell.id,
    key: 'drawing',
  }];
}

/** What a drawing says in the place of what it withholds, where nobody is asked to work it out. */
function afterTheGuess(drawing: Drawing): Drawing {
  const reworded = (text: string): string => text.replaceAll(WITHHELD_PANEL, 'held back for a guess').replace(/ once you have worked [^.<]*\./u, ' after the guess.');
  return { ...drawing, svg: reworded(drawing.svg), sentence: reworded(drawing.sentence) };
}

/** A drawing of the figure that the values make, with the reference behind where the sheet is compared with one. */
function withHeld<F>(figureOf: (cell: FigureCell, context: PresentContext) => F, draw: (figure: F, options: DrawingOptions, held?: F) => Drawing) {
  return (cell: FigureCell, context: PresentContext): Draw => {
    const figure = figureOf(cell, context);
    const reference = referenceContext(context);
    if (reference === undefined) return (options) => draw(figure, options);
    const held = figureOf(cell, reference);
    return (options) => {
      const drawing = draw(figure, options, held);
      return showsHeld(drawing) ? { ...drawing, sentence: `${drawing.sentence} Dashed and light behind it: “${reference.held.name}”.` } : drawing;
    };
  };
}

function beamOf(cell: FigureCell, context: PresentContext): BeamFigure {
  return beamFigureFrom(roleValues(cell, BEAM_ROLES, context), {
    lengthText: textLike(cell, ['span', 's1', 's2', 's3', 'section'], LENGTH_DIMENSION, context),
    shearText: textLike(cell, ['shear', 'RA', 'RB', 'F1', 'F2'], FORCE_DIMENSION, context),
    momentText: textLike(cell, ['moment'], MOMENT_DIMENSION, context),
  });
}

function leverOf(cell: FigureCell, context: PresentContext): LeverFigure {
  return leverFigureFrom(roleValues(cell, LEVER_ROLES, context), textLike(cell, ['hanger', 'x1', 'x2', 'x3', 'hc', 'gb'], LENGTH_DIMENSION, context));
}

function specimenOf(cell: FigureCell, context: PresentContext): SpecimenFigure {
  return specimenFigureFrom(roleValues(cell, SPECIMEN_ROLES, context), {
    lengthText: textLike(cell, ['diameter', 'grip', 'fracture', 'test'], LENGTH_DIMENSION, context),
    stressText: textLike(cell, ['amplitude', 'stress'], STRESS_DIMENSION, context),
  });
}
