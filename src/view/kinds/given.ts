import { nothing } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { composed } from '../../core/problem/index.ts';
import { givenTemplate, presentGiven, unitWords, type PresentedGiven } from '../../report/index.ts';
import type { GivenCell } from '../../sheet/index.ts';
import { actionOf } from '../keys.ts';
import { setGiven } from '../commands.ts';
import type { CellUi, Desk } from '../desk.ts';
import { focusNextBlank } from '../focus.ts';
import { hand, movedMark, partId, templateParts, type LineParts, type Part } from '../parts.ts';
import { blanksOf, givenText, textOfBlanks } from '../readings.ts';
import { html } from '../template.ts';
import { measuredButton, measuredForm } from '../cells/measured.ts';
import { confirmButton } from '../cells/origin.ts';
import { offButton } from '../cells/slip.ts';
import { opensBeside, takeOpener, takeValue } from '../cells/take-value.ts';
import { backButton } from '../cells/trial.ts';

const IN_BLANK = new Set(['blank'] as const);

export function givenParts(cell: GivenCell, desk: Desk): LineParts {
  const context = desk.context();
  const given = presentGiven(cell, context);
  const ui = desk.ui(cell.id);
  const blanks = shownBlanks(cell, given, ui);
  const isBeside = opensBeside(cell, desk);
  const template = givenTemplate(cell, given, context, {
    label: hand(html`<label class="label" for=${partId(cell.id, 'blank')}>${given.label}</label>`),
    blanks: hand(blanksAndActions(cell, given, blanks, desk)),
    confirm: hand(confirmButton(cell, given.label === '' ? given.symbol : given.label, desk)),
    count: blanks.length,
    putBack: (trial) => hand(backButton(trial, desk)),
    slipOff: (slip) => hand(offButton(slip, desk)),
    moved: hand(movedMark(desk.moved(cell.symbol))),
    measured: hand(measuredButton(cell, desk, isBeside ? takeOpener(cell, desk) : nothing, isBeside)),
    measuredForm: hand(measuredForm(cell, desk, isBeside ? nothing : takeOpener(cell, desk))),
    taking: hand(takeValue(cell, desk)),
  });
  return templateParts(cell.id, template, ui.refused);
}

/** What stands in the blanks: what is being typed, else what the cell says, else what a choice filled in. */
function shownBlanks(cell: GivenCell, given: PresentedGiven, ui: CellUi): readonly string[] {
  if (ui.drafts !== undefined) return ui.drafts;
  const typed = blanksOf(givenText(cell));
  if (typed.length > 0) return typed;
  return given.filledBy !== undefined && given.blanks.length > 0 ? given.blanks : [''];
}

function blanksAndActions(cell: GivenCell, given: PresentedGiven, blanks: readonly string[], desk: Desk): Part {
  const ui = desk.ui(cell.id);
  const first = partId(cell.id, 'blank');
  const troubled = given.problems.length > 0 || ui.refused !== undefined;
  const told = given.problems.length + given.warnings.length > 0 || ui.refused !== undefined;
  const described = [told ? partId(cell.id, 'problem') : '', given.echoes.length > 0 ? partId(cell.id, 'echo') : ''].join(' ').trim();
  const name = given.label === '' ? given.symbol : given.label;
  const blank = (text: string, i: number) => html`<input class="blank" type="text" data-measured autocomplete="off" autocapitalize="off" spellcheck="false"
    id=${i === 0 ? first : nothing} enterkeyhint="next" inputmode=${inputMode(cell, ui)} data-reading=${i}
    aria-label=${blanks.length > 1 ? composed`${name}, reading ${i + 1} of ${blanks.length}` : given.label === '' ? name : nothing}
    aria-invalid=${troubled ? 'true' : nothing} aria-describedby=${described === '' ? nothing : described}
    placeholder=${ui.drafts === undefined && text === '' ? placeholder(cell) : nothing}
    style=${`--characters: ${Math.max(7, text.length + 1)}`}
    .value=${live(text)}
    @focus=${() => enter(cell, blanks, desk)} @input=${(event: InputEvent) => type(cell, i, event, desk)}
    @keydown=${(event: KeyboardEvent) => press(cell, event, desk)} @blur=${(event: FocusEvent) => leave(cell, event, desk)}>`;
  return html`${blanks.map(blank)}<span class="blank-actions"><button type="button" class="quiet letters" aria-pressed=${String(ui.letters)} aria-label="keyboard with letters"
      @click=${() => askLetters(cell, desk)}>abc</button><button type="button" class="quiet add-reading" aria-label=${composed`add a reading of ${name}`}
      title="Add a reading (Ctrl or ⌘ and Enter)" @click=${() => addReading(cell, desk)}>+</button>${blanks.length < 2 ? nothing
        : html`<button type="button" class="quiet remove-reading" aria-label=${composed`take out the last reading of ${name}`}
          title="Take out the last reading" @click=${() => removeReading(cell, desk)}>−</button>`}</span>`;
}

