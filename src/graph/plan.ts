import type { Dimension } from '../core/units/index.ts';
import type { Problem } from '../core/problem/index.ts';
import type { OfferedSlip } from '../sheet/index.ts';
import type { Cell, SheetDocument, StepCell } from '../sheet/types.ts';
import { checkNode } from './check-node.ts';
import { findingsDimension, findingsNode, symbolsReadByFit } from './findings-node.ts';
import { fitDimension, fitNode } from './fit-node.ts';
import { givenNode, slippedReads } from './given-node.ts';
import { readGiven, type GivenState } from './given.ts';
import { collectNames, duplicateProblem, loopProblem, orderByReading, type Names } from './names.ts';
import { recordDimension, recordNode, recordReads } from './record/index.ts';
import { photoNode, photoSymbolUnit } from './photo-node.ts';
import { asRead } from './slips/as-read.ts';
import { slipsOn } from './slips/slips-on.ts';
import type { ReadyStep } from './step.ts';
import { stepFormulas, stepNode, type StepFormulas } from './step-node.ts';
import { tableNode, tableSymbolUnit } from './table-node.ts';
import { tableReads, type TableState } from './table/index.ts';
import { figureNode, proseNode, textNode } from './text-node.ts';
import { togetherProblems } from './together.ts';
import type { CellState, FitState, SymbolState } from './types.ts';

/** What a node reads: a symbol, the rows of a table, the line of a fit, or what a fit has found besides. */
export type NodeInput =
  | { readonly symbol: string; readonly cellId: string }
  | { readonly table: true; readonly cellId: string }
  | { readonly fit: true; readonly cellId: string }
  | { readonly findings: true; readonly cellId: string };

/** One cell as the graph sees it: what it reads, and how its state comes from that. */
export interface PlanNode {
  readonly cellId: string;
  /** Symbols it defines. */
  readonly symbols: readonly string[];
  /** Symbols read, with the cells that define them, tables and fits; a name nobody defines is not among them. */
  readonly inputs: readonly NodeInput[];
  /** Equal signatures compute the same state from the same inputs. */
  readonly signature: string;
  readonly compute: (
    symbols: ReadonlyMap<string, SymbolState>,
    tables: ReadonlyMap<string, TableState>,
    fits: ReadonlyMap<string, FitState>,
  ) => CellState;
  /** Givens that a slip changes: their state where something else was read. */
  readonly atReading?: (read: SymbolState, symbols: ReadonlyMap<string, SymbolState>) => CellState;
  /** Steps only: the formula that block evaluation reads. */
  readonly ready?: ReadyStep;
}

export interface Plan {
  readonly nodes: readonly PlanNode[];
  /** Symbols, each after those it reads. */
  readonly order: readonly string[];
}

/** What the nodes of one document are made from: names resolved, loops found, dimensions settled. */
export interface PlanContext {
  readonly names: Names;
  readonly dimensions: ReadonlyMap<string, Dimension>;
  /** Static trouble by cell id: duplicates, loops, readings in pairs that don't pair up. */
  readonly problems: ReadonlyMap<string, readonly Problem[]>;
}

/** The graph compiles a document, and whoever asks how it would be elsewhere wants the same plan. */
let latest: { readonly document: SheetDocument; readonly plan: Plan } | undefined;

/**
 * Reads a document's names, loops and dimensions, before any step has a number.
 * @param slips in force; those that the document says are switched on, where nothing else is asked
 */
export function compilePlan(document: SheetDocument, slips?: readonly OfferedSlip[]): Plan {
  if (slips !== undefined) return compile(document, slips);
  if (latest?.document !== document) latest = { document, plan: compile(document, slipsOn(document).on) };
  return latest.plan;
}

