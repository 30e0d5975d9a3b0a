import { dependsOn, evaluateWithPartials, inOrderOfReading, type Expression } from '../core/formula/index.ts';
import { rememberedByName } from '../core/remembered/index.ts';
import { readingOf } from './inputs.ts';
import type { SheetStates } from './types.ts';

/** Derivatives along the chain of a sheet, SI, by symbol. */
export interface Slopes {
  /** What the symbol moves with: d(symbol)/d(that one). */
  readonly upstream: ReadonlyMap<string, number>;
  /** What moves with the symbol: d(that one)/d(symbol). */
  readonly downstream: ReadonlyMap<string, number>;
}

/** A sum of terms smaller than this part of them is rounding: they cancel. */
const CANCELLED = 8 * Number.EPSILON;

/**
 * How a symbol, a given or any result on the way, moves with all that it follows from and moves all that follows from it:
 * by the chain rule over the partial derivatives of each formula, at the present values. What has no formula (findings,
 * for one) moves with the inputs that it hangs on. `u(x)` is a constant, as everywhere. Symbols without value are left out.
 */
export function slopesAround(symbol: string, states: SheetStates): Slopes {
  const local = slopesIn(states);
  return { upstream: upstreamOf(symbol, local), downstream: downstreamOf(symbol, states.symbols, local) };
}

/** Whether what a symbol is worked out from hangs on another one, by any way. */
export function hangsOn(symbol: string, input: string, states: SheetStates): boolean {
  return symbol !== input && readersFirst(symbol, slopesIn(states)).includes(input);
}

/** Change in % of y per 1 % of x, d ln y / d ln x = (dy/dx)·x/y; undefined where one of them is 0 or has no value. */
export function elasticityBetween(slope: number, x: string, y: string, states: SheetStates): number | undefined {
  const [from, to] = [states.symbol(x), states.symbol(y)];
  if (from?.status !== 'value' || to?.status !== 'value') return undefined;
  const elasticity = (slope * from.estimate.value) / to.estimate.value;
  return from.estimate.value === 0 || !Number.isFinite(elasticity) ? undefined : elasticity;
}

/** The formula that a symbol's value comes from, as it is in force; undefined where it has none. */
export function expressionOf(symbol: string, states: SheetStates): Expression | undefined {
  const cell = states.cell(states.definedBy(symbol) ?? '');
  return cell?.symbol === symbol ? cell.expression : cell?.expressions?.get(symbol);
}

type LocalSlopes = (symbol: string) => ReadonlyMap<string, number>;

/** Partial derivatives of a symbol with respect to those that it is read from directly. Once for a state of the sheet: a budget asks for many inputs. */
const slopesOf = rememberedByName(localSlopes);

function slopesIn(states: SheetStates): LocalSlopes {
  return (symbol) => slopesOf(states, symbol);
}

function localSlopes(states: SheetStates, symbol: string): ReadonlyMap<string, number> {
  const state = states.symbol(symbol);
  // A symbol on a loop has no value, so that what follows always comes to an end.
  if (state?.status !== 'value') return new Map();
  const expression = expressionOf(symbol, states);
  if (expression === undefined) {
    const inputs = [...state.estimate.sensitivities].filter(([id]) => id !== symbol && states.symbol(id) !== undefined);
    return new Map(inputs.map(([id, { derivative }]) => [id, derivative]));
  }
  const result = evaluateWithPartials(expression, readingOf(states.symbol));
  if (!result.ok) return new Map();
  return new Map([...result.value.partials].filter(([name]) => dependsOn(expression, name)));
}

/** Sum of terms, 0 where they cancel. */
class Sum {
  private total = 0;
  private size = 0;

  add(term: number): void {
    this.total += term;
    this.size += Math.abs(term);
  }

  get value(): number {
    return Math.abs(this.total) <= CANCELLED * this.size ? 0 : this.total;
  }
}

/** Backwards from the symbol: each passes on to those it reads what it has gathered. */
function upstreamOf(symbol: string, local: LocalSlopes): ReadonlyMap<string, number> {
  const sums = new Map<string, Sum>();
  for (const reader of readersFirst(symbol, local)) {
    const gathered = reader === symbol ? 1 : (sums.get(reader)?.value ?? 0);
    for (const [read, slope] of local(reader)) {
      const sum = sums.get(read) ?? new Sum();
      sum.add(gathered * slope);
      sums.set(read, sum);
    }
  }
  return new Map([...sums].map(([name, sum]) => [name, sum.value]));
}

/** The symbol and all that it follows from, each before those it reads. */
function readersFirst(symbol: string, local: LocalSlopes): readonly string[] {
  return inOrderOfReading([symbol], (name) => local(name).keys()).toReversed();
}

/** Forwards: each symbol gathers from those it reads, and is no part of it where none of them hangs on the symbol. */
function downstreamOf(symbol: string, all: readonly string[], local: LocalSlopes): ReadonlyMap<string, number> {
  const slopes = new Map([[symbol, 1]]);
  for (const name of inOrderOfReading(all, (each) => local(each).keys())) {
    const terms = [...local(name)].flatMap(([read, slope]) => {
      const inner = slopes.get(read);
      return inner === undefined ? [] : [slope * inner];
    });
    if (name === symbol || terms.length === 0) continue;
    const sum = new Sum();
    for (const term of terms) sum.add(term);
    slopes.set(name, sum.value);
  }
  return new Map(all.flatMap((name) => {
    const slope = name === symbol ? undefined : slopes.get(name);
    return slope === undefined ? [] : [[name, slope] as const];
  }));
}
