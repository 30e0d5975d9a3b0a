import type { Problem } from '../core/problem/index.ts';
import type { Block, CellBlock, ChoiceCell, FigureCell, FitCell, ProseBlock } from '../sheet/types.ts';
import type { NodeInput, PlanContext, PlanNode } from './plan.ts';
import type { CellState } from './types.ts';

/** Live values in prose and sentences: `{=sigma_a}`. */
const LIVE_VALUE = /\{=([A-Za-z][A-Za-z0-9_]*)\}/g;

/** Symbols whose live values stand in a text, in order of first mention. */
export function liveSymbols(text: string): readonly string[] {
  return [...new Set([...text.matchAll(LIVE_VALUE)].flatMap(([, symbol]) => (symbol === undefined ? [] : [symbol])))];
}

/** Prose has no value; it is a node because its live values change. */
export function proseNode(block: ProseBlock, context: PlanContext): PlanNode {
  return showingNode(block, liveSymbols(block.source), [], context);
}

export function figureNode(block: CellBlock, cell: FigureCell, context: PlanContext): PlanNode {
  const [named, against] = [drawnSymbols(cell), sweptSymbols(cell)];
  const reads = [...new Set([...cell.values.values(), ...named, ...against])];
  const problems = [...cell.problems];
  for (const [role, symbol] of cell.values) {
    if (!context.names.definitions.has(symbol)) problems.push(unknownSymbol(symbol, `the value for ${role}`));
  }
  for (const symbol of named) if (!context.names.definitions.has(symbol)) problems.push(unknownSymbol(symbol, 'what is drawn'));
  for (const symbol of against) if (!context.names.definitions.has(symbol)) problems.push(unknownSymbol(symbol, 'what it is drawn against'));
  if (cell.by !== undefined && !context.names.chosen.has(cell.by)) {
    problems.push({
      code: 'figure-choice',
      what: `The drawing takes its form from a choice “${cell.by}”, and none is made there.`,
      mend: 'Add the choice, or choose one of its options.',
      key: 'by',
    });
  }
  const form = cell.by === undefined ? undefined : context.names.chosen.get(cell.by)?.key;
  if (cell.fit === undefined) return showingNode(block, reads, problems, context, [], form);
  const fit = context.names.fits.get(cell.fit);
  if (fit === undefined) problems.push(unknownFit(cell.fit, [...context.names.fits.keys()]));
  return showingNode(block, reads, problems, context, fit === undefined ? [] : drawnInputs(fit, context), form);
}

/** The symbols that a figure names under `of`. */
export function drawnSymbols({ of = '' }: FigureCell): readonly string[] {
  return listed(of);
}

/** The givens that a sweep names under `against`. */
export function sweptSymbols({ against = '' }: FigureCell): readonly string[] {
  return listed(against);
}

function listed(text: string): readonly string[] {
  return text.split(/[,;]/).map((symbol) => symbol.trim()).filter((symbol) => symbol !== '');
}

/** What a chart shows of a fit: its line or what it has found, and the rows of its table. */
function drawnInputs(fit: FitCell, { names }: PlanContext): readonly NodeInput[] {
  const found: NodeInput[] = fit.finds === 'line' ? [{ fit: true, cellId: fit.id }] : [{ findings: true, cellId: fit.id }];
  return names.tables.has(fit.table) ? [...found, { table: true, cellId: fit.table }] : found;
}

function unknownFit(named: string, fits: readonly string[]): Problem {
  return {
    code: 'figure-fit',
    what: `There is no fit called ${named} in this sheet.`,
    mend: fits.length === 0 ? 'Add a fit, or take the line `fit:` out.' : `Name one of: ${fits.slice(0, 12).join(', ')}.`,
    key: 'fit',
  };
}

/** Choices, checklists, remarks and what the sheet does not understand: their state is their text. */
export function textNode(block: CellBlock, context: PlanContext): PlanNode {
  const problems = [...block.cell.problems];
  const { cell } = block;
  if (cell.kind === 'choice') {
    const option = context.names.chosen.get(cell.id);
    const groups = context.names.otherKeys.get(cell.id)?.groups ?? [];
    if (option === undefined && !groups.includes(cell.chosen)) problems.push(optionUnknown(cell, groups));
    for (const symbol of option?.sets.keys() ?? []) {
      if (!context.names.definitions.has(symbol)) problems.push(unknownSymbol(symbol, 'what this option sets'));
    }
  }
  return showingNode(block, [], problems, context);
}

function optionUnknown({ chosen, options }: ChoiceCell, groups: readonly string[]): Problem {
  const keys = [...new Set([...options.map(({ key }) => key), ...groups])];
  return {
    code: 'option-unknown',
    what: `“${chosen}” is none of the options here${groups.length > 0 ? ', and no group of the table' : ''}.`,
    mend: `Choose one of: ${keys.join(', ')}.`,
    key: 'chosen',
  };
}

function unknownSymbol(symbol: string, role: string): Problem {
  return {
    code: 'unknown-name',
    what: `No given or step has the symbol ${symbol}, which is named as ${role}.`,
    mend: `Add a given or a step for ${symbol}, or name another symbol.`,
  };
}

function showingNode(
  block: Block,
  reads: readonly string[],
  problems: readonly Problem[],
  context: PlanContext,
  drawn: readonly NodeInput[] = [],
  /** What else the cell's look depends on. */
  form = '',
): PlanNode {
  const all = [...problems, ...(context.problems.get(block.id) ?? [])].map((problem) => ({ ...problem, cell: block.id }));
  const inputs = [...drawn, ...reads.flatMap((symbol): NodeInput[] => {
    const definition = context.names.definitions.get(symbol);
    return definition === undefined ? [] : [{ symbol, cellId: definition.block.id }];
  })];
  return {
    cellId: block.id,
    symbols: [],
    inputs,
    signature: JSON.stringify(['text', inputs, all, form]),
    // A fresh object each time, since a new state is how the page learns that a value it shows has moved.
    compute: (): CellState => Object.freeze({ cellId: block.id, reads, problems: all, warnings: [] }),
  };
}