function compile(document: SheetDocument, slips: readonly OfferedSlip[]): Plan {
  const names = collectNames(document, slips);
  const givens = new Map<string, GivenState>();
  const formulas = new Map<string, StepFormulas>();
  for (const { symbol, block } of names.definitions.values()) {
    if (block.cell.kind === 'given') givens.set(symbol, readGiven(block.cell, names.fillings.get(symbol)));
    else if (block.cell.kind === 'step') formulas.set(symbol, stepFormulas(block.cell, names));
  }
  const reads = new Map<string, readonly string[]>();
  for (const [symbol, { block }] of names.definitions) {
    const { cell } = block;
    reads.set(symbol, readsOfCell(cell, symbol, names) ?? formulas.get(symbol)?.reads ?? []);
    if (cell.kind === 'given' && names.slips.has(symbol)) reads.set(asRead(symbol), []);
  }
  const { order, loops } = orderByReading(reads);
  const context: PlanContext = {
    names,
    dimensions: settleDimensions(order, names, givens, formulas),
    problems: staticProblems(names, loops, givens),
  };
  const nodes = document.blocks.map((block): PlanNode => {
    if (block.kind === 'prose') return proseNode(block, context);
    const { cell } = block;
    if (cell.kind === 'given') return givenNode(block, cell, givens, context);
    if (cell.kind === 'step') return stepNode(block, cell, formulasOf(cell, formulas, names), context);
    if (cell.kind === 'check') return checkNode(block, cell, context);
    if (cell.kind === 'table') return tableNode(block, cell, context);
    if (cell.kind === 'photo') return photoNode(block, cell, context);
    if (cell.kind === 'record') return recordNode(block, cell, context);
    if (cell.kind === 'fit') return cell.finds === 'line' ? fitNode(block, cell, context) : findingsNode(block, cell, context);
    if (cell.kind === 'figure') return figureNode(block, cell, context);
    return textNode(block, context);
  });
  return { nodes, order };
}

/** What a symbol of a table, a fit, a record or a given reads; undefined for other kinds. */
function readsOfCell(cell: Cell, symbol: string, names: Names): readonly string[] | undefined {
  switch (cell.kind) {
    case 'table': return tableReads(cell);
    case 'fit': return symbolsReadByFit(cell, names);
    case 'record': return recordReads(cell, symbol);
    case 'given': return slippedReads(cell, names);
    default: return undefined;
  }
}

/** A rival definition of a symbol has formulas of its own. */
function formulasOf(cell: StepCell, formulas: ReadonlyMap<string, StepFormulas>, names: Names): StepFormulas {
  const known = names.definitions.get(cell.symbol)?.block.cell === cell ? formulas.get(cell.symbol) : undefined;
  return known ?? stepFormulas(cell, names);
}

function settleDimensions(
  order: readonly string[],
  names: Names,
  givens: ReadonlyMap<string, GivenState>,
  formulas: ReadonlyMap<string, StepFormulas>,
): ReadonlyMap<string, Dimension> {
  const dimensions = new Map<string, Dimension>();
  for (const symbol of order) {
    const cell = names.definitions.get(symbol)?.block.cell;
    const dimension =
      cell?.kind === 'fit'
        ? (cell.finds === 'line' ? fitDimension : findingsDimension)(cell, symbol, names)
        : cell?.kind === 'table'
          ? tableSymbolUnit(cell, symbol).dimension
          : cell?.kind === 'record'
            ? recordDimension(cell, symbol, dimensions)
            : cell?.kind === 'photo'
              ? photoSymbolUnit(cell, symbol).dimension
              : (givens.get(symbol)?.dimension ?? formulas.get(symbol)?.dimension(dimensions));
    if (dimension !== undefined) dimensions.set(symbol, dimension);
  }
  return dimensions;
}

function staticProblems(
  names: Names,
  loops: ReadonlyMap<string, readonly string[]>,
  givens: ReadonlyMap<string, GivenState>,
): ReadonlyMap<string, readonly Problem[]> {
  const problems = new Map<string, Problem[]>();
  const add = (cellId: string, problem: Problem): void => {
    problems.set(cellId, [...(problems.get(cellId) ?? []), problem]);
  };
  for (const definition of names.definitions.values()) {
    if (definition.rivals.length > 0) {
      for (const block of [definition.block, ...definition.rivals]) add(block.id, duplicateProblem(definition, block));
    }
    const loop = loops.get(definition.symbol);
    if (loop !== undefined) add(definition.block.id, loopProblem(definition.block.id, definition.symbol, loop));
  }
  for (const problem of togetherProblems(names, givens)) if (problem.cell !== undefined) add(problem.cell, problem);
  return problems;
}
