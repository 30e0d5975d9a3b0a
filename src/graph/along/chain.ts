/**
 * The sheet as a function of some of its symbols at other values: what samples, sweeps and working back have in common.
 *
 * A *chain* is every symbol of the sheet in the order of reading, each with how it follows from those before it. It is plain
 * data: a structured clone of it (to a worker) works as well. Make it anew after an edit (`chainOf(graph.compiled(), states)`).
 *
 *     const chain = chainOf(graph.compiled(), graph.states());
 *     const found = evaluateAlong(chain, new Map([['d', Float64Array.of(0.0060, 0.0062, 0.0064)]]), 3, { wanted: ['N_f'] });
 *     found.get('N_f')   // Float64Array of 3 lives, SI; a plain number where N_f does not hang on d; undefined: no such symbol
 */
import { standardUncertainty } from '../../core/estimate/index.ts';
import { aggregateOf, BlockProgram, dependsOn, repeatedIn, literalNumber, referencedSymbols, type BlockNames, type Expression, type Operand } from '../../core/formula/index.ts';
import type { CompiledSheet, CompiledNode } from '../compiled-types.ts';
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
interface Formula {
  readonly kind: 'formula';
  readonly expression: Expression;
  /** Conditions under which the step has no value though the formula has one: `word` says why, none where `valid_if` fails. */
  readonly outside: readonly { readonly word?: RangeWord; readonly condition: Expression }[];
}

/** What has no formula (findings, for one) follows its inputs to first order: value + Σ derivative·(input − its value). */
interface Tangent {
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
   * them, as samples about a valid value have to.
   */
  readonly within?: boolean;
}

/** Every symbol of the sheet with how it follows from the others, at the present state. */
export function chainOf(compiled: CompiledSheet, states: SheetStates): Chain {
  const nodes = new Map(compiled.nodes.flatMap((node) => node.symbols.map((symbol) => [symbol, node] as const)));
  return { links: compiled.order.map((symbol) => linkOf(symbol, nodes.get(symbol), (name) => (nodes.has(asRead(name)) ? asRead(name) : name), states)) };
}

