import type { ChoiceCell } from '../../sheet/types.ts';
import { mayBeTooWide } from '../equation-line.ts';
import type { Form } from '../form.ts';
import { html, math, type Markup } from '../markup.ts';
import { note, type CellTemplate } from '../parts.ts';
import { presentChoice } from '../present/cells.ts';
import type { PresentContext, PresentedSetting } from '../present/types.ts';

export const choiceForm: Form<ChoiceCell> = { template: choiceTemplate };

/** The option taken, and what it sets. */
export function choiceTemplate(cell: ChoiceCell, context: PresentContext): CellTemplate {
  const choice = presentChoice(cell, context);
  return {
    notes: choice,
    line: html`<div class="form-line"><p class="label">${choice.label}</p>
<p class="blanks"><span class="blank">${choice.chosenLabel ?? cell.chosen}</span></p></div>
${choice.settings.length > 0 && html`<ul class="settings">${choice.settings.map(settingLine)}</ul>`}
${choice.missing !== undefined && html`<p class="missing">${choice.missing}</p>`}`,
    margin: [
      choice.source === undefined ? html`` : html`<p class="source">${choice.source}</p>`,
      note(choice.optionNote),
      note(choice.note),
    ],
  };
}

function settingLine({ tex, text }: PresentedSetting): Markup {
  return html`<li${tex !== undefined && mayBeTooWide(tex) && html` tabindex="0"`}>${tex === undefined ? text : math(tex)}</li>`;
}
