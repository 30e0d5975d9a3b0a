import { nothing } from 'lit-html';
import { composed } from '../../core/problem/index.ts';
import { SLIP_MARK, type PresentedSlip } from '../../report/index.ts';
import { switchAllSlipsOff, switchSlip } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';

/** For what has no number of its own: a drawing, a verdict, a line, a table. */
export function touchedMargin(isTouched: boolean): Part {
  return isTouched ? html`<p class="slip-mark">${SLIP_MARK} This rests on a slip that is switched on.</p>` : nothing;
}

function find(selector: string): HTMLElement | null {
  return document.querySelector<HTMLElement>(selector);
}

/** Switches all of them off. */
export function allOff(desk: Desk): void {
  desk.afterUpdate(() => requestAnimationFrame(() => find('.title-blank')?.focus()));
  if (desk.apply(switchAllSlipsOff())) desk.announce('All slips are switched off.');
  desk.settle();
}

/** Switches a slip off. The press goes with what it does: the focus stays at the line, or goes to the next press of the band. */
export function offButton(slip: PresentedSlip, desk: Desk): Part {
  const off = (event: Event): void => {
    const pressed = event.currentTarget;
    const line = pressed instanceof Element ? pressed.closest<HTMLElement>('.cell') : null;
    desk.afterUpdate(() => requestAnimationFrame(() => (line ?? find('.slip-band .slip-off') ?? find('.title-blank'))?.focus()));
    if (desk.apply(switchSlip(desk.context().document, slip.id, false))) desk.announce(composed`Slip switched off: ${slip.label}.`);
    desk.settle();
  };
  return html`<button type="button" class="quiet slip-off" aria-label=${composed`switch it off: ${slip.where}, ${slip.label}`} @click=${off}>switch it off</button>`;
}