/** @param readAs where the value of an input stands: under another name while a slip stands in its place */
function linkOf(symbol: string, node: CompiledNode | undefined, readAs: (input: string) => string, states: SheetStates): Link {
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
 * @param columns the other values, `count` of each, by symbol. Any symbol may be there: a given, the parameter of a fit, also a
 * step, which is then taken from the column and not from its formula. For a given that a slip is switched on at, they are what
 * is read, on which the slip then acts. All others keep their present value or follow by their rule. Only reading; the columns
 * come back as they are.
 * @param count places, at least 1
 */
export function evaluateAlong(chain: Chain, columns: ReadonlyMap<string, Float64Array>, count: number, options: AlongOptions = {}): Columns {
  const { inputs, results, run, length } = compileChain(chain, [...columns.keys()], options);
  const found = new Map<string, Float64Array | number>();
  const moving: (readonly [from: Float64Array, to: Float64Array])[] = [];
  for (const [symbol, result] of results) {
    const own = result === inputs.get(symbol) ? columns.get(symbol) : undefined;
    if (typeof result === 'number' || own !== undefined) found.set(symbol, own ?? result);
    else {
      const column = new Float64Array(count);
      found.set(symbol, column);
      moving.push([result, column]);
    }
  }
  for (let start = 0; start < count; start += length) {
    const places = Math.min(length, count - start);
    for (const [symbol, block] of inputs) block.set(columns.get(symbol)?.subarray(start, start + places) ?? []);
    run(places);
    for (const [from, to] of moving) to.set(from.subarray(0, places), start);
  }
  return found;
}

/** A chain made ready to be evaluated block after block, without new memory. */
interface CompiledChain {
  /** Places in a block. */
  readonly length: number;
  /** For each moved symbol that counts, the block to be filled before each run. */
  readonly inputs: ReadonlyMap<string, Float64Array>;
  /** For each wanted symbol its block after a run; a plain number where it does not move. */
  readonly results: ReadonlyMap<string, Float64Array | number>;
  readonly run: (places: number) => void;
}

/** @param moved symbols that will have other values; a given that a slip is switched on at moves as what is read */
export function compileChain(chain: Chain, moved: readonly string[], { wanted, within = false }: AlongOptions = {}, length?: number): CompiledChain {
  const slipped = new Set(chain.links.map(({ symbol }) => symbol).filter(isAsRead));
  const moving = new Map(moved.map((symbol) => [slipped.has(asRead(symbol)) ? asRead(symbol) : symbol, symbol]));
  const needed = neededFor(chain, wanted, new Set(moving.keys()), within);
  const program = new BlockProgram(length, repeatedIn(chain.links.flatMap((link) => (needed.has(link.symbol) && !moving.has(link.symbol) ? formulasOf(link, within) : []))));
  const present = new Map(chain.links.map((link) => [link.symbol, link]));
  const inputs = new Map<string, Float64Array>();
  const found = new Map<string, Operand>();
  const names: BlockNames = {
    column: (symbol) => found.get(symbol) ?? Number.NaN,
    standardUncertainty: (symbol) => present.get(symbol)?.uncertainty ?? 0,
    best: (symbol) => present.get(symbol)?.value ?? Number.NaN,
  };
  for (const link of chain.links) {
    const { symbol, value } = link;
    if (!needed.has(symbol)) continue;
    const movedAs = moving.get(symbol);
    if (movedAs !== undefined) {
      const column = program.column();
      inputs.set(movedAs, column);
      found.set(symbol, column);
    } else {
      const moves = readsOf(link, within).some((read) => typeof found.get(read) === 'object');
      const result = moves && link.rule !== undefined ? program.add(expressionOf(value, link.rule, within), names) : value;
      // What a rule makes of shared values only is what the sheet has made of them already.
      found.set(symbol, typeof result === 'number' ? value : result);
    }
  }
  const asked = wanted ?? [...found.keys()];
  const results = new Map(asked.flatMap((symbol) => {
    const operand = found.get(symbol);
    return operand === undefined ? [] : [[symbol, operand] as const];
  }));
  return { length: program.length, inputs, results, run: (places) => program.run(places) };
}

/** What the wanted symbols hang on, themselves included; nothing is asked for behind a column. */
export function neededFor(
  { links }: Chain,
  wanted: readonly string[] | undefined,
  moved: ReadonlySet<string> = new Set(),
  within = false,
): ReadonlySet<string> {
  const needed = new Set(wanted ?? links.map(({ symbol }) => symbol));
  for (const link of links.toReversed()) {
    if (needed.has(link.symbol) && !moved.has(link.symbol)) for (const symbol of readsOf(link, within)) needed.add(symbol);
  }
  return needed;
}

/** The symbols with which a link's rule moves: not those of which it only reads the present value or uncertainty, by `best( )` and `u( )`. */
function readsOf(link: Link, within: boolean): readonly string[] {
  if (link.rule?.kind === 'tangent') return link.rule.slopes.map(({ symbol }) => symbol);
  return formulasOf(link, within).flatMap((e) => referencedSymbols(e).filter((symbol) => dependsOn(e, symbol)));
}

function formulasOf({ rule }: Link, within: boolean): readonly Expression[] {
  return rule?.kind !== 'formula' ? [] : [rule.expression, ...(within ? rule.outside.map(({ condition }) => condition) : [])];
}

/** No more of a chain than some symbols take: what they hang on, and of what is only read in between the present value. */
export function chainFor({ links }: Chain, needed: ReadonlySet<string>): Chain {
  const read = new Set(links.filter(({ symbol }) => needed.has(symbol)).flatMap((link) => formulasOf(link, false).flatMap((e) => referencedSymbols(e))));
  return {
    links: links.flatMap((link) => {
      if (needed.has(link.symbol)) return [link];
      return read.has(link.symbol) ? [{ symbol: link.symbol, value: link.value, uncertainty: link.uncertainty }] : [];
    }),
  };
}

/** A rule as one formula. */
function expressionOf(value: number, rule: Formula | Tangent, within: boolean): Expression {
  if (rule.kind === 'tangent') {
    return aggregateOf('sum', [literalNumber(value), ...rule.slopes.map(({ symbol, at, derivative }) =>
      operation('*', literalNumber(derivative), operation('-', { kind: 'symbol', name: symbol, span: NOWHERE }, literalNumber(at))))]);
  }
  if (!within) return rule.expression;
  return rule.outside.reduceRight<Expression>((inside, { condition }) =>
    ({ kind: 'call', name: 'if', arguments: [condition, literalNumber(Number.NaN), inside], span: NOWHERE }), rule.expression);
}

const NOWHERE = { start: 0, end: 0 };

function operation(operator: '-' | '*', left: Expression, right: Expression): Expression {
  return { kind: 'arithmetic', operator, left, right, span: NOWHERE };
}
