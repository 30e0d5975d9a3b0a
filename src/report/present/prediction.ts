import { effectsAround } from '../../graph/index.ts';
import type { LecturePrediction } from '../../sheet/index.ts';
import { wholeOf } from './asked.ts';
import { plainFigures } from './number.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext } from './types.ts';

/** Below this nobody tells it from nothing. */
const NOTHING = 5e-6;

/** What a change of one symbol does to a result, worked out anew and not by its slope. */
export interface PresentedPrediction {
  readonly ofTex: string;
  /** `1 % less` */
  readonly change: string;
  /** Undefined where there is no value then, or the one has nothing to do with the other. */
  readonly outcome?: { readonly direction: 'up' | 'down' | 'stays'; readonly text: string };
}

export function presentPrediction({ symbol, share }: LecturePrediction, of: string, context: PresentContext): PresentedPrediction {
  const { document, states } = wholeOf(context);
  const isThere = [symbol, of].every((name) => states.symbol(name)?.status === 'value');
  const [effect] = isThere ? (effectsAround(symbol, document, states, [share]).downstream.get(of) ?? [0]) : [];
  const said = { ofTex: symbolOf(symbol), change: `${plainFigures(Math.abs(100 * share), 3)} % ${share < 0 ? 'less' : 'more'}` };
  if (effect === undefined || !Number.isFinite(effect)) return said;
  const direction = Math.abs(effect) < NOTHING ? 'stays' : effect > 0 ? 'up' : 'down';
  return { ...said, outcome: { direction, text: `${plainFigures(Math.abs(100 * effect), 3)} %` } };
}
