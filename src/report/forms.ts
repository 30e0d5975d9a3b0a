import type { CellBlock, CheckCell, ChecklistCell, ChoiceCell, RemarkCell } from '../sheet/types.ts';
import { turnedLine } from './held-parts.ts';
import { html, math, trusted, type Markup } from './markup.ts';
import { mayBeTooWide } from './lines.ts';
import { box, cellLine, label, note, problemList, templateLine, verdictMark, type CellTemplate } from './parts.ts';
import { isHeldBack } from './present/hidden.ts';
import { presentCheck, presentChecklist, presentChoice, presentRemark } from './present/cells.ts';
import { notesOf } from './present/notes.ts';
import { numberSheet } from './present/numbering.ts';
import { presentTurned } from './present/shift.ts';
import type { PresentContext, PresentedSetting } from './present/types.ts';
import { renderProse } from './prose.ts';

const SPOKEN = { holds: 'Holds: ', fails: 'Does not hold: ', untold: '' } as const;

/** A condition as a sentence that holds or does not, with a drawn tick or flag. */
export function checkParts(cell: CheckCell, context: PresentContext): CellTemplate {
  const check = presentCheck(cell, context);
  const state = check.holds === undefined ? 'untold' : check.holds ? 'holds' : 'fails';
  const hidden = isHeldBack(cell.id, context) ? 'Held back for a guess.' : 'Shown after your own working.';
  const message = check.hidden ? hidden : check.message === '' ? 'This cannot be told yet, because a value it needs is missing.' : check.message;
  return {
    state,
    notes: check,
    line: html`${label(check.label)}
<p class="verdict">${check.holds !== undefined && verdictMark(check.holds)}<span class="visually-hidden">${SPOKEN[state]}</span>${message}</p>`,
    margin: [turnedLine(presentTurned(cell, context)), note(check.note)],
  };
}

export function checkLine(cell: CheckCell, context: PresentContext): Markup {
  return templateLine(cell.id, 'check', checkParts(cell, context));
}

/** The option taken, and what it sets. */
export function choiceLine(cell: ChoiceCell, context: PresentContext): Markup {
  const choice = presentChoice(cell, context);
  return cellLine({
    id: cell.id,
    kind: 'choice',
    line: html`<div class="form-line"><p class="label">${choice.label}</p>
<p class="blanks"><span class="blank">${choice.chosenLabel ?? cell.chosen}</span></p></div>
${choice.settings.length > 0 && html`<ul class="settings">${choice.settings.map(settingLine)}</ul>`}
${choice.missing !== undefined && html`<p class="missing">${choice.missing}</p>`}
${problemList(choice)}`,
    margin: [
      choice.source === undefined ? html`` : html`<p class="source">${choice.source}</p>`,
      note(choice.optionNote),
      note(choice.note),
    ],
  });
}

function settingLine({ tex, text }: PresentedSetting): Markup {
  return html`<li${tex !== undefined && mayBeTooWide(tex) && html` tabindex="0"`}>${tex === undefined ? text : math(tex)}</li>`;
}

/** Boxes to tick, with the times they were ticked at. */
export function checklistLine(cell: ChecklistCell, context: PresentContext): Markup {
  const { label: words, items, openCount, ...rest } = presentChecklist(cell, context);
  return cellLine({
    id: cell.id,
    kind: 'checklist',
    state: openCount === 0 ? 'done' : 'open',
    line: html`${label(words)}
<ul class="items">${items.map((item) => html`<li class="${item.done ? 'done' : 'open'}">${box(item.done)}<span class="visually-hidden">${item.done ? 'done: ' : 'open: '}</span><span class="text">${item.text}</span>${item.time !== undefined && html` <span class="time">${item.time}</span>`}</li>`)}</ul>
${problemList(rest)}`,
    margin: [
      html`<p class="count">${openCount === 0 ? 'all done' : `${openCount} of ${items.length} open`}</p>`,
      note(rest.note),
    ],
  });
}

/** The writer's own words under their heading. */
export function remarkLine(cell: RemarkCell, context: PresentContext): Markup {
  const remark = presentRemark(cell, context);
  const tag = trusted(numberSheet(context.document).insideSection.has(cell.id) ? 'h3' : 'h2');
  return cellLine({
    id: cell.id,
    kind: 'remark',
    line: html`${remark.heading !== '' && html`<${tag}>${remark.heading}</${tag}>`}
<div class="text">${trusted(renderProse(remark.text, context))}</div>${problemList(remark)}`,
    margin: [note(remark.note)],
  });
}

/** What this version does not understand: kept, and shown as it is written. */
export function unknownLine(block: CellBlock, context: PresentContext): Markup {
  const notes = notesOf(block.cell, context);
  return cellLine({
    id: block.id,
    kind: 'unknown',
    line: html`<pre>${block.source}</pre>${problemList(notes)}`,
  });
}
