import { atHand } from '../core/remembered/index.ts';
import { heldPresses } from './held-presses.ts';
import type * as Panels from './panels.ts';

/** What opens at a line; whoever opens something waits for it (`withPanels`), so that what stands open can use it. */
export const panels = atHand<typeof Panels>('panels', () => import('./panels.ts'));

/**
 * Opens something at a line once what it takes is there; what is typed meanwhile goes to what was opened.
 * @param failed told where it does not come, with the way to try again
 */
export async function withPanels(open: () => void, failed: (error: unknown, again: () => void) => void): Promise<void> {
  const release = heldPresses(({ key }) => key.length === 1 || /^(?:Enter|Arrow|Home|End)/.test(key));
  try {
    await panels.bring();
    open();
  } catch (error) {
    failed(error, () => void withPanels(open, failed));
  } finally {
    release();
  }
}
