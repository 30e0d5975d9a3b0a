import { toSI } from '../../core/units/index.ts';
import { rightStates, standings, type MarkedSheet, type Standing } from '../../graph/index.ts';
import type { SheetStates } from '../../graph/types.ts';
import type { SheetDocument } from '../../sheet/types.ts';
import { asked } from './asked.ts';
import { roundedIn } from './result.ts';
import type { PresentContext, WholeContext } from './types.ts';

/** The sheet as own results are held against it: without slips, its numbers as they are shown. */
export function markedSheet({ document, states, system }: WholeContext): MarkedSheet {
  const right = rightStates(document, states);
  return {
    document,
    states: right,
    shown: (symbol) => {
      const state = right.symbol(symbol);
      if (state?.status !== 'value' || !Number.isFinite(state.estimate.value)) return undefined;
      const { unit, rounded } = roundedIn(state, system);
      return toSI(Number(`${rounded.number}e${rounded.exponent}`), unit);
    },
  };
}

interface Known {
  readonly document: SheetDocument;
  readonly standings: ReadonlyMap<string, Standing>;
}

/** Worked out once for one state of the sheet and one system of units. */
const known = new WeakMap<SheetStates, Partial<Record<WholeContext['system'], Known>>>();

/** How all asked steps stand with their reader, by id. */
export function standingsOf(whole: WholeContext): ReadonlyMap<string, Standing> {
  const { document, states, system } = whole;
  const before = known.get(states) ?? {};
  const found = before[system];
  if (found?.document === document) return found.standings;
  const fresh = { document, standings: standings(markedSheet(whole)) };
  known.set(states, { ...before, [system]: fresh });
  return fresh.standings;
}

/** How one step stands; undefined where it is not asked for. */
export function standingOf(stepId: string, context: PresentContext): Standing | undefined {
  return asked(context, ofStep, stepId, (one, other) => one === other || JSON.stringify(one) === JSON.stringify(other));
}

const ofStep = (whole: WholeContext, stepId: string) => standingsOf(whole).get(stepId);
