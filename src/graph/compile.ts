import type { Dimension } from '../core/units/index.ts';
import type { Problem } from '../core/problem/index.ts';
import { asideProblems, type OfferedSlip } from '../sheet/index.ts';
import type { Block, SheetDocument } from '../sheet/types.ts';
import { formOf } from './forms.ts';
import { collectNames, duplicateProblem } from './names.ts';
import { compiledSheet } from './compiled-sheet.ts';
import type { Names, CompiledSheet, CompileContext, CompiledNode } from './compiled-types.ts';
import type { GivenState } from './read-given.ts';
import { loopProblem, orderByReading } from './reading-order.ts';
import { proseNode } from './showing-node.ts';
import { slipsOn } from './slips/slips-on.ts';
import { togetherProblems } from './together.ts';

/** A compiled document, with what its nodes were made from. */
interface Compilation {
  readonly document: SheetDocument;
  readonly givens: ReadonlyMap<string, GivenState>;
  readonly context: CompileContext;
  readonly compiled: CompiledSheet;
}

/** The graph compiles a document, and whoever asks how it would be elsewhere wants the same compiled sheet; a held state or two may be asked for in between. */
const MOST_KEPT = 4;
let latest: readonly Compilation[] = [];

/**
 * Reads a document's names, loops and dimensions, before any step has a number.
 * @param slips in force; those that the document says are switched on, where nothing else is asked
 */
export function compileSheet(document: SheetDocument, slips?: readonly OfferedSlip[]): CompiledSheet {
  if (slips !== undefined) return compile(document, slips).compiled;
  const known = latest.find((one) => one.document === document);
  if (known !== undefined) return known.compiled;
  const fresh = compileAfter(document) ?? compile(document, slipsOn(document).on);
  latest = [fresh, ...latest].slice(0, MOST_KEPT);
  return fresh.compiled;
}

function compile(document: SheetDocument, slips: readonly OfferedSlip[]): Compilation {
  const names = collectNames(document, slips);
  const givens = new Map<string, GivenState>();
  const reads = new Map<string, readonly string[]>();
  for (const [symbol, { block: { cell } }] of names.definitions) {
    const form = formOf(cell);
    reads.set(symbol, form.reads?.(cell, symbol, names) ?? []);
    for (const name of form.keptAside?.(cell, names) ?? []) reads.set(name, []);
    const given = form.typed?.(cell, names);
    if (given !== undefined) givens.set(symbol, given);
  }
  const { order, loops } = orderByReading(reads);
  const context: CompileContext = {
    names,
    dimensions: settleDimensions(order, names),
    problems: staticProblems({ names, loops, givens, document }),
  };
  return { document, givens, context, compiled: compiledSheet(document.blocks.map((block) => nodeOf(block, context)), order) };
}

/** The document compiled from one that was before, where one cell is another and leaves all others as they were; undefined where there is none such. */
function compileAfter(document: SheetDocument): Compilation | undefined {
  for (const before of latest) {
    const at = onlyChange(before.document, document);
    if (at !== undefined) return withBlock(before, document, at);
  }
  return undefined;
}

/** Place of the one block that differs. */
function onlyChange(before: SheetDocument, after: SheetDocument): number | undefined {
  if (before.frontMatter !== after.frontMatter || before.blocks.length !== after.blocks.length) return undefined;
  const differs = (block: Block, at: number): boolean => block !== before.blocks[at];
  const first = after.blocks.findIndex(differs);
  return first < 0 || first !== after.blocks.findLastIndex(differs) ? undefined : first;
}

function withBlock(earlier: Compilation, document: SheetDocument, at: number): Compilation | undefined {
  const [before, after] = [earlier.document.blocks[at], document.blocks[at]];
  if (before?.kind !== 'cell' || after?.kind !== 'cell' || before.id !== after.id || before.cell.kind !== after.cell.kind) return undefined;
  const { context, givens, compiled: { nodes, order } } = earlier;
  const { names, problems } = context;
  const form = formOf(after.cell);
  const [symbol, ...more] = form.symbols(after.cell);
  const definition = symbol === undefined ? undefined : names.definitions.get(symbol);
  // A slip in force knows the very cell that it stands in; what is told of several givens together hangs on each of them.
  if (symbol === undefined || more.length > 0 || definition?.block !== before || definition.rivals.length > 0 || names.slips.size > 0) return undefined;
  if (problems.has(after.id) || isCorrelatedBy(symbol, givens) || form.leavesOthers?.(before.cell, after.cell, names) !== true) return undefined;
  const next = { ...context, names: { ...names, definitions: new Map(names.definitions).set(symbol, { ...definition, block: after }) } };
  const given = form.typed?.(after.cell, names);
  return {
    document,
    givens: given === undefined ? givens : new Map(givens).set(symbol, given),
    context: next,
    compiled: { ...earlier.compiled, nodes: nodes.with(at, nodeOf(after, next)), order },
  };
}

/** Whether another given says that it varies together with this one. */
function isCorrelatedBy(symbol: string, givens: ReadonlyMap<string, GivenState>): boolean {
  for (const { input } of givens.values()) if (input?.correlations?.has(symbol) === true) return true;
  return false;
}

function nodeOf(block: Block, context: CompileContext): CompiledNode {
  if (block.kind === 'prose') return proseNode(block, context);
  const form = formOf(block.cell);
  return { cellId: block.id, symbols: form.symbols(block.cell), ...form.node(block, block.cell, context) };
}

function settleDimensions(order: readonly string[], names: Names): ReadonlyMap<string, Dimension> {
  const dimensions = new Map<string, Dimension>();
  for (const symbol of order) {
    const cell = names.definitions.get(symbol)?.block.cell;
    const dimension = cell === undefined ? undefined : formOf(cell).dimension?.(cell, symbol, names, dimensions);
    if (dimension !== undefined) dimensions.set(symbol, dimension);
  }
  return dimensions;
}

function staticProblems({ names, loops, givens, document }: {
  readonly names: Names;
  readonly loops: ReadonlyMap<string, readonly string[]>;
  readonly givens: ReadonlyMap<string, GivenState>;
  readonly document: SheetDocument;
}): ReadonlyMap<string, readonly Problem[]> {
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
  for (const problem of [...togetherProblems(names, givens), ...asideProblems(document)]) if (problem.cell !== undefined) add(problem.cell, problem);
  return problems;
}
