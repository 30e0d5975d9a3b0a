import { nothing } from 'lit-html';
import { composed, problemSentence } from '../../core/problem/index.ts';
import type { CellUi, Desk } from '../desk.ts';
import type { OfferShelf, SheetWith } from '../offer-shelf.ts';
import { partId, type Part } from '../parts.ts';
import { html } from '../template.ts';
import type { TakingUi } from './taking-ui.ts';

/** A list of what other sheets offer a cell, which unfolds below it. */
export interface TakingList<Offer, News> {
  readonly cellId: string;
  readonly desk: Desk;
  readonly shelf: OfferShelf<Offer>;
  readonly ui: (cell: CellUi) => TakingUi<Offer, News>;
  readonly words: {
    readonly list: string;
    readonly opener: string;
    /** The same for whoever hears it without its line. */
    readonly fullOpener?: string;
    /** Where no kept sheet, and where a file has nothing. */
    readonly none: string;
    readonly noneInFile: string;
    readonly refused: string;
    /** What is told when the list is there. */
    readonly found: (sheets: readonly SheetWith<Offer>[]) => string;
  };
  readonly entry: (offer: Offer) => Part;
}

/** The words that unfold the list. */
export function opener<Offer, News>(list: TakingList<Offer, News>): Part {
  const { cellId, desk, words } = list;
  const open = list.ui(desk.ui(cellId)).isOpen;
  return html`<button type="button" class="plain unfold-offers" aria-label=${words.fullOpener ?? nothing} aria-expanded=${String(open)} aria-controls=${open ? panelId(cellId) : nothing}
    @click=${() => (open ? close(list) : void unfold(list))}>${words.opener}</button>`;
}

/** The list, where it is unfolded. */
export function openList<Offer, News>(list: TakingList<Offer, News>): Part {
  return list.ui(list.desk.ui(list.cellId)).isOpen ? panel(list, panelId(list.cellId)) : nothing;
}

/** The words that unfold the list, what else can be pressed there, and the list. */
export function takingList<Offer, News>(list: TakingList<Offer, News>, more: Part = nothing): Part {
  return html`<div class="take-actions">${opener(list)}${more}</div>${openList(list)}`;
}

function panelId(cellId: string): string {
  return partId(cellId, 'offers');
}

function panel<Offer, News>(list: TakingList<Offer, News>, id: string): Part {
  const { cellId, desk, words } = list;
  const { sheets, told } = list.ui(desk.ui(cellId));
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    close(list);
  };
  const bring = ({ target }: Event): void => {
    const [file] = target instanceof HTMLInputElement ? (target.files ?? []) : [];
    if (file !== undefined) void look(list, file);
    if (target instanceof HTMLInputElement) target.value = '';
  };
  return html`<section class="offers" id=${id} aria-label=${words.list} @keydown=${press}>
    ${sheets === undefined ? html`<p class="help">Looking through the sheets kept in this browser…</p>`
      : sheets.length === 0 ? html`<p class="help">${words.none}</p>`
        : sheets.map((sheet, i) => sheetPart(list, sheet, `${id}-${i}`))}
    ${told === '' ? nothing : html`<p class="problem" role="alert">${told}</p>`}
    <p class="take-actions"><label class="file"><input type="file" class="visually-hidden" accept=".md,.html,.htm,.txt,text/markdown,text/html" @change=${bring}>
      <span>From a file: a document, report or working file</span></label>
      <button type="button" class="plain" @click=${() => close(list)}>Close the list</button></p>
  </section>`;
}

function sheetPart<Offer, News>({ entry }: TakingList<Offer, News>, { title, detail, offers }: SheetWith<Offer>, id: string): Part {
  return html`<p class="from" id=${id}>${title}${detail === '' ? nothing : html` <span class="help">${detail}</span>`}</p>
    <ul aria-labelledby=${id}>${offers.map((offer) => html`<li>${entry(offer)}</li>`)}</ul>`;
}

async function unfold<Offer, News>(list: TakingList<Offer, News>): Promise<void> {
  const { cellId, desk, shelf, words } = list;
  const show = (sheets: readonly SheetWith<Offer>[] | undefined, told: string): void =>
    desk.changeUi(cellId, (ui) => void Object.assign(list.ui(ui), { isOpen: true, sheets, told }));
  show(undefined, '');
  try {
    const sheets = await shelf.kept();
    if (!list.ui(desk.ui(cellId)).isOpen) return;
    show(sheets, '');
    desk.announce(words.found(sheets));
  } catch {
    show([], words.refused);
  }
}

async function look<Offer, News>(list: TakingList<Offer, News>, file: File): Promise<void> {
  const { cellId, desk, shelf, words } = list;
  const found = await shelf.ofFile(file);
  desk.changeUi(cellId, (ui) => {
    const taking = list.ui(ui);
    if (!found.ok) taking.told = composed`${file.name}: ${problemSentence(found.problem)}`;
    else if (found.value.offers.length === 0) taking.told = composed`${file.name}: ${words.noneInFile}`;
    else {
      taking.told = '';
      taking.sheets = [found.value, ...(taking.sheets ?? [])];
    }
  });
  desk.element(cellId)?.querySelector<HTMLElement>('.offers button.entry')?.focus();
}

/** Folds the list away after something was taken. */
export function foldAway<Offer, News>({ cellId, desk, ui }: TakingList<Offer, News>): void {
  desk.changeUi(cellId, (one) => void Object.assign(ui(one), { isOpen: false, sheets: undefined, told: '' }));
}

function close<Offer, News>(list: TakingList<Offer, News>): void {
  foldAway(list);
  list.desk.element(list.cellId)?.querySelector<HTMLElement>('.unfold-offers')?.focus();
}
