import { nothing } from 'lit-html';
import { composed } from '../../core/problem/index.ts';
import { definingCell } from '../../report/index.ts';
import { cellIn, type ChoiceCell, type ChoiceOption, type EditCommand, type GivenCell } from '../../sheet/index.ts';
import { fromSI } from '../../core/units/index.ts';
import { setGiven } from '../commands.ts';
import type { Desk } from '../desk.ts';
import { partId, type Part } from '../parts.ts';
import { blanksOf, givenText, readingOf } from '../readings.ts';
import { html } from '../template.ts';

/**
 * Keeps values that were typed over those of a choice as an option of its own, under a name, which stays with the document. Offered only while
 * something is typed over; a material of the reader's own is entered another way (`own-material.ts`).
 */
export function ownOption(cell: ChoiceCell, desk: Desk): Part {
  const chosen = cell.options.find(({ key }) => key === cell.chosen);
  const typed = chosen === undefined ? [] : typedOver(cell, desk);
  if (chosen === undefined || typed.length === 0) return nothing;
  const open = desk.ui(cell.id).open.has('own option');
  const toggle = (): void => {
    desk.changeUi(cell.id, ({ open: parts }) => void (parts.has('own option') ? parts.delete('own option') : parts.add('own option')));
    if (!open) desk.element(cell.id)?.querySelector<HTMLInputElement>('.own-option input')?.focus();
  };
  const keep = (event: Event): void => {
    event.preventDefault();
    const field = event.target instanceof HTMLFormElement ? event.target.querySelector('input') : null;
    const name = field?.value.trim() ?? '';
    if (name === '') field?.focus();
    else keepAs(name, cell, chosen, typed, desk);
  };
  const id = partId(cell.id, 'own-option');
  return html`<div class="own-option"><button type="button" class="quiet" aria-expanded=${String(open)} @click=${toggle}>keep the typed values under a name</button>
    ${open ? html`<form class="measured" @submit=${keep}><div class="fields"><label class="field" for=${id}><span>Name</span>
      <input type="text" id=${id} autocomplete="off" maxlength="80" enterkeyhint="done"></label><button type="submit" class="quiet">keep</button></div></form>` : nothing}</div>`;
}

/** Givens that some option of the choice fills, and that the reader has typed over. */
function typedOver(cell: ChoiceCell, desk: Desk): readonly GivenCell[] {
  const symbols = new Set(cell.options.flatMap(({ sets }) => [...sets.keys()]));
  return [...symbols].flatMap((symbol) => {
    const given = cellIn(definingCell(symbol, desk.context()), 'given');
    return given !== undefined && blanksOf(givenText(given)).length > 0 ? [given] : [];
  });
}

function keepAs(name: string, cell: ChoiceCell, chosen: ChoiceOption, typed: readonly GivenCell[], desk: Desk): void {
  const sets = new Map(chosen.sets);
  for (const given of typed) sets.set(given.symbol, quantityText(given, desk));
  const key = freshKey(name, cell);
  const option = { key, label: name, sets, source: 'Your own values, kept with this sheet.' };
  const commands: EditCommand[] = [
    { do: 'add option', cellId: cell.id, option },
    { do: 'choose', cellId: cell.id, option: key },
    ...typed.map((given) => setGiven(given, { value: undefined, readings: undefined })),
  ];
  desk.settle();
  if (!desk.apply({ do: 'together', commands }, cell.id)) return;
  desk.settle();
  desk.changeUi(cell.id, ({ open }) => void open.delete('own option'));
  desk.announce(composed`${name} is kept with this sheet and chosen.`);
}

/** One value as typed, with its unit; repeated readings by their mean. */
export function quantityText(given: GivenCell, desk: Desk): string {
  const blanks = blanksOf(givenText(given));
  const [only = ''] = blanks;
  if (blanks.length === 1) return readingOf(only).unit === '' && given.unit !== '1' ? `${only} ${given.unit}`.trim() : only;
  const state = desk.context().states.symbol(given.symbol);
  return state?.status === 'value' ? `${Number(fromSI(state.estimate.value, state.unit).toPrecision(12))} ${state.unit.name}` : blanks.join(', ');
}

/** A short key made of the name's letters and digits, unlike those that are there. */
export function freshKey(name: string, { options }: ChoiceCell): string {
  const base = name.normalize('NFKD').replace(/[^A-Za-z0-9]+/g, '-').replace(/^-+|-+$/g, '') || 'own';
  const taken = new Set(options.map(({ key }) => key));
  if (!taken.has(base)) return base;
  let count = 2;
  while (taken.has(`${base}-${count}`)) count += 1;
  return `${base}-${count}`;
}
