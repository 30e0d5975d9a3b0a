import { nothing } from 'lit-html';
import { composed } from '../../core/problem/index.ts';
import { numberText } from '../../core/units/index.ts';
import type { ValueToTake } from '../../graph/index.ts';
import { symbolOf, wholeOf } from '../../report/index.ts';
import { cellsOf, type EditCommand, type GivenCell } from '../../sheet/index.ts';
import { setGiven } from '../commands.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import type { OfferedValues, SheetWith, ValueShelf } from '../offer-shelf.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';
import { foldAway, takingList, type TakingList } from './take-panel.ts';

/** What can be done with a value that another sheet works out: take it, with all that come from the same sheet; take it again after a change. */
export function takeValue(cell: GivenCell, desk: Desk): Part {
  const { elsewhere } = cell;
  if (elsewhere === undefined || desk.values === undefined) return nothing;
  return html`<div class="take-over">${changedPart(cell, desk)}${takingList(valuesFor(cell, desk.values, desk))}</div>`;
}

/** The givens of this sheet that take a value from elsewhere. */
function takers(desk: Desk): readonly GivenCell[] {
  return cellsOf(wholeOf(desk.context()).document, 'given').filter(({ elsewhere }) => elsewhere !== undefined);
}

export function wantedOf(desk: Desk): readonly string[] {
  return takers(desk).flatMap(({ elsewhere }) => elsewhere ?? []);
}

function valuesFor(cell: GivenCell, shelf: ValueShelf, desk: Desk): TakingList<OfferedValues, OfferedValues> {
  const own = cell.elsewhere ?? '';
  // Which symbols are wanted is asked of the whole sheet, and only once somebody looks.
  const withOwn = async (): Promise<readonly SheetWith<OfferedValues>[]> =>
    (await shelf(wantedOf(desk)).kept()).filter(({ offers }) => offers.some((offer) => offer.trouble.has(own) || offer.values.some(({ symbol }) => symbol === own)));
  return {
    cellId: cell.id,
    desk,
    shelf: { kept: withOwn, ofFile: (file) => shelf(wantedOf(desk)).ofFile(file) },
    ui: ({ takingValues }) => takingValues,
    words: {
      list: composed`${cell.label ?? cell.symbol}: values of other sheets`,
      opener: 'take it from another sheet',
      none: composed`No other sheet kept in this browser works out ${own}. Work it out there, or take it from a file.`,
      noneInFile: composed`this sheet does not work out ${own}.`,
      refused: 'The browser did not give access to the sheets kept in it. A value can still be taken from a file.',
      found: (sheets) => (sheets.length === 0 ? composed`No other sheet kept in this browser works out ${own}.` : `${sheets.length} ${sheets.length === 1 ? 'sheet' : 'sheets'} with such a value, listed below.`),
    },
    entry: (offer) => offerPart(cell, offer, shelf, desk),
  };
}

function offerPart(cell: GivenCell, offer: OfferedValues, shelf: ValueShelf, desk: Desk): Part {
  const trouble = offer.trouble.get(cell.elsewhere ?? '');
  const equation = ({ symbol, text }: ValueToTake): Part => html`<span class="taken-value"><span ${setEquation(`${symbolOf(symbol)} =`)}></span> ${shortened(text)}</span> `;
  if (trouble !== undefined) return html`<span class="entry">${cell.elsewhere}</span> <span class="help">${trouble}</span>`;
  const press = (): void => {
    if (take(cell, offer, desk)) foldAway(valuesFor(cell, shelf, desk));
  };
  return html`<button type="button" class="plain entry" @click=${press}>${offer.values.map(equation)}</button>`;
}

function changedPart(cell: GivenCell, desk: Desk): Part {
  const { source } = desk.ui(cell.id).takingValues;
  if (source === undefined || cell.taken === undefined || source.of !== cell.taken || source.now.state !== 'changed') return nothing;
  const { news } = source.now;
  const text = news.values.find(({ symbol }) => symbol === cell.taken?.get('symbol'))?.text ?? '';
  return html`<p class="changed">In the sheet it came from it is ${shortened(text)} now.
    <button type="button" class="plain" @click=${() => take(cell, news, desk)}>Take it again</button></p>`;
}

/** All values that the sheet has for this one, in one step, with how they vary together. */
function take(cell: GivenCell, offer: OfferedValues, desk: Desk): boolean {
  desk.settle();
  const to = takers(desk).flatMap((given) => {
    const value = offer.values.find(({ symbol }) => symbol === given.elsewhere);
    return value === undefined ? [] : [{ given, value }];
  });
  const named = new Map(to.map(({ given, value }) => [value.symbol, given.symbol]));
  const placed = new Set<string>();
  const commands = to.flatMap(({ given, value }): EditCommand[] => {
    placed.add(value.symbol);
    const { from, specimen, on } = offer;
    const taken = new Map([['from', from], ['specimen', specimen], ['symbol', value.symbol], ['on', on], ['value', value.text]]);
    // Stated once for a pair, at the one that stands first.
    const others = [...value.correlated].flatMap(([symbol, r]): [string, string][] => {
      const own = named.get(symbol);
      return own === undefined || placed.has(symbol) ? [] : [[own, numberText(r)]];
    });
    const kept = [...(given.correlated ?? [])].filter(([symbol]) => ![...named.values()].includes(symbol));
    return [
      setGiven(given, { value: value.text, readings: undefined }),
      { do: 'set entries', cellId: given.id, key: 'taken', entries: taken },
      { do: 'set entries', cellId: given.id, key: 'correlated', entries: new Map([...kept, ...others]) },
    ];
  });
  if (!desk.apply({ do: 'together', commands }, cell.id)) return false;
  desk.settle();
  desk.afterUpdate(() => desk.element(cell.id)?.querySelector<HTMLElement>('.unfold-offers')?.focus());
  desk.announce(composed`Taken over from ${offer.from}: ${to.map(({ given }) => given.label ?? given.symbol).join(', ')}.`);
  return true;
}

/** Six figures tell a reader all; the text keeps every one. */
function shortened(text: string): string {
  return text.replace(/-?\d+\.\d{4,}(?:e-?\d+)?/g, (number) => String(Number(Number(number).toPrecision(4))));
}
