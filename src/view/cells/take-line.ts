import { nothing } from 'lit-html';
import { composed, problemSentence } from '../../core/problem/index.ts';
import { awaitsLine, readSnapshot, unfitFor, type LineToTake } from '../../graph/index.ts';
import { presentLineToTake, type PresentedFit, type PresentedOffer } from '../../report/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import type { SheetWithLines } from '../line-shelf.ts';
import { partId, type Part } from '../parts.ts';
import { html } from '../template.ts';

const REFUSED = 'The browser did not give access to the sheets kept in it. A line can still be taken from a file.';

/** What can be done with a line from another sheet: take one, use it, take it again after a change, drop it. */
export function takeLine(cell: FitCell, { offer }: PresentedFit, desk: Desk): Part {
  const isAwaited = awaitsLine(cell);
  if (!isAwaited && cell.snapshot === undefined) return nothing;
  const { taking } = desk.ui(cell.id);
  const panelId = partId(cell.id, 'lines');
  const open = taking.isOpen;
  return html`<div class="take-line">
    ${offer === undefined ? nothing : offerPart(cell, offer, desk)}
    ${changedPart(cell, desk)}
    ${desk.lines === undefined ? nothing : html`<div class="take-actions">
      <button type="button" class="plain unfold-lines" aria-expanded=${String(open)} aria-controls=${open ? panelId : nothing}
        @click=${() => (open ? close(cell, desk) : void unfold(cell, desk))}>${isAwaited ? 'Take a line from another sheet' : 'Take another line'}</button>
      ${isAwaited ? nothing : html`<button type="button" class="plain" @click=${() => drop(cell, desk)}>Drop this line</button>`}
    </div>
    ${open ? panel(cell, panelId, desk) : nothing}`}
    </div>`;
}

function offerPart(cell: FitCell, offer: PresentedOffer, desk: Desk): Part {
  const use = (): void => {
    if (!desk.apply({ do: 'choose', cellId: offer.choiceId, option: offer.optionKey }, cell.id)) return;
    desk.settle();
    desk.afterUpdate(() => focusIn(cell, desk));
    desk.announce(composed`Chosen: ${offer.optionLabel}.`);
  };
  return html`<p class="offered">The line is here now. The sheet still uses the one ${offer.chosenLabel}.
    <button type="button" class="plain" @click=${use}>Use the line ${offer.optionLabel}</button></p>`;
}

function changedPart(cell: FitCell, desk: Desk): Part {
  const { source } = desk.ui(cell.id).taking;
  if (source === undefined || cell.snapshot === undefined || source.of !== cell.snapshot || source.now.state !== 'changed') return nothing;
  const { tests, snapshot } = source.now;
  return html`<p class="changed">${tests ? 'The tests in the sheet it came from have changed since.' : 'In the sheet it came from the line is found in another way since.'}
    <button type="button" class="plain" @click=${() => take(cell, snapshot, desk)}>Take it again</button></p>`;
}

function panel(cell: FitCell, id: string, desk: Desk): Part {
  const { sheets, told } = desk.ui(cell.id).taking;
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    close(cell, desk);
  };
  const bring = ({ target }: Event): void => {
    const [file] = target instanceof HTMLInputElement ? (target.files ?? []) : [];
    if (file !== undefined) void look(cell, file, desk);
    if (target instanceof HTMLInputElement) target.value = '';
  };
  return html`<section class="lines-to-take" id=${id} aria-label="Lines of other sheets" @keydown=${press}>
    ${sheets === undefined ? html`<p class="help">Looking through the sheets kept in this browser…</p>`
      : sheets.length === 0 ? html`<p class="help">No other sheet kept in this browser has a fitted line. Fit one in a sheet for the S-N line, or take one from a file.</p>`
        : sheets.map((sheet, i) => sheetPart(cell, sheet, `${id}-${i}`, desk))}
    ${told === '' ? nothing : html`<p class="problem" role="alert">${told}</p>`}
    <p class="take-actions"><label class="file"><input type="file" class="visually-hidden" accept=".md,.html,.htm,.txt,text/markdown,text/html" @change=${bring}>
      <span>From a file: a document, report or working file</span></label>
      <button type="button" class="plain" @click=${() => close(cell, desk)}>Close the list</button></p>
  </section>`;
}

