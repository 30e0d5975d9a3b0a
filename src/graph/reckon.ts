import { inReadingOrder } from './elsewhere.ts';
import { evaluateNode, readBy, takeSnapshot, type Evaluated } from './evaluate.ts';
import type { CompiledSheet, CompiledNode } from './compiled-types.ts';
import type { CellState, SheetStates } from './types.ts';

/** A sheet that has been worked out already, and from which states can be taken over. */
export interface Reckoned {
  readonly compiled: CompiledSheet;
  readonly states: SheetStates;
}

/**
 * The states of a compiled sheet, worked out at once and apart from the live graph. A cell that is the same in one of the sheets known
 * and reads the same there keeps its state; only what differs is computed.
 * @param known the nearest first
 */
export function reckon(then: CompiledSheet, known: readonly Reckoned[]): SheetStates {
  const sheets = known.map(({ compiled, states }) => ({ states, signatures: new Map(compiled.nodes.map(({ cellId, signature }) => [cellId, signature])) }));
  const cells = new Map<string, CellState>();
  function* evaluatedThere(node: CompiledNode): Iterable<Evaluated> {
    for (const { states, signatures } of sheets) {
      const state = states.cell(node.cellId);
      if (state !== undefined && signatures.get(node.cellId) === node.signature) yield { state, read: readBy(node, states.cell) };
    }
  }
  for (const node of inReadingOrder(then)) {
    const { cellId } = node;
    cells.set(cellId, evaluateNode(node, (id) => cells.get(id), known[0]?.states.cell(cellId), evaluatedThere(node)).state);
  }
  return takeSnapshot(then, cells);
}
