import { rightStates, statesWithSlips } from '../../graph/index.ts';
import type { SheetStates } from '../../graph/types.ts';
import { chiefResults } from './chief-results.ts';
import { isSymbolHidden } from './hidden.ts';
import { calledIn } from './lookup.ts';
import { presentSymbol } from './result.ts';
import { effectBetween, isElse, presentSlips } from './slips.ts';
import { wholeOf } from './asked.ts';
import type { PresentContext, PresentedSlip, WholeContext } from './types.ts';

/** What a slip would do to the chief results, reckoned without switching it on. */
export interface PresentedSlipEffect {
  readonly slip: PresentedSlip;
  /** One each: `Nominal stress amplitude × 16`. */
  readonly effects: readonly string[];
}

/** Slips that act at one given or step. */
export interface SlipGroup {
  readonly cellId: string;
  readonly where: string;
  readonly slips: readonly PresentedSlipEffect[];
}

/** More than these would hide the slips themselves. */
const MOST_RESULTS = 3;

/** Every slip of the sheet with what it would do alone, grouped by where it acts. */
export function presentSlipEffects(context: PresentContext): readonly SlipGroup[] {
  const whole = wholeOf(context);
  const { document, states } = whole;
  const right = rightStates(document, states);
  const chief = chiefResults(document, right, MOST_RESULTS);
  const groups = new Map<string, { cellId: string; where: string; slips: PresentedSlipEffect[] }>();
  for (const slip of presentSlips(whole)) {
    const there = statesWithSlips(document, states, [slip.id]);
    const effects = chief.flatMap((symbol) => effectOn(symbol, { ...whole, states: right }, there));
    const group = groups.get(slip.cellId) ?? { cellId: slip.cellId, where: slip.where, slips: [] };
    group.slips.push({ slip, effects: effects.length > 0 ? effects : alone(effectOn(slip.symbol, { ...whole, states: right }, there)) });
    groups.set(slip.cellId, group);
  }
  return [...groups.values()];
}

function effectOn(symbol: string, rightContext: WholeContext, there: SheetStates): readonly string[] {
  const [was, is] = [rightContext.states.symbol(symbol), there.symbol(symbol)];
  if (was === undefined || is === undefined || !isElse(was, is)) return [];
  const name = calledIn(rightContext, symbol);
  if (isSymbolHidden(symbol, rightContext)) return [`${name}: told after your own working`];
  const moved = effectBetween(was, is, true);
  if (moved !== undefined) return [`${name} ${moved}`];
  const shown = presentSymbol(symbol, { ...rightContext, states: there });
  if (shown === undefined) return [];
  return [`${name}: ${shown.kind === 'problem' ? 'no value' : shown.text}`];
}

/** None of the chief results moves: what it does where it acts. */
function alone(own: readonly string[]): readonly string[] {
  return own.length === 0 ? ['Changes nothing as the sheet stands'] : [...own, 'none of the chief results moves'];
}
