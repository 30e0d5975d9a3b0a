import { nothing } from 'lit-html';
import { durationText } from '../../report/index.ts';
import type { RecordCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import type { Part } from '../parts.ts';
import { sayTimeShort } from '../stamps.ts';
import { html } from '../template.ts';
import type { ClockJump, ClockWatch } from './clock-watch.ts';
import { writeNote } from './stamping.ts';

/** That the clock of the device was set while a test runs, to be written down beside its stamps. */
export function clockTold(cell: RecordCell, watch: ClockWatch, desk: Desk, draw: () => void): Part {
  const jump = watch.jump();
  if (jump === undefined) return nothing;
  const now = desk.session.now();
  const words = jumpWords(jump, sayTimeShort(jump.at, now));
  const close = (): void => {
    watch.putAway();
    draw();
  };
  return html`<div class="running-test clock-told" role="alert"><p>${words}</p><p class="presses">
    <button type="button" class="press" @click=${() => {
      writeNote(cell, now, words, desk);
      close();
    }}>Write it down</button>
    <button type="button" class="press" @click=${close}>Put it away</button></p></div>`;
}

/** Nobody corrects a stamp but the reader. */
export function jumpWords({ by }: ClockJump, at: string): string {
  return by < 0
    ? `The clock of this device was set back by ${durationText(-by)}; it now says ${at}. Stamps from before are later than the clock.`
    : `The clock of this device jumped ahead by ${durationText(by)}, to ${at}. If the device slept, all is well; if it was set, correct the times that are wrong.`;
}
