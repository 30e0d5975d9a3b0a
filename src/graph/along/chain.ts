/**
 * The sheet as a function of some of its symbols at other values: what draws, sweeps and working back have in common.
 *
 * A *chain* is every symbol of the sheet in the order of reading, each with how it follows from those before it. It is plain
 * data: a structured clone of it (to a worker) works as well. Make it anew after an edit (`chainOf(graph.plan(), states)`).
 *
 *     const chain = chainOf(graph.plan(), graph.states());
 *     const found = evaluateAlong(chain, new Map([['d', Float64Array.of(0.0060, 0.0062, 0.0064)]]), 3, { wanted: ['N_f'] });
 *     found.get('N_f')   // Float64Array of 3 lives, SI; a plain number where N_f does not hang on d; undefined: no such symbol
 */
import { standardUncertainty } from '../../core/estimate/index.ts';
import { evaluateBlock, referencedSymbols, type Expression } from '../../core/formula/index.ts';
import type { Plan, PlanNode } from '../plan.ts';
import { asRead, isAsRead } from '../slips/as-read.ts';
import type { RangeWord, SheetStates } from '../types.ts';

/** One symbol of a chain. SI. */
export interface Link {
  readonly symbol: string;
  /** What it is in the sheet at present; NaN where it has no value there. */
  readonly value: number;
  /** Its standard uncertainty at present, which is what `u( )` reads, here as in the sheet; 0 where it has none. */
  readonly uncertainty: number;
  /** How it follows from symbols before it; absent for what is given, and for what stands by itself. */
  readonly rule?: Formula | Tangent;
}

/** A step, or a symbol that a table finds. */
export interface Formula {
  readonly kind: 'formula';
  readonly expression: Expression;
  /** Conditions under which the step has no value though the formula has one: `word` says why, none where `valid_if` fails. */
  readonly outside: readonly { readonly word?: RangeWord; readonly condition: Expression }[];
}

/** What has no formula (findings, for one) follows its inputs to first order: value + Σ derivative·(input − its value). */
export interface Tangent {
  readonly kind: 'tangent';
  readonly slopes: readonly { readonly symbol: string; readonly at: number; readonly derivative: number }[];
}

export interface Chain {
  /** Each after those it reads. */
  readonly links: readonly Link[];
}

/** For each symbol one value a place, or the one value that it has at all of them. SI; NaN where there is none. */
export type Columns = ReadonlyMap<string, Float64Array | number>;

export interface AlongOptions {
  /** Symbols to be found; all where absent. Only what they hang on is worked out. */
  readonly wanted?: readonly string[];
  /**
   * Also ask each step's `valid_if` and `ranges`: NaN wherever the sheet would show no value. Without it formulas go on beyond
   * them, as draws about a valid value have to.
   */
  readonly within?: boolean;
}

/** Length of one pass over the formulas: small enough for a processor's cache. */
const BLOCK = 2048;

/** Every symbol of the sheet with how it follows from the others, at the present state. */
export function chainOf(plan: Plan, states: SheetStates): Chain {
  const nodes = new Map(plan.nodes.flatMap((node) => node.symbols.map((symbol) => [symbol, node] as const)));
  return { links: plan.order.map((symbol) => linkOf(symbol, nodes.get(symbol), (name) => (nodes.has(asRead(name)) ? asRead(name) : name), states)) };
}

/** @param readAs where the value of an input stands: under another name while a slip stands in its place */
function linkOf(symbol: string, node: PlanNode | undefined, readAs: (input: string) => string, states: SheetStates): Link {
  const state = states.symbol(symbol);
  const estimate = state?.status === 'value' ? state.estimate : undefined;
  const present = {
    symbol,
    value: estimate?.value ?? Number.NaN,
    uncertainty: estimate === undefined ? 0 : standardUncertainty(estimate),
  };
  const ready = node?.ready;
  if (ready !== undefined) {
    const outside = ready.ranges.map(({ word, condition }) => ({ word, condition: condition.expression }));
    const invalid = ready.validIf === undefined ? [] : [{ condition: negated(ready.validIf.expression) }];
    return { ...present, rule: { kind: 'formula', expression: ready.formula.expression, outside: [...invalid, ...outside] } };
  }
  const expression = node === undefined ? undefined : states.cell(node.cellId)?.expressions?.get(symbol);
  if (expression !== undefined) return { ...present, rule: { kind: 'formula', expression, outside: [] } };
  const slopes = [...(estimate?.sensitivities.values() ?? [])].flatMap(({ input, derivative }) =>
    readAs(input.id) === symbol || derivative === 0 ? [] : [{ symbol: readAs(input.id), at: input.value, derivative }]);
  return slopes.length === 0 ? present : { ...present, rule: { kind: 'tangent', slopes } };
}

