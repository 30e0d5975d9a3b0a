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

/** At the top of the sheet: what is switched on, each with the press that switches it off. */
export function slipBand(slips: readonly PresentedSlip[], desk: Desk): Part {
  if (slips.length === 0) return nothing;
  const go = (slip: PresentedSlip): void => desk.go(slip.cellId, '');
  return html`<section class="slip-band" aria-labelledby="slip-band-words">
    <h2 id="slip-band-words">${slips.length === 1 ? 'A slip is' : `${slips.length} slips are`} switched on: values marked ${SLIP_MARK} are wrong on purpose, not results</h2>
    <ul>${slips.map((slip) => html`<li><button type="button" class="quiet place" @click=${() => go(slip)}>${slip.where}: ${slip.label}</button>
      ${offButton(slip, desk)}</li>`)}</ul>
    ${slips.length < 2 ? nothing : html`<button type="button" class="plain" @click=${() => allOff(desk)}>Switch all off</button>`}
  </section>`;
}

function find(selector: string): HTMLElement | null {
  return document.querySelector<HTMLElement>(selector);
}

function allOff(desk: Desk): void {
  desk.afterUpdate(() => requestAnimationFrame(() => find('.title-blank')?.focus()));
  if (desk.apply(switchAllSlipsOff())) desk.announce('All slips are switched off.');
  desk.settle();
}

/** The press goes with what it does: the focus stays at the line, or goes to the next press of the band. */
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
