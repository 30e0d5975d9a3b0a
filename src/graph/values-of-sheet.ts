import { correlation, standardUncertainty, type Estimate } from '../core/estimate/index.ts';
import { fromSI, intervalFromSI, numberText, quantityText, type Unit } from '../core/units/index.ts';
import { cellsOf, type SheetDocument } from '../sheet/index.ts';
import { createSheetGraph } from './sheet-graph.ts';
import { rightStates } from './slips/with-slips.ts';
import type { SymbolState } from './types.ts';

/** A result of a sheet that another sheet can take over. */
export interface ValueToTake {
  readonly symbol: string;
  /** What it is called in its sheet. */
  readonly label: string;
  /** Value, standard uncertainty and unit, rounded to a thousandth of the uncertainty; without one in all digits. */
  readonly text: string;
  /** Correlation coefficients with others of the same sheet, by symbol; those without are independent. */
  readonly correlated: ReadonlyMap<string, number>;
}

/** Results that were worked out together in one sheet. */
export interface ValuesToTake {
  readonly values: readonly ValueToTake[];
  /** Why one that is worked out there can't be had, by symbol. */
  readonly trouble: ReadonlyMap<string, string>;
}

/**
 * What a sheet works out of the wanted symbols, from its text. What is typed there is typed there only: it is nothing to hand on.
 * Nothing is offered that a slip moves.
 */
export async function valuesOfSheet(document: SheetDocument, wanted: readonly string[]): Promise<ValuesToTake> {
  const steps = cellsOf(document, 'step').filter(({ symbol }) => wanted.includes(symbol));
  if (steps.length === 0) return { values: [], trouble: new Map() };
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const right = rightStates(document, states);
  const known = new Map<string, Extract<SymbolState, { status: 'value' }>>();
  const trouble = new Map<string, string>();
  for (const { symbol } of steps) {
    const state = states.symbol(symbol);
    if (state !== right.symbol(symbol)) trouble.set(symbol, 'A slip is switched on in that sheet and moves this value. Switch it off there first.');
    else if (state?.status === 'value') known.set(symbol, state);
    else trouble.set(symbol, 'It has no value there at the moment.');
  }
  const values = steps.flatMap(({ symbol, label }): ValueToTake[] => {
    const state = known.get(symbol);
    return state === undefined ? [] : [{ symbol, label: label ?? symbol, text: textOf(state.estimate, state.unit), correlated: correlations(symbol, known) }];
  });
  graph.dispose();
  return { values, trouble };
}

/** Digits of the uncertainty that go along: what is cut off is a thousandth of it. */
const FIGURES = 4;

function textOf(estimate: Estimate, unit: Unit): string {
  const number = fromSI(estimate.value, unit);
  const u = intervalFromSI(standardUncertainty(estimate), unit);
  const decimals = FIGURES - 1 - Math.floor(Math.log10(u));
  if (!(u > 0) || decimals < 0 || decimals > 100) return u > 0 ? `${numberText(number)} ± ${quantityText(u, unit)}` : quantityText(number, unit);
  return `${numberText(Number(number.toFixed(decimals)))} ± ${quantityText(Number(u.toFixed(decimals)), unit)}`;
}

function correlations(symbol: string, known: ReadonlyMap<string, { readonly estimate: Estimate }>): ReadonlyMap<string, number> {
  const own = known.get(symbol)?.estimate;
  const coefficients = new Map<string, number>();
  for (const [other, { estimate }] of known) {
    const r = own === undefined || other === symbol ? undefined : correlation(own, estimate);
    if (r !== undefined && r !== 0) coefficients.set(other, r);
  }
  return coefficients;
}