function negated(condition: Expression): Expression {
  return { kind: 'not', operand: condition, span: condition.span };
}

/**
 * What the sheet's symbols are where some of them have other values. SI.
 * @param others the other values, `count` of each, by symbol. Any symbol may be there: a given, the parameter of a fit, also a
 * step, which is then taken from the column and not from its formula. For a given that a slip is switched on at, they are what
 * is read, on which the slip then acts. All others keep their present value or follow by their rule. Only reading; the columns
 * come back as they are.
 * @param count places, at least 1
 */
export function evaluateAlong(
  chain: Chain,
  others: ReadonlyMap<string, Float64Array>,
  count: number,
  { wanted, within = false }: AlongOptions = {},
): Columns {
  const slipped = new Set(chain.links.map(({ symbol }) => symbol).filter(isAsRead));
  const columns = new Map([...others].map(([symbol, column]) => [slipped.has(asRead(symbol)) ? asRead(symbol) : symbol, column]));
  const needed = neededFor(chain, wanted, columns, within);
  const found = new Map<string, Float64Array | number>();
  const present = new Map(chain.links.map((link) => [link.symbol, link]));
  for (const link of chain.links) {
    if (!needed.has(link.symbol)) continue;
    const column = columns.get(link.symbol);
    const moves = column === undefined && readsOf(link, within).some((symbol) => typeof found.get(symbol) === 'object');
    found.set(link.symbol, column ?? (moves ? new Float64Array(count) : link.value));
  }
  for (let start = 0; start < count; start += BLOCK) {
    const end = Math.min(start + BLOCK, count);
    const block = (symbol: string): Float64Array | number => {
      const column = columns.get(symbol) ?? found.get(symbol) ?? Number.NaN;
      return typeof column === 'number' ? column : column.subarray(start, end);
    };
    for (const { symbol, value, rule } of chain.links) {
      const column = found.get(symbol);
      if (rule === undefined || typeof column !== 'object' || columns.has(symbol)) continue;
      const target = column.subarray(start, end);
      if (rule.kind === 'tangent') followTangent(value, rule, block, target);
      else {
        const over = (e: Expression): Float64Array => evaluateBlock(
          e, block, (name) => present.get(name)?.uncertainty ?? 0, end - start, (name) => present.get(name)?.value ?? Number.NaN);
        target.set(over(rule.expression));
        if (within) for (const { condition } of rule.outside) blankWhere(over(condition), target);
      }
    }
  }
  const asked = wanted ?? [...found.keys()];
  return new Map(asked.flatMap((symbol) => {
    const column = found.get(symbol);
    return column === undefined ? [] : [[symbol, column] as const];
  }));
}

/** What the wanted symbols hang on, themselves included; nothing is asked for behind a column. */
export function neededFor(
  { links }: Chain,
  wanted: readonly string[] | undefined,
  columns: ReadonlyMap<string, Float64Array> = new Map(),
  within = false,
): ReadonlySet<string> {
  const needed = new Set(wanted ?? links.map(({ symbol }) => symbol));
  for (const link of links.toReversed()) {
    if (needed.has(link.symbol) && !columns.has(link.symbol)) for (const symbol of readsOf(link, within)) needed.add(symbol);
  }
  return needed;
}

/** The symbols that a link's rule reads. */
function readsOf({ rule }: Link, within: boolean): readonly string[] {
  if (rule === undefined) return [];
  if (rule.kind === 'tangent') return rule.slopes.map(({ symbol }) => symbol);
  const conditions = within ? rule.outside.map(({ condition }) => condition) : [];
  return [rule.expression, ...conditions].flatMap((e) => referencedSymbols(e));
}

function followTangent(value: number, { slopes }: Tangent, columnOf: (symbol: string) => Float64Array | number, target: Float64Array): void {
  target.fill(value);
  for (const { symbol, at, derivative } of slopes) {
    const column = columnOf(symbol);
    if (typeof column === 'number') continue;
    for (let i = 0; i < target.length; i++) target[i] = (target[i] ?? 0) + derivative * ((column[i] ?? 0) - at);
  }
}

/** NaN where the condition holds or has no answer itself. */
function blankWhere(holds: Float64Array, target: Float64Array): void {
  for (let i = 0; i < target.length; i++) if (holds[i] !== 0) target[i] = Number.NaN;
}
