import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { RECORD_LABELS } from '../../report/index.ts';
import type { RecordCell } from '../../sheet/index.ts';
import { setKey } from '../commands.ts';
import type { Desk } from '../desk.ts';
import { entered } from '../entered.ts';
import { focusNextBlank } from '../focus.ts';
import { actionOf } from '../keys.ts';
import { stampOf } from '../stamps.ts';
import { html } from '../template.ts';

const IN_BLANK = new Set(['blank'] as const);

/** A blank of the form that is filled with text. */
export interface BlankForm {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly type?: 'text' | 'date';
  readonly isNumber?: boolean;
  /** Holds words and no quantity: Enter in another blank does not lead here. */
  readonly isWords?: boolean;
  /** Class that the page finds it by, to put the cursor there. */
  readonly mark?: string;
  readonly set: (text: string) => void;
}

export function blank({ label, value, placeholder, type = 'text', isNumber = false, isWords = false, mark = '', set }: BlankForm): TemplateResult {
  return html`<label class="form-line"><span class="label">${label}</span><span class="blanks">
    <input class="blank ${mark}" type=${type} ?data-empty=${type === 'date' && value === ''} ?data-measured=${type === 'text' && !isWords} enterkeyhint="next" autocomplete="off" inputmode=${isNumber ? 'decimal' : nothing} placeholder=${placeholder ?? nothing}
      .value=${entered(value)} @change=${(event: Event) => set(valueOf(event))} @keydown=${goOnWithEnter}></span></label>`;
}

function goOnWithEnter(event: KeyboardEvent): void {
  if (event.isComposing || actionOf(event, IN_BLANK) !== 'next blank' || !(event.target instanceof HTMLElement)) return;
  event.preventDefault();
  focusNextBlank(event.target);
}

/** A stamp, which can be corrected; an empty field takes it out. */
export function timeBlank(label: string, stamp: string, set: (stamp: string | undefined) => void): TemplateResult {
  const change = (event: Event): void => {
    const wall = valueOf(event);
    const chosen = wall === '' ? undefined : stampOf(wall, stamp);
    if (wall === '' || chosen !== undefined) set(chosen);
  };
  return html`<label class="form-line"><span class="label">${label}</span><span class="blanks">
    <input class="blank time" type="datetime-local" step="1" ?data-empty=${stamp === ''} .value=${entered(stamp.slice(0, 19))} @change=${change}></span></label>`;
}

function choiceBlank(label: string, value: string, options: readonly string[], set: (word: string) => void): TemplateResult {
  return html`<label class="form-line"><span class="label">${label}</span><span class="blanks">
    <select class="blank" .value=${live(value)} @change=${(event: Event) => set(valueOf(event))}>
      <option value="" ?selected=${value === ''}>not said yet</option>
      ${[...new Set([...options, ...(value === '' ? [] : [value])])].map((word) => html`<option value=${word} ?selected=${word === value}>${word}</option>`)}
    </select></span></label>`;
}

/** A text of the record under its own key. */
export function textField(cell: RecordCell, key: string, desk: Desk, more: Partial<BlankForm> = {}): TemplateResult {
  return blank({ label: RECORD_LABELS[key] ?? key, value: cell.texts.get(key) ?? '', mark: `field-${key}`, set: (text) => setText(cell, key, text, desk), ...more });
}

export function choiceField(cell: RecordCell, key: string, options: readonly string[], desk: Desk): TemplateResult {
  return choiceBlank(RECORD_LABELS[key] ?? key, cell.texts.get(key) ?? '', options, (word) => setText(cell, key, word, desk));
}

export function setText(cell: RecordCell, key: string, text: string, desk: Desk): void {
  desk.settle();
  if (key === 'counter_end') sayQuestion(cell, desk);
  desk.apply(setKey(cell.id, key, text.trim() === '' ? undefined : text.trim()), cell.id);
  desk.settle();
}

/** What is asked about a counter reading that was just typed, for those who do not see it come up below. */
export function sayQuestion(cell: RecordCell, desk: Desk): void {
  desk.afterUpdate(() => {
    const asked = desk.element(cell.id)?.querySelector('.asked p');
    if (asked) desk.announce(asked.textContent.trim());
  });
}

export function valueOf(event: Event): string {
  return event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement ? event.target.value : '';
}
