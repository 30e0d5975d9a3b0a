import { html, type Hand, type Markup } from './markup.ts';
import type { PresentedTrial } from './present/types.ts';

/* Trial values, as the report marks them. */

/** Below the blanks of a given: what the sheet goes on with, and what stays. @param back the press that puts back what was measured */
export function trialHere(trial: PresentedTrial | undefined, back?: (trial: PresentedTrial) => Hand): Markup | undefined {
  return trial && html`<p class="trial-here">${trialWords(trial)} ${back?.(trial)}</p>`;
}

/** `Trial value 105.0 mm (u = 0.3 mm); your readings stay.` */
function trialWords({ typed, uncertainty, stays }: PresentedTrial): string {
  return `Trial value ${typed}${uncertainty === undefined ? '' : ` (u = ${uncertainty})`}${stays === 'nothing' ? '' : `; ${stays} ${stays === 'your readings' ? 'stay' : 'stays'}`}.`;
}
