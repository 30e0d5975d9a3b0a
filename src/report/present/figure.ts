import {
  coherentUnit, counterpart, FORCE_DIMENSION, fromSI, LENGTH_DIMENSION, MOMENT_DIMENSION,
} from '../../core/units/index.ts';
import type { Dimension, Unit } from '../../core/units/types.ts';
import {
  beamFigureFrom, freeBody, shearMoment, type BeamRole, type Drawing, type DrawingOptions, type FigureValue, type RoleValues,
} from '../../figures/drawings/index.ts';
import type { Chart, ChartOptions } from '../../figures/charts/index.ts';
import type { FigureCell } from '../../sheet/types.ts';
import { CHART_NAMES, presentChart } from './chart.ts';
import { isSymbolHidden } from './hidden.ts';
import { findCell, notesOf } from './lookup.ts';
import { figures, unitText, withUnit } from './number.ts';
import { presentSymbol } from './result.ts';
import type { PresentContext, PresentedNotes } from './types.ts';

export interface PresentedFigure extends PresentedNotes {
  /** Draws the shaft at a width; absent for charts, and where the kind of drawing is not known. */
  readonly draw?: (options: DrawingOptions) => Drawing;
  /** Draws a chart at a width. */
  readonly chart?: (options: ChartOptions) => Chart;
  /** What is said in place of a chart that has nothing to show. */
  readonly instead?: string;
}

const DRAWINGS: ReadonlyMap<string, typeof freeBody> = new Map([
  ['free-body', freeBody],
  ['shear-moment', shearMoment],
]);

const ROLES: readonly BeamRole[] = [
  'span', 's1', 's2', 's3', 'F1', 'F2', 'RA', 'RB', 'section', 'shear', 'moment', 'diameter',
];

export function presentFigure(cell: FigureCell, context: PresentContext): PresentedFigure {
  const notes = notesOf(cell, context);
  const chart = presentChart(cell, context);
  if (chart !== undefined) return { ...notes, ...chart };
  const drawing = DRAWINGS.get(cell.drawing);
  if (drawing === undefined) {
    const unknown = {
      code: 'drawing-unknown',
      what: `“${cell.drawing}” is no drawing that this version knows.`,
      mend: `Choose one of: ${[...DRAWINGS.keys(), ...CHART_NAMES].join(', ')}.`,
      cell: cell.id,
      key: 'drawing',
    };
    return { ...notes, problems: [...notes.problems, unknown] };
  }
  const text = (roles: readonly BeamRole[], usual: Dimension): ((si: number) => string) =>
    valueText(unitAmong(cell, roles, usual, context), largestAmong(cell, roles, context));
  const figure = beamFigureFrom(roleValues(cell, context), {
    lengthText: text(['span', 's1', 's2', 's3', 'section'], LENGTH_DIMENSION),
    shearText: text(['shear', 'RA', 'RB', 'F1', 'F2'], FORCE_DIMENSION),
    momentText: text(['moment'], MOMENT_DIMENSION),
  });
  return { ...notes, draw: (options) => drawing(figure, options) };
}

function roleValues(cell: FigureCell, context: PresentContext): RoleValues {
  const values: Partial<Record<BeamRole, FigureValue>> = {};
  for (const role of ROLES) {
    const symbol = cell.values.get(role);
    if (symbol !== undefined) values[role] = figureValue(symbol, cell.givens?.get(role), context);
  }
  return values;
}

function figureValue(symbol: string, named: string | undefined, context: PresentContext): FigureValue {
  const state = context.states.symbol(symbol);
  const result = presentSymbol(symbol, context);
  const given = givenBehind(symbol, context) ?? (named === undefined ? undefined : givenBehind(named, context));
  return {
    symbol,
    si: state?.status === 'value' ? state.estimate.value : undefined,
    text: result?.kind === 'value' ? withUnit(result.number, result.unit) : '',
    hidden: isSymbolHidden(symbol, context),
    ...(given === undefined ? {} : { given }),
  };
}

/** The given that a symbol is, or that a chain of plain renamings (`l_1 = s_1`) leads to: what a drag changes. */
function givenBehind(symbol: string, { document, states }: PresentContext): string | undefined {
  const seen = new Set<string>();
  for (let name = symbol; !seen.has(name);) {
    seen.add(name);
    const cellId = states.definedBy(name) ?? '';
    if (findCell(document, cellId)?.cell.kind === 'given') return name;
    const expression = states.cell(cellId)?.expression;
    if (expression?.kind !== 'symbol') return undefined;
    name = expression.name;
  }
  return undefined;
}

/** Display unit of the first of these values that has one, in the reader's system. */
function unitAmong(cell: FigureCell, roles: readonly BeamRole[], usual: Dimension, { states, system }: PresentContext): Unit {
  for (const role of roles) {
    const unit = states.symbol(cell.values.get(role) ?? '')?.unit;
    if (unit !== undefined) return counterpart(unit, system);
  }
  return counterpart(coherentUnit(usual), system);
}

/** Greatest of these values, SI: what the figures of all of them are rounded by, so that a small one shows no more places. */
function largestAmong(cell: FigureCell, roles: readonly BeamRole[], { states }: PresentContext): number {
  return Math.max(0, ...roles.map((role) => {
    const state = states.symbol(cell.values.get(role) ?? '');
    return state?.status === 'value' ? Math.abs(state.estimate.value) : 0;
  }));
}

/** Four figures for the largest value, the same places for smaller ones. */
function valueText(unit: Unit, largest: number): (si: number) => string {
  const lead = Math.floor(Math.log10(Math.abs(fromSI(largest, unit))));
  return (si) => {
    const value = fromSI(si, unit);
    const own = Math.floor(Math.log10(Math.abs(value)));
    const count = Number.isFinite(lead) && Number.isFinite(own) ? Math.min(4, Math.max(1, 4 - lead + own)) : 4;
    return withUnit(figures(value, count), unitText(unit));
  };
}
