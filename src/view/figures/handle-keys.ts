import type { Handle } from '../../figures/drawings/index.ts';
import type { Desk } from '../desk.ts';
import { putBackTrials } from '../put-back.ts';
import { givensOf, shiftCommand, stepOfPlace, trialsOf } from './move.ts';
import { reachOf, within } from './reach.ts';

/** Arrow keys: one step, with Shift ten, as far as it goes. Escape puts back what was measured. */
export function pressAtHandle(event: KeyboardEvent, handle: Handle, desk: Desk, blockId: string): void {
  if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey) return;
  const trials = trialsOf(handle, desk);
  if (event.key === 'Escape' && trials.length > 0) {
    event.preventDefault();
    putBackTrials(trials, desk);
    return;
  }
  const direction = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
  if (direction === undefined) return;
  event.preventDefault();
  const steps = within(reachOf(handle, desk), direction * (event.shiftKey ? 10 : 1));
  const command = steps === 0 ? undefined : shiftCommand(givensOf(handle, desk), steps * stepOfPlace(handle, desk).size);
  if (command === undefined) desk.announce('It goes no further this way.');
  else desk.apply(command, blockId);
}
