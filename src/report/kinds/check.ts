import type { CheckCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { turnedLine } from '../held-parts.ts';
import { html } from '../markup.ts';
import { cellAnchor, label, note, notesBeside, verdictMark, type CellTemplate } from '../parts.ts';
import { presentCheck } from '../present/cells.ts';
import { awaitsGuess } from '../present/hidden.ts';
import { presentTurned } from '../present/shift.ts';
import type { PresentContext, PresentedCheck } from '../present/types.ts';
import { entry, OPEN_CHECKS } from '../report-part.ts';

export const checkForm: Form<CheckCell> = {
  template: checkTemplate,
  report: (cell, context) => {
    const check = presentCheck(cell, context);
    const notes = { name: check.label, texts: [check.note] };
    if (check.holds === undefined && !check.hidden && check.problems.length === 0) return { open: { under: OPEN_CHECKS, name: check.label } };
    const { state, said } = verdictOf(check, cell, context);
    const turned = turnedLine(presentTurned(cell, context));
    const line = html`<span class="label">${check.label}</span> <span class="verdict">${check.holds !== undefined && verdictMark(check.holds)}<span class="visually-hidden">${SPOKEN[state]}</span>${said}</span>`;
    return { here: entry(cellAnchor(cell.id), `check ${state}`, line, { notes: check, below: turned }), notes, ...(check.holds === undefined ? {} : { holds: check.holds }) };
  },
};

const SPOKEN = { holds: 'Holds: ', fails: 'Does not hold: ', untold: '' } as const;

/** A condition as a sentence that holds or does not, with a drawn tick or flag. */
export function checkTemplate(cell: CheckCell, context: PresentContext): CellTemplate {
  const check = presentCheck(cell, context);
  const { state, said } = verdictOf(check, cell, context);
  return {
    state,
    notes: check,
    line: html`${label(check.label)}
<p class="verdict">${check.holds !== undefined && verdictMark(check.holds)}<span class="visually-hidden">${SPOKEN[state]}</span>${said}</p>`,
    margin: [turnedLine(presentTurned(cell, context)), notesBeside(note(check.note))],
  };
}

function verdictOf(check: PresentedCheck, cell: CheckCell, context: PresentContext): { readonly state: keyof typeof SPOKEN; readonly said: string } {
  const state = check.holds === undefined ? 'untold' : check.holds ? 'holds' : 'fails';
  const hidden = awaitsGuess(cell.id, context) ? 'Held back for a guess.' : 'Shown after your own working.';
  return { state, said: check.hidden ? hidden : check.message === '' ? 'This cannot be told yet, because a value it needs is missing.' : check.message };
}
