import { substitute } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/types.ts';
import { sameDimension, type Dimension } from '../../core/units/index.ts';
import { trialText } from '../../sheet/index.ts';
import type { CellBlock, CellSlip, GivenCell } from '../../sheet/types.ts';
import { ownSymbol, type Form, type NodeOfForm } from '../form.ts';
import { parseRemembered, symbolsOf } from '../formulas.ts';
import { resolveInputs, toldAt, valuesOf } from '../inputs.ts';
import type { Names, CompileContext } from '../compiled-types.ts';
import { readGiven, type GivenState } from '../read-given.ts';
import { asRead } from '../slips/as-read.ts';
import { slipProblem, slipWarnings } from '../slips/slip-problems.ts';
import { isEmptyGiven } from '../option-in-force.ts';
import { blockedBy, evaluateStep } from '../step.ts';
import type { CellState, SymbolState } from '../types.ts';

/** A given: read from its text, and changed where a slip is switched on. */
export const givenForm: Form<GivenCell> = {
  symbols: ownSymbol,
  reads: slippedReads,
  keptAside: ({ symbol }, { slips }) => (slips.has(symbol) ? [asRead(symbol)] : []),
  dimension: (cell, _symbol, names) => readOf(cell, names).dimension,
  typed: readOf,
  node: givenNode,
  leavesOthers,
  isHeld: () => true,
  atStart,
};

function readOf(cell: GivenCell, { fillings }: Names): GivenState {
  return readGiven(cell, fillings.get(cell.symbol));
}

/** Another text for the same quantity. What varies together with others is told at all of them, and an option may have another in its place while a blank is empty. */
function leavesOthers(before: GivenCell, after: GivenCell, names: Names): boolean {
  const slips = (cell: GivenCell): string => JSON.stringify(cell.slips ?? []);
  if (before.symbol !== after.symbol || isEmptyGiven(before) !== isEmptyGiven(after) || slips(before) !== slips(after)) return false;
  const [was, is] = [readOf(before, names), readOf(after, names)];
  return [was, is].every(({ input }) => input?.together === undefined && input?.correlations === undefined) && sameOrNone(was.dimension, is.dimension);
}

function sameOrNone(a: Dimension | undefined, b: Dimension | undefined): boolean {
  return a === undefined || b === undefined ? a === b : sameDimension(a, b);
}

/** While a slip stands in its place: the value as it was read, and what else the slip takes. */
function slippedReads({ symbol }: GivenCell, _symbol: string, { slips }: Names): readonly string[] {
  const formula = slips.get(symbol)?.slip.formula;
  return formula === undefined ? [] : symbolsOf(formula).map((name) => (name === symbol ? asRead(symbol) : name));
}

/** As it was typed. What is known only after the test is no input of the prediction. */
function atStart(cell: GivenCell, valueOf: (symbol: string) => string): readonly [string, string] | undefined {
  if (cell.symbol === '' || cell.optional === true) return undefined;
  const [typed, trial] = [(cell.readings ?? cell.value ?? '').trim(), trialText(cell)];
  const counts = trial === undefined ? typed : `trial value ${trial}`;
  return [cell.symbol, counts === '' ? valueOf(cell.symbol) : counts];
}

function givenNode(block: CellBlock, cell: GivenCell, context: CompileContext): NodeOfForm {
  const given = readOf(cell, context.names);
  const extra = context.problems.get(block.id) ?? [];
  const [trouble] = extra;
  const offered = context.names.slips.get(cell.symbol);
  const slip = offered?.cell === cell ? offered.slip : undefined;
  const state: CellState = Object.freeze({
    cellId: block.id,
    symbol: cell.symbol,
    result: trouble === undefined ? given.result : { status: 'problem' as const, problem: trouble },
    ...(given.reading === undefined ? {} : { reading: given.reading }),
    reads: [],
    problems: toldAt(block.id, [...cell.problems, ...extra, ...given.problems]),
    warnings: toldAt(block.id, [...given.warnings, ...slipWarnings(cell, slip, given.dimension, context)]),
  });
  const signature = `given ${given.serial} ${JSON.stringify([extra, state.warnings])}`;
  return slip === undefined || given.dimension === undefined
    ? { inputs: [], signature, compute: () => state }
    : slippedNode({ state, signature, cell, slip, dimension: given.dimension }, context);
}

interface Slipped {
  /** As it is read. */
  readonly state: CellState;
  readonly signature: string;
  readonly cell: GivenCell;
  readonly slip: CellSlip;
  readonly dimension: Dimension;
}

/** The value as read keeps a name of its own, so that uncertainty and samples pass through the slip. */
function slippedNode({ state, signature, cell, slip, dimension }: Slipped, context: CompileContext): NodeOfForm {
  const { cellId } = state;
  const { symbol } = cell;
  const problem = slipProblem(slip, dimension, context);
  const parsed = parseRemembered(slip.formula);
  const others = symbolsOf(slip.formula).filter((name) => name !== symbol);
  const { inputs } = resolveInputs(others, context, cellId, 'slips');
  const expressions = parsed.ok ? new Map<string, Expression>([[symbol, substitute(parsed.value, (name) => (name === symbol ? named(asRead(symbol)) : undefined))]]) : undefined;
  const slipped = (read: SymbolState, states: ReadonlyMap<string, SymbolState>): SymbolState => {
    if (problem !== undefined) return { status: 'problem', problem };
    if (read.status !== 'value' || !parsed.ok) return read;
    const step = { cellId, formula: { text: slip.formula, expression: parsed.value }, unit: read.unit, ranges: [], otherwise: '' };
    return blockedBy(others, states, read.unit) ?? evaluateStep(step, valuesOf([symbol, ...others], new Map([...states, [symbol, read]])));
  };
  const atReading = (read: SymbolState, states: ReadonlyMap<string, SymbolState>): CellState => {
    const result = slipped(read, states);
    const isOwn = result.status === 'problem' && result !== read && result.origin === undefined;
    return Object.freeze({
      ...state,
      result,
      results: new Map([[symbol, result], [asRead(symbol), read]]),
      reads: others,
      problems: [...state.problems, ...(isOwn ? [{ ...result.problem, cell: cellId }] : [])],
      ...(expressions === undefined ? {} : { expressions }),
    });
  };
  return {
    symbols: [symbol, asRead(symbol)],
    inputs: problem === undefined ? inputs : [],
    signature: JSON.stringify([signature, slip.formula, inputs, problem]),
    compute: (states) => (state.result === undefined ? state : atReading(state.result, states)),
    atReading,
  };
}

function named(name: string): Expression {
  return { kind: 'symbol', name, span: { start: 0, end: 0 } };
}
