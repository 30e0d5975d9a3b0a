import { inReadingOrder } from './elsewhere.ts';
import { computeNode, faultState, readFrom, sameItems, takeSnapshot } from './node-state.ts';
import type { Plan, PlanNode } from './plan.ts';
import type { CellState, SheetStates } from './types.ts';

/** A sheet that has been worked out already, and from which states can be taken over. */
export interface Reckoned {
  readonly plan: Plan;
  readonly states: SheetStates;
}

/**
 * The states of a plan, worked out at once and apart from the live graph. A cell that is the same in one of the sheets known
 * and reads the same there keeps its state; only what differs is computed.
 * @param known the nearest first
 */
export function reckon(then: Plan, known: readonly Reckoned[]): SheetStates {
  const signatures = known.map(({ plan }) => new Map(plan.nodes.map(({ cellId, signature }) => [cellId, signature])));
  const cells = new Map<string, CellState>();
  for (const node of inReadingOrder(then)) {
    const { cellId } = node;
    const read = node.inputs.map((input) => readFrom(input, cells.get(input.cellId)));
    const same = known.find(({ states }, i) => states.cell(cellId) !== undefined && signatures[i]?.get(cellId) === node.signature
      && sameItems(read, node.inputs.map((input) => readFrom(input, states.cell(input.cellId)))));
    cells.set(cellId, same?.states.cell(cellId) ?? computed(node, read, known[0]?.states.cell(cellId)));
  }
  return takeSnapshot(then, cells);
}

function computed(node: PlanNode, read: Parameters<typeof computeNode>[1], before: CellState | undefined): CellState {
  try {
    return computeNode(node, read, before);
  } catch (error) {
    // As the live graph has it: a fault of the sheet's own, told at its cell.
    return faultState(node.cellId, error);
  }
}
