import type { ChoiceCell } from '../../sheet/types.ts';
import { mayBeTooWide } from '../equation-line.ts';
import type { Form } from '../form.ts';
import { html, math, type Hand, type Markup } from '../markup.ts';
import { originNote } from '../origin-parts.ts';
import { cellAnchor, note, notesBeside, type CellTemplate } from '../parts.ts';
import { presentChoice } from '../present/cells.ts';
import type { PresentedChoice, PresentedSetting } from '../present/types.ts';
import { entry, OPEN_CHOICES } from '../report-part.ts';

export const choiceForm: Form<ChoiceCell> = {
  template: (cell, context) => choiceTemplate(cell, presentChoice(cell, context)),
  report: (cell, context) => {
    const choice = presentChoice(cell, context);
    if (cell.chosen === '' && choice.problems.length === 0) return { open: { under: OPEN_CHOICES, name: choice.label } };
    const line = html`<span class="label">${choice.label}:</span> ${choice.chosenLabel ?? cell.chosen}.${choice.missing !== undefined && html` <span class="missing">${choice.missing}</span>`}`;
    return {
      here: entry(cellAnchor(cell.id), 'choice', line, { notes: choice }),
      notes: { name: html`${choice.label}: ${choice.chosenLabel ?? cell.chosen}`, texts: [choice.source, choice.optionNote, choice.note] },
    };
  },
};

/** What only the page has at a choice: the options to choose from, and keeping values as one of them. */
interface ChoiceHands {
  readonly options?: Hand;
  readonly ownOption?: Hand;
  /** Makes an assumed choice the reader's own. */
  readonly confirm?: Hand;
}

/** The option taken, and what it sets. */
export function choiceTemplate(cell: ChoiceCell, choice: PresentedChoice, { options, ownOption, confirm }: ChoiceHands = {}): CellTemplate {
  return {
    notes: choice,
    line: html`${options ?? html`<div class="form-line"><p class="label">${choice.label}</p>
<div class="blanks"><span class="blank">${choice.chosenLabel ?? cell.chosen}</span></div></div>`}
${choice.settings.length > 0 && settingsList(choice.settings, options !== undefined)}
${choice.missing !== undefined && html`<p class="missing">${choice.missing}</p>`}${choice.waits !== undefined && html`<p class="waits">${choice.waits}</p>`}${ownOption}`,
    margin: [originNote(cell.origin, confirm), notesBeside(note(choice.source, 'source'), note(choice.optionNote), note(choice.note))],
  };
}

/** On the page on demand: each step says for itself what it was given. */
function settingsList(settings: readonly PresentedSetting[], isOnDemand: boolean): Markup {
  const list = html`<ul class="settings" aria-label="What this sets">${settings.map(settingLine)}</ul>`;
  return isOnDemand ? html`<details class="sets"><summary>what this sets</summary>${list}</details>` : list;
}

function settingLine({ tex, text }: PresentedSetting): Markup {
  return html`<li tabindex="${tex !== undefined && mayBeTooWide(tex) && '0'}">${tex === undefined ? text : math(tex)}</li>`;
}
