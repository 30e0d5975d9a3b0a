import type { CompiledNode, CompiledSheet } from './compiled-types.ts';

/** The nodes of a document put together. @param order its symbols, each after those it reads */
export function compiledSheet(nodes: readonly CompiledNode[], order: readonly string[]): CompiledSheet {
  const definers = new Map<string, string>();
  for (const { symbols, cellId } of nodes) {
    for (const symbol of symbols) if (!definers.has(symbol)) definers.set(symbol, cellId);
  }
  return { nodes, order, definers };
}
