import type { CheckCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { turnedLine } from '../held-parts.ts';
import { html } from '../markup.ts';
import { label, note, notesBeside, verdictMark, type CellTemplate } from '../parts.ts';
import { presentCheck } from '../present/cells.ts';
import { isHeldBack } from '../present/hidden.ts';
import { presentTurned } from '../present/shift.ts';
import type { PresentContext } from '../present/types.ts';

export const checkForm: Form<CheckCell> = { template: checkTemplate };

const SPOKEN = { holds: 'Holds: ', fails: 'Does not hold: ', untold: '' } as const;

/** A condition as a sentence that holds or does not, with a drawn tick or flag. */
export function checkTemplate(cell: CheckCell, context: PresentContext): CellTemplate {
  const check = presentCheck(cell, context);
  const state = check.holds === undefined ? 'untold' : check.holds ? 'holds' : 'fails';
  const hidden = isHeldBack(cell.id, context) ? 'Held back for a guess.' : 'Shown after your own working.';
  const message = check.hidden ? hidden : check.message === '' ? 'This cannot be told yet, because a value it needs is missing.' : check.message;
  return {
    state,
    notes: check,
    line: html`${label(check.label)}
<p class="verdict">${check.holds !== undefined && verdictMark(check.holds)}<span class="visually-hidden">${SPOKEN[state]}</span>${message}</p>`,
    margin: [turnedLine(presentTurned(cell, context)), notesBeside(note(check.note))],
  };
}
