import type { SheetDocument } from '../../sheet/types.ts';
import type { Plan } from '../plan-types.ts';
import { compilePlan } from '../plan.ts';
import { reckon } from '../reckon.ts';
import type { SheetStates } from '../types.ts';
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
  const result = reckon(planWith(document, ids), [{ plan: planWith(document, slipsOn(document).on.map(({ id }) => id)), states }]);
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
