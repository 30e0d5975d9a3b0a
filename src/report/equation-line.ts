import { html, math, type Markup } from './markup.ts';
import { fitOnPaper } from './tex-width.ts';

/** Signs that fit into a phone's line at the least. */
const SURELY_FITS = 20;

/** Whether an equation may be too wide for a phone's line, told from its signs: such a line scrolls on its own. */
export function mayBeTooWide(tex: string): boolean {
  return tex.replace(/\\phantom\{.*?\} =/, '').replace(/\\[a-zA-Z]+|[\\{}_^&,\s]/g, '').length > SURELY_FITS;
}

/** A line that may scroll can be reached, and scrolled, with the keyboard. */
export function equationLine(kind: 'symbols' | 'numbers', tex: string, isSlipped = false): Markup {
  return html`<div class="${kind}${isSlipped ? ' slipped' : ''}" style="${fitOnPaper(tex)}" tabindex="${mayBeTooWide(tex) && '0'}">${math(tex)}</div>`;
}
