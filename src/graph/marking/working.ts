import type { Quantity, Working } from '../../core/diagnosis/index.ts';
import { standardUncertainty } from '../../core/estimate/index.ts';
import { applyCases, evaluate, openBrackets } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/types.ts';
import { slipsOffered } from '../../sheet/index.ts';
import type { SheetDocument, StepCell } from '../../sheet/types.ts';
import { statesWithSlips } from '../slips/with-slips.ts';
import type { SheetStates } from '../types.ts';

/** Formulas further away than so many belong to another thought. */
const MOST_INNER = 8;

/**
 * What a slip in working out a step is looked for in: its formula as the present cases have it, and the formulas before it that nobody answered by themselves.
 * Undefined where the step has no value.
 * @param states without slips
 * @param isAnswered whether a step before it has a result of the reader's own
 */
export function workingOf(step: StepCell, document: SheetDocument, states: SheetStates, isAnswered: (symbol: string) => boolean): Working | undefined {
  const state = states.symbol(step.symbol);
  const formula = formulaOf(step.symbol, states);
  if (state?.status !== 'value' || formula === undefined) return undefined;
  const inner = innerOf(step.symbol, states, isAnswered);
  return {
    formula,
    right: state.estimate.value,
    unit: state.unit,
    inner,
    quantity: (symbol) => quantityOf(symbol, states),
    near: nearTo([step.symbol, ...inner.keys()], states),
    listed: slipsOffered(document).flatMap(({ id, cell }) => {
      const isHere = cell.symbol === step.symbol;
      // A slip in what has an answer of its own is found there.
      if (!isHere && isAnswered(cell.symbol)) return [];
      const there = statesWithSlips(document, states, [id]).symbol(step.symbol);
      return there === state || there?.status !== 'value' ? [] : [{ id, value: there.estimate.value, isHere }];
    }),
  };
}

/**
 * The same with results of the reader's own in place of the sheet's, by symbol, SI: what they had before them if they went on with those. Undefined where none of
 * these is another number and lies on the way. Mistakes that the sheet lists are left to the sheet's own numbers.
 */
export function ownWorkingOf(working: Working, step: StepCell, own: ReadonlyMap<string, number>, states: SheetStates): Working | undefined {
  const others = new Map([...own].filter(([symbol, value]) => symbol !== step.symbol && value !== quantityOf(symbol, states)?.value));
  const right = valueFrom(others, step.symbol, states);
  if (right === undefined) return undefined;
  const moved = new Map<string, number>();
  return {
    ...working,
    right: right.value,
    listed: [],
    quantity: (symbol) => {
      const known = quantityOf(symbol, states);
      if (known === undefined) return undefined;
      const value = others.get(symbol) ?? moved.get(symbol) ?? valueFrom(others, symbol, states)?.value ?? known.value;
      moved.set(symbol, value);
      return { ...known, value };
    },
  };
}

function quantityOf(symbol: string, states: SheetStates): Quantity | undefined {
  const state = states.symbol(symbol);
  return state?.status === 'value' ? { value: state.estimate.value, unit: state.unit } : undefined;
}

/** Of a formula with cases, what applies. */
function formulaOf(symbol: string, states: SheetStates): Expression | undefined {
  const expression = cellOf(symbol, states)?.expression;
  if (expression === undefined) return undefined;
  const environment = { value: (name: string) => quantityOf(name, states)?.value ?? Number.NaN, standardUncertainty: () => 0 };
  return openBrackets(applyCases(expression, environment)?.expression ?? expression, environment);
}

/** The cell that defines a symbol. */
export function cellOf(symbol: string, states: SheetStates) {
  const cellId = states.definedBy(symbol);
  return cellId === undefined ? undefined : states.cell(cellId);
}

/** The steps before it, the nearest first, as far as none of them has an answer of its own. What only takes over another symbol is no step of thought. */
function innerOf(symbol: string, states: SheetStates, isAnswered: (symbol: string) => boolean): ReadonlyMap<string, Expression> {
  const inner = new Map<string, Expression>();
  const next = [symbol];
  for (let from = next.shift(); from !== undefined && inner.size < MOST_INNER; from = next.shift()) {
    for (const read of cellOf(from, states)?.reads ?? []) {
      const formula = isAnswered(read) || inner.has(read) ? undefined : formulaOf(read, states);
      if (formula === undefined) continue;
      if (formula.kind !== 'symbol' && formula.kind !== 'number') inner.set(read, formula);
      next.push(read);
    }
  }
  return inner;
}

/** What these steps and those that they read have before them, and what is named with the same letter. */
function nearTo(symbols: readonly string[], states: SheetStates): readonly string[] {
  const read = symbols.flatMap((symbol) => cellOf(symbol, states)?.reads ?? []);
  const letters = new Set([...symbols, ...read].map(letterOf));
  const before = read.flatMap((symbol) => cellOf(symbol, states)?.reads ?? []);
  return [...new Set([...read, ...before, ...states.symbols.filter((symbol) => letters.has(letterOf(symbol)))])].filter((symbol) => !symbols.includes(symbol));
}

function letterOf(symbol: string): string {
  return symbol.split('_')[0] ?? symbol;
}

/**
 * A step's value with results of the reader's own in place of the sheet's, which were used on the way to it: by symbol, SI.
 * Undefined where none of them lies on the way, or where there is no value then.
 * @param states without slips
 */
export function valueFrom(own: ReadonlyMap<string, number>, symbol: string, states: SheetStates): { readonly value: number; readonly used: readonly string[] } | undefined {
  const isOwn = (name: string): boolean => name !== symbol && own.has(name);
  const order = wayTo(symbol, isOwn, states);
  const used = order.filter(isOwn);
  const moved = new Map<string, number>();
  for (const name of order) {
    const cell = cellOf(name, states);
    if (isOwn(name)) moved.set(name, own.get(name) ?? Number.NaN);
    else if (cell?.expression !== undefined && cell.reads.some((read) => moved.has(read))) {
      moved.set(name, outcome(cell.expression, (read) => moved.get(read) ?? quantityOf(read, states)?.value ?? Number.NaN, states));
    }
  }
  const value = moved.get(symbol);
  return value === undefined || !Number.isFinite(value) ? undefined : { value, used };
}

/** What lies on the way to a symbol, each after all that it reads; not beyond where it ends. A walk of its own, since chains may be longer than calls can be deep. */
function wayTo(symbol: string, endsAt: (name: string) => boolean, states: SheetStates): readonly string[] {
  const order: string[] = [];
  const met = new Set<string>();
  const walk = [{ name: symbol, isLeft: false }];
  for (let at = walk.pop(); at !== undefined; at = walk.pop()) {
    const { name, isLeft } = at;
    if (isLeft) order.push(name);
    if (isLeft || met.has(name)) continue;
    met.add(name);
    walk.push({ name, isLeft: true });
    if (!endsAt(name)) walk.push(...(cellOf(name, states)?.reads ?? []).map((read) => ({ name: read, isLeft: false })));
  }
  return order;
}

function outcome(expression: Expression, value: (name: string) => number, states: SheetStates): number {
  const result = evaluate(expression, { value, standardUncertainty: (name) => uncertaintyOf(name, states) });
  return result.ok ? result.value : Number.NaN;
}

function uncertaintyOf(symbol: string, states: SheetStates): number {
  const state = states.symbol(symbol);
  return state?.status === 'value' ? standardUncertainty(state.estimate) : Number.NaN;
}
