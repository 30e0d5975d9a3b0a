import { remembered, rememberedByName } from '../../core/remembered/index.ts';
import type { SheetDocument } from '../../sheet/types.ts';
import type { CompiledSheet } from '../compiled-types.ts';
import { compileSheet } from '../compile.ts';
import { reckon } from '../reckon.ts';
import type { SheetStates } from '../types.ts';
import { namedSlips, slipsOn } from './slips-on.ts';

/** By the ids of the slips, one a line. */
const compiledWith = rememberedByName((document: SheetDocument, ids: string): CompiledSheet => compileSheet(document, namedSlips(document, ids === '' ? [] : ids.split('\n')).on));
const known = remembered((_states: SheetStates) => new Map<string, SheetStates>());

/**
 * The sheet as it would be with these slips switched on and no others. Only what they move is reckoned again; everything
 * else keeps its state. Repeatable and cheap to ask again.
 * @param document the one that the states belong to
 */
export function statesWithSlips(document: SheetDocument, states: SheetStates, ids: readonly string[]): SheetStates {
  const [on, wanted] = [slipsOn(document).on.map(({ id }) => id).join('\n'), ids.join('\n')];
  if (wanted === on) return states;
  const result = known(states).get(wanted) ?? reckon(compiledWith(document, wanted), [{ compiled: compiledWith(document, on), states }]);
  known(states).set(wanted, result);
  return result;
}

/** The sheet without any slip; the states themselves where none is on. */
export function rightStates(document: SheetDocument, states: SheetStates): SheetStates {
  return statesWithSlips(document, states, []);
}
