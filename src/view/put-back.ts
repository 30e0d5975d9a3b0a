import { isolated } from '../core/problem/index.ts';
import { putBack, type GivenCell } from '../sheet/index.ts';
import type { Desk } from './desk.ts';

/** Takes trial values away, so that what was measured counts again; one step to undo. */
export function putBackTrials(cells: readonly GivenCell[], desk: Desk): void {
  desk.settle();
  if (desk.apply(putBack(cells))) desk.announce(`Put back what was measured: ${cells.map(({ label, symbol }) => isolated(label ?? symbol)).join('; ')}.`);
  desk.settle();
}
