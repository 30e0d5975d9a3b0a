import { correlation, standardUncertainty, type Estimate } from '../core/estimate/index.ts';
import { fromSI, intervalFromSI, numberText, quantityText, sameDimension, parseUnit, type Unit } from '../core/units/index.ts';
import { cellsOf, isTakenOver, trialText, type GivenCell, type SheetDocument, type ValueElsewhere } from '../sheet/index.ts';
import { restingOnExample } from './invented.ts';
import { createSheetGraph } from './sheet-graph.ts';
import { rightStates } from './slips/with-slips.ts';
import type { SymbolState } from './types.ts';

/** A value of a sheet, worked out or typed there, that another sheet can take over. */
export interface ValueToTake {
  readonly symbol: string;
  /** What it is called in its sheet. */
  readonly label: string;
  /** Value, standard uncertainty and unit, rounded to a thousandth of the uncertainty; without one in all digits. */
  readonly text: string;
  readonly unit: Unit;
  /** Whether it rests on something of that sheet's invented example. */
  readonly isInvented: boolean;
  /** Correlation coefficients with others of the same sheet, by symbol; those without are independent. */
  readonly correlated: ReadonlyMap<string, number>;
}

/** Values that belong together in one sheet. */
export interface ValuesToTake {
  readonly values: readonly ValueToTake[];
  /** Every symbol that the sheet has. */
  readonly symbols: ReadonlySet<string>;
  /** Why one that is worked out there can't be had, by symbol. */
  readonly trouble: ReadonlyMap<string, string>;
}

/**
 * What a sheet has of the wanted symbols, from its text: what it works out, and what somebody typed there. What is assumed there, or was itself
 * taken over, is nothing to hand on, and neither is what a slip or a trial value moves.
 */
export async function valuesOfSheet(document: SheetDocument, wanted: readonly string[]): Promise<ValuesToTake> {
  const [steps, givens] = [cellsOf(document, 'step'), cellsOf(document, 'given')];
  const symbols = new Set([...steps, ...givens].map(({ symbol }) => symbol));
  const trials = new Set(givens.filter((given) => trialText(given) !== undefined).map(({ symbol }) => symbol));
  const offered = [...steps, ...givens.filter(isTyped)].filter(({ symbol }) => wanted.includes(symbol));
  if (offered.length === 0) return { values: [], symbols, trouble: new Map() };
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const right = rightStates(document, states);
  const known = new Map<string, Extract<SymbolState, { status: 'value' }>>();
  const trouble = new Map<string, string>();
  for (const { symbol } of offered) {
    const state = states.symbol(symbol);
    if (state !== right.symbol(symbol)) trouble.set(symbol, 'A slip is switched on in that sheet and moves this value. Switch it off there first.');
    else if (trials.has(symbol)) trouble.set(symbol, 'A trial value stands there at the moment.');
    else if (state?.status === 'value') known.set(symbol, state);
    else trouble.set(symbol, 'It has no value there at the moment.');
  }
  const isInvented = restingOnExample(document, states);
  const values = offered.flatMap(({ id, symbol, label }): ValueToTake[] => {
    const state = known.get(symbol);
    return state === undefined ? [] : [{ symbol, label: label ?? symbol, text: textOf(state.estimate, state.unit), unit: state.unit, isInvented: isInvented(id), correlated: correlations(symbol, known) }];
  });
  graph.dispose();
  return { values, symbols, trouble };
}

/** What of another sheet a given takes over: the symbol that it names, of its own dimension, from a sheet of the kind that it means. */
export function valueFor({ elsewhere, unit }: GivenCell, { values, symbols }: ValuesToTake): ValueToTake | undefined {
  if (elsewhere === undefined || !isMeant(elsewhere, symbols)) return undefined;
  const own = parseUnit(unit);
  return values.find((value) => value.symbol === elsewhere.symbol && own.ok && sameDimension(own.value.dimension, value.unit.dimension));
}

/** Why it can not be had from that sheet, where it is there. */
export function troubleFor({ elsewhere }: GivenCell, { trouble, symbols }: ValuesToTake): string | undefined {
  return elsewhere === undefined || !isMeant(elsewhere, symbols) ? undefined : trouble.get(elsewhere.symbol);
}

function isMeant({ beside }: ValueElsewhere, symbols: ReadonlySet<string>): boolean {
  return beside === undefined || symbols.has(beside);
}

/** Whether something stands there that somebody entered, for whoever asks, as a value of its own. */
function isTyped(given: GivenCell): boolean {
  return (given.readings ?? given.value ?? '').trim() !== '' && given.origin !== 'assumed' && !isTakenOver(given);
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
