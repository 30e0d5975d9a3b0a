import type { Dimension } from '../core/units/index.ts';
import type { Problem } from '../core/problem/index.ts';
import { asideProblems, type OfferedSlip } from '../sheet/index.ts';
import type { CellBlock, SheetDocument } from '../sheet/types.ts';
import { formOf } from './forms.ts';
import { collectNames, duplicateProblem } from './names.ts';
import type { Names, CompiledSheet, CompileContext, CompiledNode } from './compiled-types.ts';
import type { GivenState } from './read-given.ts';
import { loopProblem, orderByReading } from './reading-order.ts';
import { proseNode } from './showing-node.ts';
import { slipsOn } from './slips/slips-on.ts';
import { togetherProblems } from './together.ts';

/** The graph compiles a document, and whoever asks how it would be elsewhere wants the same compiled sheet. */
let latest: { readonly document: SheetDocument; readonly compiled: CompiledSheet } | undefined;

/**
 * Reads a document's names, loops and dimensions, before any step has a number.
 * @param slips in force; those that the document says are switched on, where nothing else is asked
 */
export function compileSheet(document: SheetDocument, slips?: readonly OfferedSlip[]): CompiledSheet {
  if (slips !== undefined) return compile(document, slips);
  if (latest?.document !== document) latest = { document, compiled: compile(document, slipsOn(document).on) };
  return latest.compiled;
}

function compile(document: SheetDocument, slips: readonly OfferedSlip[]): CompiledSheet {
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
  return { nodes: document.blocks.map((block) => (block.kind === 'prose' ? proseNode(block, context) : nodeOf(block, context))), order };
}

function nodeOf(block: CellBlock, context: CompileContext): CompiledNode {
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
