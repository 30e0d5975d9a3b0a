import type { Problem } from '../core/problem/index.ts';
import { remembered } from '../core/remembered/index.ts';
import type { Block, ProseBlock } from '../sheet/types.ts';
import { definedInputs, toldAt } from './inputs.ts';
import type { NodeInput, CompileContext, CompiledNode } from './compiled-types.ts';
import type { CellState } from './types.ts';

/** Live values in prose and sentences: `{=sigma_a}`. */
const LIVE_VALUE = /\{=([A-Za-z][A-Za-z0-9_]*)\}/g;

/** Symbols whose live values stand in a text, in order of first mention. */
export function liveSymbols(text: string): readonly string[] {
  return [...new Set([...text.matchAll(LIVE_VALUE)].flatMap(([, symbol]) => (symbol === undefined ? [] : [symbol])))];
}

const symbolsOfProse = remembered(({ source }: ProseBlock) => liveSymbols(source));

/** Prose has no value; it is a node because its live values change. */
export function proseNode(block: ProseBlock, context: CompileContext): CompiledNode {
  return showingNode(block, context, { reads: symbolsOfProse(block) });
}

/** What a block without a value of its own shows. */
export interface Shown {
  readonly reads?: readonly string[];
  readonly problems?: readonly Problem[];
  /** Fits and tables whose state is drawn. */
  readonly drawn?: readonly NodeInput[];
  /** What else the cell's look depends on. */
  readonly form?: string | undefined;
}

/** A block that has no value and shows those of others. */
export function showingNode(block: Block, context: CompileContext, { reads = [], problems = [], drawn = [], form = '' }: Shown): CompiledNode {
  const all = toldAt(block.id, [...problems, ...(context.problems.get(block.id) ?? [])]);
  const inputs = [...drawn, ...definedInputs(reads, context)];
  return {
    cellId: block.id,
    symbols: [],
    inputs,
    signature: JSON.stringify(['text', inputs, all, form]),
    // A fresh object each time, since a new state is how the page learns that a value it shows has moved.
    compute: (): CellState => Object.freeze({ cellId: block.id, reads, problems: all, warnings: [] }),
  };
}

/** A symbol that a cell names and nobody defines. */
export function unknownSymbol(symbol: string, role: string): Problem {
  return {
    code: 'role-symbol-unknown',
    what: `No given or step has the symbol ${symbol}, which is named as ${role}.`,
    mend: `Add a given or a step for ${symbol}, or name another symbol.`,
  };
}
