import { nothing } from 'lit-html';
import { composed, problemSentence } from '../../core/problem/index.ts';
import { awaitsLine, readSnapshot, unfitFor, type LineToTake } from '../../graph/index.ts';
import { presentLineToTake, type PresentedFit, type PresentedOffer } from '../../report/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import type { LineNews, LineShelf } from '../offer-shelf.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';
import { foldAway, takingList, type TakingList } from './take-panel.ts';

/** What can be done with a line from another sheet: take one, use it, take it again after a change, drop it. */
export function takeLine(cell: FitCell, { offer }: PresentedFit, desk: Desk): Part {
  const isAwaited = awaitsLine(cell);
  if (!isAwaited && cell.snapshot === undefined) return nothing;
  const dropped = isAwaited ? nothing : html`<button type="button" class="plain" @click=${() => drop(cell, desk)}>Drop this line</button>`;
  return html`<div class="take-over">
    ${offer === undefined ? nothing : offerPart(cell, offer, desk)}
    ${changedPart(cell, desk)}
    ${desk.lines === undefined ? nothing : takingList(linesFor(cell, desk.lines, desk), dropped)}
    </div>`;
}

function linesFor(cell: FitCell, shelf: LineShelf, desk: Desk): TakingList<LineToTake, LineNews> {
  return {
    cellId: cell.id,
    desk,
    shelf,
    ui: ({ taking }) => taking,
    words: {
      list: 'Lines of other sheets',
      opener: awaitsLine(cell) ? 'Take a line from another sheet' : 'Take another line',
      none: 'No other sheet kept in this browser has a fitted line. Fit one in a sheet for the S-N line, or take one from a file.',
      noneInFile: 'this sheet has no fitted line. Choose the sheet in which the class’s tests are fitted.',
      refused: 'The browser did not give access to the sheets kept in it. A line can still be taken from a file.',
      found: (sheets) => {
        const count = sheets.reduce((sum, { offers }) => sum + offers.length, 0);
        return count === 0 ? 'No other sheet kept in this browser has a fitted line.' : `${count} ${count === 1 ? 'line' : 'lines'} in other sheets, listed below.`;
      },
    },
    entry: (line) => linePart(cell, line, shelf, desk),
  };
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
  const { tests, snapshot } = source.now.news;
  const isInvented = snapshot.get('invented') === 'yes';
  const rests = isInvented === (cell.snapshot.get('invented') === 'yes') ? undefined : `In the sheet it came from the line rests on ${isInvented ? 'invented tests' : 'no invented tests'} now.`;
  return html`<p class="changed">${rests ?? (tests ? 'The tests in the sheet it came from have changed since.' : 'In the sheet it came from the line is found in another way since.')}
    <button type="button" class="plain" @click=${() => take(cell, snapshot, desk)}>Take it again</button></p>`;
}

function linePart(cell: FitCell, { label, snapshot, trouble }: LineToTake, shelf: LineShelf, desk: Desk): Part {
  const read = snapshot === undefined ? undefined : readSnapshot(snapshot);
  if (snapshot === undefined || read?.ok !== true) {
    return html`<span class="entry">${label}</span> <span class="help">${read?.ok === false ? problemSentence(read.problem) : trouble}</span>`;
  }
  const unfit = unfitFor(cell, read.value);
  if (unfit !== undefined) return html`<span class="entry">${label}</span> <span class="help">${problemSentence(unfit)}</span>`;
  const press = (): void => {
    if (take(cell, snapshot, desk)) foldAway(linesFor(cell, shelf, desk));
  };
  return html`<button type="button" class="plain entry" @click=${press}>${label}</button>
    <span class="help">${presentLineToTake(read.value, desk.context())}</span>`;
}

/** One step of the sheet's history; the words about it are the cell's own. */
function take(cell: FitCell, snapshot: ReadonlyMap<string, string>, desk: Desk): boolean {
  desk.settle();
  if (!desk.apply({ do: 'set entries', cellId: cell.id, key: 'snapshot', entries: snapshot }, cell.id)) return false;
  desk.settle();
  desk.afterUpdate(() => focusIn(cell, desk));
  desk.announce(composed`The line from ${snapshot.get('from') ?? 'the other sheet'} is here now.`);
  return true;
}

function drop(cell: FitCell, desk: Desk): void {
  desk.settle();
  if (!desk.apply({ do: 'set entries', cellId: cell.id, key: 'snapshot', entries: new Map() }, cell.id)) return;
  desk.settle();
  desk.afterUpdate(() => focusIn(cell, desk));
  desk.announce('The line is dropped. Undo brings it back.');
}

/** On to what can be done next: using the line, or the list. */
function focusIn(cell: FitCell, desk: Desk): void {
  const place = desk.element(cell.id);
  (place?.querySelector<HTMLElement>('.offered button') ?? place?.querySelector<HTMLElement>('.unfold-offers'))?.focus();
}
