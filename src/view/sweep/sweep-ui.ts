import type { SheetStates } from '../../graph/index.ts';
import type { PresentedWorkBack } from '../../report/index.ts';
import type { Problem } from '../../core/problem/index.ts';

/** What is being looked at of a result against an input. Empty texts stand for what is proposed. */
export interface SweepUi {
  /** Symbol of the given; '' for the proposed one. */
  against: string;
  from: string;
  to: string;
  /** A second given, across which lines of equal value are drawn; '' for none. */
  second: string;
  secondFrom: string;
  secondTo: string;
  /** Another result, drawn below over the same axis; '' for none. */
  also: string;
}

/** What is asked of a result worked back, and what was found. */
export interface WorkBackUi {
  wanted: string;
  input: string;
  from: string;
  to: string;
  found: { readonly states: SheetStates; readonly told: PresentedWorkBack } | undefined;
  refused: Problem | undefined;
}

export function createSweepUi(): SweepUi {
  return { against: '', from: '', to: '', second: '', secondFrom: '', secondTo: '', also: '' };
}

export function createWorkBackUi(): WorkBackUi {
  return { wanted: '', input: '', from: '', to: '', found: undefined, refused: undefined };
}
