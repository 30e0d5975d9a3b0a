import { html, math, type Hand, type Markup } from './markup.ts';
import { note, verdictMark } from './parts.ts';
import { isTouchedBySlips, SLIP_MARK } from './present/slips.ts';
import type { PresentContext, PresentedGiven, PresentedSlip, PresentedSlipMark } from './present/types.ts';

/* Slips switched on, as report and page mark them. */

/** Behind a number that a slip has moved. */
export function slipSign(mark: PresentedSlipMark | undefined): Markup | undefined {
  return mark === undefined ? undefined : html` <span class="slip-sign">${SLIP_MARK}</span>`;
}

/** Where a slip acts: its name, and what is right. @param off the press that switches it off */
export function slipHere(mark: PresentedSlipMark | undefined, off?: (slip: PresentedSlip) => Hand): Markup | undefined {
  const slip = mark?.slip;
  if (mark === undefined || slip === undefined) return undefined;
  return html`<div class="slip-here"><p class="slip-word">${verdictMark(false)}Slip: ${slip.label}. ${off?.(slip)}</p>
${mark.slippedTex !== undefined && html`<div class="right-formula">In its place stands ${math(mark.slippedTex)}</div>`}
${mark.rightTex !== undefined && html`<div class="right-formula">Right is ${math(mark.rightTex)}</div>`}${note(slip.note, 'help')}</div>`;
}

/** In the margin of what a slip has moved: the right result, and how far it is away. */
export function slipMargin(mark: PresentedSlipMark | undefined): Markup | undefined {
  if (mark === undefined) return undefined;
  const right = mark.right === undefined ? '.' : `; right: ${mark.right}.`;
  return html`<p class="slip-mark">${mark.slip === undefined ? 'Moved by a slip' : 'Wrong by a slip'}${right}${mark.effect !== undefined && ` Here it is ${mark.effect}.`}</p>`;
}

/** The value that goes on from a given in place of the one that was read. */
export function slipUsed(mark: PresentedGiven['slipMark']): Markup | undefined {
  if (mark === undefined) return undefined;
  const { used } = mark;
  return html`<p class="slip-mark">${SLIP_MARK} Goes on as ${used.kind === 'problem' ? 'no value' : used.text}, ${mark.effect ?? 'by a slip'}.</p>`;
}

/** Before what has no number of its own: a drawing, a verdict, a line, a table. */
export function touchedLine(id: string, context: PresentContext): Markup | false {
  return isTouchedBySlips(id, context) && html`<p class="slip-mark">${SLIP_MARK} What follows rests on a slip that is switched on.</p>
`;
}
