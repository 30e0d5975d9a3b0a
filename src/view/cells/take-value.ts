import { nothing } from 'lit-html';
import { composed } from '../../core/problem/index.ts';
import { numberText } from '../../core/units/index.ts';
import { troubleFor, valueFor, type ValueToTake } from '../../graph/index.ts';
import { ORIGIN_WORDS, symbolOf, unitWords, wholeOf } from '../../report/index.ts';
import { cellsOf, isTakenOver, type EditCommand, type GivenCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import type { OfferedValues, SheetWith, ValueShelf } from '../offer-shelf.ts';
import { raised, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { foldAway, openList, opener, type TakingList } from './take-panel.ts';

/** The way to a value that another sheet has. */
export function takeOpener(cell: GivenCell, desk: Desk): Part {
  return cell.elsewhere === undefined || desk.values === undefined ? nothing : opener(valuesFor(cell, desk.values, desk));
}

/** Whether that way stands beside the blank: as long as nothing is in it but what the sheet assumes. Later it is where it is said how the value was measured. */
export function opensBeside(cell: GivenCell, desk: Desk): boolean {
  return cell.elsewhere !== undefined && desk.values !== undefined && (!isFilled(cell) || cell.origin === 'assumed');
}

/** What can be done with a value of another sheet: take it, with what else belongs to it there; take it again after a change. */
export function takeValue(cell: GivenCell, desk: Desk): Part {
  if (cell.elsewhere === undefined || desk.values === undefined) return nothing;
  const [changed, list] = [changedPart(cell, desk), openList(valuesFor(cell, desk.values, desk))];
  return changed === nothing && list === nothing ? nothing : html`<div class="take-over">${changed}${list}</div>`;
}

/** The givens of this sheet that take a value from elsewhere. */
function takers(desk: Desk): readonly GivenCell[] {
  return cellsOf(wholeOf(desk.context()).document, 'given').filter(({ elsewhere }) => elsewhere !== undefined);
}

export function wantedOf(desk: Desk): readonly string[] {
  return takers(desk).flatMap(({ elsewhere }) => elsewhere?.symbol ?? []);
}

function valuesFor(cell: GivenCell, shelf: ValueShelf, desk: Desk): TakingList<OfferedValues, OfferedValues> {
  const own = cell.elsewhere?.symbol ?? '';
  // Which symbols are wanted is asked of the whole sheet, and only once somebody looks.
  const withOwn = async (): Promise<readonly SheetWith<OfferedValues>[]> =>
    (await shelf(wantedOf(desk)).kept()).filter(({ offers }) => offers.some((offer) => (troubleFor(cell, offer) ?? valueFor(cell, offer)) !== undefined));
  return {
    cellId: cell.id,
    desk,
    shelf: { kept: withOwn, ofFile: (file) => shelf(wantedOf(desk)).ofFile(file) },
    ui: ({ takingValues }) => takingValues,
    words: {
      list: composed`${cell.label ?? cell.symbol}: values of other sheets`,
      opener: 'from a sheet',
      fullOpener: 'take it from a sheet',
      none: composed`No other sheet kept in this browser has a ${own} to take. Enter it or work it out there, or take it from a file.`,
      noneInFile: composed`this sheet has no ${own} to take.`,
      refused: 'The browser did not give access to the sheets kept in it. A value can still be taken from a file.',
      found: (sheets) => (sheets.length === 0 ? composed`No other sheet kept in this browser has a ${own} to take.` : `${sheets.length} ${sheets.length === 1 ? 'sheet' : 'sheets'} with such a value, listed below.`),
    },
    entry: (offer) => offerPart(cell, offer, shelf, desk),
  };
}

function offerPart(cell: GivenCell, offer: OfferedValues, shelf: ValueShelf, desk: Desk): Part {
  const trouble = troubleFor(cell, offer);
  const equation = (value: ValueToTake): Part => html`<span class="taken-value"><span ${setEquation(`${symbolOf(value.symbol)} =`)}></span> ${shortened(value)}</span> `;
  if (trouble !== undefined) return html`<span class="entry">${cell.elsewhere?.symbol}</span> <span class="help">${trouble}</span>`;
  const press = (): void => {
    if (take(cell, offer, desk)) foldAway(valuesFor(cell, shelf, desk));
  };
  const called = valueFor(cell, offer)?.label ?? '';
  return html`<button type="button" class="plain entry" @click=${press}>${taking(cell, offer, desk).map(({ value }) => equation(value))}</button>
    ${valueFor(cell, offer)?.isInvented === true ? html`<span class="origin">${ORIGIN_WORDS.example}</span>` : nothing}
    ${called === (cell.label ?? '') ? nothing : html`<span class="help">${composed`${cell.elsewhere?.symbol ?? ''} there: ${called}`}</span>`}`;
}

function changedPart(cell: GivenCell, desk: Desk): Part {
  const { source } = desk.ui(cell.id).takingValues;
  if (source === undefined || cell.taken === undefined || source.of !== cell.taken || source.now.state !== 'changed') return nothing;
  const { news } = source.now;
  const value = valueFor(cell, news);
  const said = value?.text === cell.taken.get('value') ? html`it ${value?.isInvented === true ? 'rests on an invented value' : 'rests on no invented value'} now.`
    : html`it is ${value === undefined ? nothing : shortened(value)} now${value?.isInvented === true ? ', of an invented example' : nothing}.`;
  return html`<p class="changed">In the sheet it came from ${said}
    <button type="button" class="plain" @click=${() => take(cell, news, desk)}>Take it again</button></p>`;
}

/** Whether something of the reader's own stands there. */
function isOwn(given: GivenCell): boolean {
  return isFilled(given) && given.origin === undefined && !isTakenOver(given);
}

function isFilled(given: GivenCell): boolean {
  return (given.readings ?? given.value ?? '').trim() !== '';
}

/**
 * The value asked for, and what else that sheet has for this one: it comes along where nothing of the reader's own, and nothing of a third sheet,
 * stands in its place.
 */
function taking(cell: GivenCell, offer: OfferedValues, desk: Desk): readonly { readonly given: GivenCell; readonly value: ValueToTake }[] {
  const comesAlong = (given: GivenCell): boolean => !isOwn(given)
    && (!isTakenOver(given) || (given.taken?.get('from') === offer.from && (given.taken.get('specimen') ?? '') === offer.specimen));
  return takers(desk).flatMap((given) => {
    const value = given.id === cell.id || comesAlong(given) ? valueFor(given, offer) : undefined;
    return value === undefined ? [] : [{ given, value }];
  }).sort((a, b) => Number(b.given.id === cell.id) - Number(a.given.id === cell.id));
}

/** All of them in one step, with how they vary together. */
function take(cell: GivenCell, offer: OfferedValues, desk: Desk): boolean {
  desk.settle();
  const to = taking(cell, offer, desk);
  const named = new Map(to.map(({ given, value }) => [value.symbol, given.symbol]));
  const placed = new Set<string>();
  const commands = to.flatMap(({ given, value }): EditCommand[] => {
    placed.add(value.symbol);
    const { from, specimen, on } = offer;
    const taken = new Map([['from', from], ['specimen', specimen], ['symbol', value.symbol], ['on', on], ['value', value.text], ...(value.isInvented ? [['invented', 'yes'] as const] : [])]);
    // Stated once for a pair, at the one that stands first.
    const others = [...value.correlated].flatMap(([symbol, r]): [string, string][] => {
      const own = named.get(symbol);
      return own === undefined || placed.has(symbol) ? [] : [[own, numberText(r)]];
    });
    const kept = [...(given.correlated ?? [])].filter(([symbol]) => ![...named.values()].includes(symbol));
    return [
      { do: 'set keys', cellId: given.id, values: new Map([['value', value.text], ['readings', undefined], ['origin', value.isInvented ? 'example' : undefined]]) },
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

/** Four figures tell a reader all; the text keeps every one. The unit stands as results have it. */
function shortened({ text, unit }: ValueToTake): unknown {
  const short = text.replace(/-?\d+\.\d{4,}(?:e-?\d+)?/g, (number) => String(Number(Number(number).toPrecision(4))));
  return raised(short.endsWith(` ${unit.name}`) ? `${short.slice(0, -unit.name.length)}${unitWords(unit.name)}` : short);
}
