import type { DrawnResult, DrawProgress, SymbolState } from '../../graph/index.ts';
import type { DrawingInHand } from './drawer.ts';

/** Draws of one result: what is asked for, what is being made and what there is. */
export interface DrawsUi {
  seed: number;
  digits: 1 | 2;
  /** A seed as it was typed that is none, until another is typed. */
  refusedSeed: string | undefined;
  /** What the drawing in hand, or the last one begun, is of. */
  begun: { readonly state: SymbolState; readonly seed: number; readonly digits: 1 | 2 } | undefined;
  inHand: DrawingInHand | undefined;
  progress: DrawProgress | undefined;
  /** The last draws that came to an end, with the result as it was when they were begun. */
  drawn: { readonly result: DrawnResult; readonly state: SymbolState } | undefined;
  hasFailed: boolean;
  waiting: ReturnType<typeof setTimeout> | undefined;
}

export function createDrawsUi(): DrawsUi {
  return {
    seed: 1,
    digits: 2,
    refusedSeed: undefined,
    begun: undefined,
    inHand: undefined,
    progress: undefined,
    drawn: undefined,
    hasFailed: false,
    waiting: undefined,
  };
}

/** Ends what is in hand without a result. */
export function cancelDrawing(ui: DrawsUi): void {
  clearTimeout(ui.waiting);
  ui.inHand?.cancel();
  ui.inHand = undefined;
  ui.progress = undefined;
}
