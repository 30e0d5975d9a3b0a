import type { SheetDocument } from '../../sheet/types.ts';
import { orderByReading } from '../names.ts';
import { computeNode, faultState, readFrom, sameItems, takeSnapshot } from '../node-state.ts';
import { compilePlan, type Plan, type PlanNode } from '../plan.ts';
import type { CellState, SheetStates } from '../types.ts';
import { namedSlips, slipsOn } from './slips-on.ts';

const plans = new WeakMap<SheetDocument, Map<string, Plan>>();
const known = new WeakMap<SheetStates, Map<string, SheetStates>>();

/**
 * The sheet as it would be with these slips switched on and no others. Only what they move is reckoned again; everything
 * else keeps its state. Repeatable and cheap to ask again.
 * @param document the one that the states belong to
 */
export function statesWithSlips(document: SheetDocument, states: SheetStates, ids: readonly string[]): SheetStates {
  const wanted = ids.join();
  if (wanted === idsOn(document)) return states;
  const before = known.get(states);
  const found = before?.get(wanted);
  if (found !== undefined) return found;
  const result = reckon(planWith(document, slipsOn(document).on.map(({ id }) => id)), planWith(document, ids), states);
  if (before === undefined) known.set(states, new Map([[wanted, result]]));
  else before.set(wanted, result);
  return result;
}

/** The sheet without any slip; the states themselves where none is on. */
export function rightStates(document: SheetDocument, states: SheetStates): SheetStates {
  return statesWithSlips(document, states, []);
}

function idsOn(document: SheetDocument): string {
  return slipsOn(document).on.map(({ id }) => id).join();
}

function planWith(document: SheetDocument, ids: readonly string[]): Plan {
  const key = ids.join();
  let byKey = plans.get(document);
  if (byKey === undefined) {
    byKey = new Map();
    plans.set(document, byKey);
  }
  let plan = byKey.get(key);
  if (plan === undefined) {
    plan = compilePlan(document, namedSlips(document, ids).on);
    byKey.set(key, plan);
  }
  return plan;
}

function reckon(now: Plan, then: Plan, states: SheetStates): SheetStates {
  const signatures = new Map(now.nodes.map(({ cellId, signature }) => [cellId, signature]));
  const nodes = new Map(then.nodes.map((node) => [node.cellId, node]));
  const cells = new Map<string, CellState>();
  const { order } = orderByReading(new Map(then.nodes.map(({ cellId, inputs }) => [cellId, inputs.map((input) => input.cellId)])));
  for (const cellId of order) {
    const node = nodes.get(cellId);
    const before = states.cell(cellId);
    if (node === undefined) continue;
    const read = node.inputs.map((input) => readFrom(input, cells.get(input.cellId)));
    const same = before !== undefined && signatures.get(cellId) === node.signature
      && sameItems(read, node.inputs.map((input) => readFrom(input, states.cell(input.cellId))));
    cells.set(cellId, same ? before : computed(node, read, before));
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