/**
 * A phone's number pad has no letters. A bare number is read in the unit of the cell, so the pad does as long as no sign
 * is needed; `letters` brings the whole keyboard for another unit, `±` or a fraction.
 */
function inputMode(cell: GivenCell, ui: CellUi): 'decimal' | 'text' {
  const mayBeNegative = /any|^\s*<|-/.test(cell.possible ?? '');
  return ui.letters || cell.unit === '' || mayBeNegative ? 'text' : 'decimal';
}

function placeholder(cell: GivenCell): string {
  return cell.unit === '' || cell.unit === '1' ? 'number' : unitWords(cell.unit);
}

function enter(cell: GivenCell, blanks: readonly string[], desk: Desk): void {
  const ui = desk.ui(cell.id);
  if (ui.drafts !== undefined) return;
  // No redraw: what is shown stays, and the caret with it.
  ui.before = givenText(cell);
  ui.originBefore = cell.origin;
  ui.drafts = blanks;
}

function type(cell: GivenCell, reading: number, event: InputEvent, desk: Desk): void {
  if (!(event.target instanceof HTMLInputElement)) return;
  const text = event.target.value;
  const ui = desk.ui(cell.id);
  const drafts = [...(ui.drafts ?? blanksOf(givenText(cell)))];
  drafts[reading] = text;
  ui.drafts = drafts;
  desk.apply(setGiven(cell, textOfBlanks(drafts)), cell.id);
}

function press(cell: GivenCell, event: KeyboardEvent, desk: Desk): void {
  if (event.isComposing) return;
  const action = actionOf(event, IN_BLANK);
  if (action === undefined || !(event.target instanceof HTMLInputElement)) return;
  event.preventDefault();
  if (action === 'next blank') focusNextBlank(event.target);
  if (action === 'add reading') addReading(cell, desk);
  if (action === 'give back') giveBack(cell, event.target, desk);
}

/** Escape: what stood there before this blank was entered. */
function giveBack(cell: GivenCell, input: HTMLInputElement, desk: Desk): void {
  const ui = desk.ui(cell.id);
  const { before } = ui;
  if (before === undefined) return;
  // Nothing was typed: then it is the light that Escape ends.
  if (desk.isLit() && (ui.drafts ?? []).join('\n') === blanksOf(before).join('\n')) desk.light(undefined);
  desk.changeUi(cell.id, (one) => {
    const blanks = blanksOf(before);
    one.drafts = blanks.length === 0 ? [''] : blanks;
    one.refused = undefined;
  });
  desk.apply(setGiven(cell, before, desk.ui(cell.id).originBefore), cell.id);
  input.select();
}

function addReading(cell: GivenCell, desk: Desk): void {
  const before = givenText(cell);
  const blanks = desk.ui(cell.id).drafts ?? blanksOf(before);
  desk.changeUi(cell.id, (ui) => {
    ui.before ??= before;
    ui.drafts = [...blanks.filter((blank) => blank.trim() !== ''), ''];
  });
  const inputs = desk.element(cell.id)?.querySelectorAll<HTMLInputElement>('input.blank');
  inputs?.[inputs.length - 1]?.focus();
}

function removeReading(cell: GivenCell, desk: Desk): void {
  const before = givenText(cell);
  const blanks = (desk.ui(cell.id).drafts ?? blanksOf(before)).slice(0, -1);
  desk.settle();
  desk.changeUi(cell.id, (ui) => {
    ui.before ??= before;
    ui.drafts = blanks;
  });
  if (desk.apply(setGiven(cell, textOfBlanks(blanks)), cell.id)) desk.offerUndo(cell.id, 'The last reading is taken out.');
  const inputs = desk.element(cell.id)?.querySelectorAll<HTMLInputElement>('input.blank');
  inputs?.[inputs.length - 1]?.focus();
}

function askLetters(cell: GivenCell, desk: Desk): void {
  const input = desk.element(cell.id)?.querySelector<HTMLInputElement>('input.blank');
  desk.changeUi(cell.id, (ui) => void (ui.letters = !ui.letters));
  input?.focus();
}

/** The blanks are put in order when the reader goes on to another line. */
function leave(cell: GivenCell, event: FocusEvent, desk: Desk): void {
  const to = event.relatedTarget;
  if (to instanceof Node && desk.element(cell.id)?.contains(to) === true) return;
  desk.settle();
  desk.changeUi(cell.id, (ui) => {
    ui.letters = false;
    // What the sheet could not take stands in no cell: it stays in the blank, beside what is said about it.
    if (ui.refused !== undefined) return;
    ui.drafts = undefined;
    ui.before = undefined;
  });
}
