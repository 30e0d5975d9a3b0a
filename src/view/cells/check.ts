import { nothing } from 'lit-html';
import { isHeldBack, presentCheck, presentTurned } from '../../report/index.ts';
import type { CheckCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { note, partId, problemList, verdictMark, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { turnedMark } from './shift.ts';

const SPOKEN = { holds: 'Holds: ', fails: 'Does not hold: ', untold: '' } as const;

/** A sentence that holds or does not, with a drawn tick or flag. */
export function checkParts(cell: CheckCell, desk: Desk): { line: Part; margin: Part; state: string } {
  const check = presentCheck(cell, desk.context());
  const state = check.holds === undefined ? 'untold' : check.holds ? 'holds' : 'fails';
  const message = check.hidden
    ? isHeldBack(cell.id, desk.context()) ? 'Held back for a guess.' : 'Shown after your own working.'
    : check.message === '' ? 'This cannot be told yet, because a value it needs is missing.' : check.message;
  return {
    state,
    line: html`${check.label === '' ? nothing : html`<p class="label">${check.label}</p>`}
      <p class="verdict">${check.holds === undefined ? nothing : verdictMark(check.holds)}<span class="visually-hidden">${SPOKEN[state]}</span>${message}</p>
      ${problemList(check, partId(cell.id, 'problem'), desk.ui(cell.id).refused)}`,
    margin: html`${turnedMark(presentTurned(cell, desk.context()))}${note(check.note)}`,
  };
}
