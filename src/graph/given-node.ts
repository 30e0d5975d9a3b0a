import { substitute } from '../core/formula/index.ts';
import type { Expression } from '../core/formula/types.ts';
import type { Dimension } from '../core/units/index.ts';
import type { CellBlock, CellSlip, GivenCell } from '../sheet/types.ts';
import { readGiven, type GivenState } from './given.ts';
import { definedSymbols, parseRemembered, symbolsOf, type Names } from './names.ts';
import type { PlanContext, PlanNode } from './plan.ts';
import { asRead } from './slips/as-read.ts';
import { slipProblem, slipWarnings } from './slips/slip-problems.ts';
import { blockedBy, evaluateStep } from './step.ts';
import { resolveInputs, valuesOf } from './step-node.ts';
import type { CellState, SymbolState } from './types.ts';

/** What a given's symbol reads while a slip stands in its place: the value as it was read, and what else the slip takes. */
export function slippedReads({ symbol }: GivenCell, { slips }: Names): readonly string[] {
  const formula = slips.get(symbol)?.slip.formula;
  return formula === undefined ? [] : symbolsOf(formula).map((name) => (name === symbol ? asRead(symbol) : name));
}

/** A given as a node: read from its text, and changed where a slip is switched on. */
export function givenNode(
  block: CellBlock,
  cell: GivenCell,
  givens: ReadonlyMap<string, GivenState>,
  context: PlanContext,
): PlanNode {
  const known = context.names.definitions.get(cell.symbol)?.block === block ? givens.get(cell.symbol) : undefined;
  const given = known ?? readGiven(cell, context.names.fillings.get(cell.symbol));
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
    problems: [...cell.problems, ...extra, ...given.problems].map((problem) => ({ ...problem, cell: block.id })),
    warnings: [...given.warnings, ...slipWarnings(cell, slip, given.dimension, context)].map((problem) => ({ ...problem, cell: block.id })),
  });
  const node: PlanNode = {
    cellId: block.id,
    symbols: definedSymbols(cell),
    inputs: [],
    signature: `given ${given.serial} ${JSON.stringify([extra, state.warnings])}`,
    compute: () => state,
  };
  return slip === undefined || given.dimension === undefined ? node : slippedNode(node, state, cell, slip, given.dimension, context);
}

/** The value as read keeps a name of its own, so that uncertainty and draws pass through the slip. */
function slippedNode(
  node: PlanNode, state: CellState, { symbol }: GivenCell, slip: CellSlip, dimension: Dimension, context: PlanContext,
): PlanNode {
  const problem = slipProblem(slip, dimension, context);
  const parsed = parseRemembered(slip.formula);
  const others = symbolsOf(slip.formula).filter((name) => name !== symbol);
  const { inputs } = resolveInputs(others, context, node.cellId, 'slips');
  const expressions = parsed.ok ? new Map<string, Expression>([[symbol, substitute(parsed.value, (name) => (name === symbol ? named(asRead(symbol)) : undefined))]]) : undefined;
  const slipped = (read: SymbolState, states: ReadonlyMap<string, SymbolState>): SymbolState => {
    if (problem !== undefined) return { status: 'problem', problem };
    if (read.status !== 'value' || !parsed.ok) return read;
    const step = { cellId: node.cellId, formula: { text: slip.formula, expression: parsed.value }, unit: read.unit, ranges: [], otherwise: '' };
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
      problems: [...state.problems, ...(isOwn ? [{ ...result.problem, cell: node.cellId }] : [])],
      ...(expressions === undefined ? {} : { expressions }),
    });
  };
  return {
    ...node,
    symbols: [...node.symbols, asRead(symbol)],
    inputs: problem === undefined ? inputs : [],
    signature: JSON.stringify([node.signature, slip.formula, inputs, problem]),
    compute: (states) => (state.result === undefined ? state : atReading(state.result, states)),
    atReading,
  };
}

function named(name: string): Expression {
  return { kind: 'symbol', name, span: { start: 0, end: 0 } };
}