function sheetPart(cell: FitCell, { title, detail, lines }: SheetWithLines, id: string, desk: Desk): Part {
  return html`<p class="from" id=${id}>${title}${detail === '' ? nothing : html` <span class="help">${detail}</span>`}</p>
    <ul aria-labelledby=${id}>${lines.map((line) => html`<li>${linePart(cell, line, desk)}</li>`)}</ul>`;
}

function linePart(cell: FitCell, { label, snapshot, trouble }: LineToTake, desk: Desk): Part {
  const read = snapshot === undefined ? undefined : readSnapshot(snapshot);
  if (snapshot === undefined || read?.ok !== true) {
    return html`<span class="entry">${label}</span> <span class="help">${read?.ok === false ? problemSentence(read.problem) : trouble}</span>`;
  }
  const unfit = unfitFor(cell, read.value);
  if (unfit !== undefined) return html`<span class="entry">${label}</span> <span class="help">${problemSentence(unfit)}</span>`;
  return html`<button type="button" class="plain entry" @click=${() => take(cell, snapshot, desk)}>${label}</button>
    <span class="help">${presentLineToTake(read.value, desk.context())}</span>`;
}

async function unfold(cell: FitCell, desk: Desk): Promise<void> {
  const show = (sheets: readonly SheetWithLines[] | undefined, told: string): void =>
    desk.changeUi(cell.id, ({ taking }) => void Object.assign(taking, { isOpen: true, sheets, told }));
  show(undefined, '');
  try {
    const sheets = (await desk.lines?.kept()) ?? [];
    if (!desk.ui(cell.id).taking.isOpen) return;
    show(sheets, '');
    const count = sheets.reduce((sum, { lines }) => sum + lines.length, 0);
    desk.announce(count === 0 ? 'No other sheet kept in this browser has a fitted line.' : `${count} ${count === 1 ? 'line' : 'lines'} in other sheets, listed below.`);
  } catch {
    show([], REFUSED);
  }
}

async function look(cell: FitCell, file: File, desk: Desk): Promise<void> {
  const found = await desk.lines?.ofFile(file);
  if (found === undefined) return;
  desk.changeUi(cell.id, ({ taking }) => {
    if (!found.ok) taking.told = composed`${file.name}: ${problemSentence(found.problem)}`;
    else if (found.value.lines.length === 0) taking.told = composed`${file.name}: this sheet has no fitted line. Choose the sheet in which the class’s tests are fitted.`;
    else {
      taking.told = '';
      taking.sheets = [found.value, ...(taking.sheets ?? [])];
    }
  });
  desk.element(cell.id)?.querySelector<HTMLElement>('.lines-to-take button.entry')?.focus();
}

/** One step of the sheet's history; the words about it are the cell's own. */
function take(cell: FitCell, snapshot: ReadonlyMap<string, string>, desk: Desk): void {
  desk.settle();
  if (!desk.apply({ do: 'set entries', cellId: cell.id, key: 'snapshot', entries: snapshot }, cell.id)) return;
  desk.settle();
  desk.changeUi(cell.id, ({ taking }) => void Object.assign(taking, { isOpen: false, sheets: undefined, told: '' }));
  desk.afterUpdate(() => focusIn(cell, desk));
  desk.announce(composed`The line from ${snapshot.get('from') ?? 'the other sheet'} is here now.`);
}

function drop(cell: FitCell, desk: Desk): void {
  desk.settle();
  if (!desk.apply({ do: 'set entries', cellId: cell.id, key: 'snapshot', entries: new Map() }, cell.id)) return;
  desk.settle();
  desk.afterUpdate(() => focusIn(cell, desk));
  desk.announce('The line is dropped. Undo brings it back.');
}

function close(cell: FitCell, desk: Desk): void {
  desk.changeUi(cell.id, ({ taking }) => void Object.assign(taking, { isOpen: false, sheets: undefined, told: '' }));
  desk.element(cell.id)?.querySelector<HTMLElement>('.unfold-lines')?.focus();
}

/** On to what can be done next: using the line, or the list. */
function focusIn(cell: FitCell, desk: Desk): void {
  const place = desk.element(cell.id);
  (place?.querySelector<HTMLElement>('.offered button') ?? place?.querySelector<HTMLElement>('.unfold-lines'))?.focus();
}
