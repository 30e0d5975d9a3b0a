import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { quoted } from '../report/index.ts';
import { ASKS, DRAWINGS, INNER_PARTS, KINDS, statedIn, type CellBlock, type EditCommand, type KeyEntry, type KnownKind, type Plain } from '../sheet/index.ts';
import { setKey } from './commands.ts';
import { sheetNames } from './completing/sheet-names.ts';
import type { SheetNames } from './completing/offers.ts';
import type { Desk } from './desk.ts';
import { entered } from './entered.ts';
import { partId } from './parts.ts';
import { html, shown } from './template.ts';

/*
 * The text of a line as a form, made of the same description of keys that reads the text: a field for each key, lists and groups with a row for each entry. Both say the same
 * at any time; what the form has no field for stands in the text alone, and says so.
 */

type Entries = Readonly<Record<string, KeyEntry>>;

/** What the sheet writes by itself, and long texts that have a place of their own. */
const NO_FIELD = /the sheet writes|as base64|delimited text/u;
const isOnlyWords = (takes: string): boolean => /^`[a-z-]+`(?:(?:, | or |, or )`[a-z-]+`)+$/u.test(takes);
const wordsIn = (takes: string): readonly string[] => [...takes.matchAll(/`([a-zA-Z][a-z -]*)`/gu)].map(([, word = '']) => word);

interface Place {
  readonly block: CellBlock;
  readonly desk: Desk;
  readonly names: SheetNames;
  readonly apply: (command: EditCommand) => void;
}

/** @param changed called once the text was changed by the form */
export function lineForm(block: CellBlock, desk: Desk, changed: () => void): TemplateResult | typeof nothing {
  if (!Object.hasOwn(KINDS, block.cellKind)) return nothing;
  const kind = block.cellKind as KnownKind;
  const stated = statedIn(block);
  const apply = (command: EditCommand): void => {
    desk.settle();
    if (desk.apply(command, block.id)) changed();
    desk.settle();
  };
  const place: Place = { block, desk, names: sheetNames(desk.session, block), apply };
  const isOpen = desk.ui(block.id).open.has('form');
  const toggle = ({ currentTarget }: Event): void => {
    if (!(currentTarget instanceof HTMLDetailsElement) || currentTarget.open === isOpen) return;
    const { open } = currentTarget;
    desk.changeUi(block.id, (ui) => void (open ? ui.open.add('form') : ui.open.delete('form')));
  };
  return html`<details class="line-form keys" .open=${isOpen} @toggle=${toggle}><summary>The same as a form</summary>
    ${isOpen ? Object.entries(KINDS[kind].keys).map(([key, entry]) => keyField(key, entry, stated.get(key), kind, place)) : nothing}</details>`;
}

function keyField(key: string, entry: KeyEntry, value: Plain | undefined, kind: KnownKind, place: Place): TemplateResult | typeof nothing {
  if (NO_FIELD.test(entry.takes)) return nothing;
  const inner = INNER_PARTS[kind]?.find(({ title }) => title.startsWith(`Below \`${key}\``))?.keys;
  const isList = entry.takes.startsWith('below it, each begun with a hyphen');
  if (isList && inner !== undefined) return listFields(key, entry, value, inner, place);
  if (entry.takes.startsWith('below it')) return inner !== undefined || isDeep(value) ? inText(key, entry) : groupFields(key, entry, value, namesBelow(key, entry, kind, place), place);
  if (value !== undefined && typeof value !== 'string') return inText(key, entry);
  return field({ id: key, label: key, entry, value: value ?? '', set: (text) => place.apply(setKey(place.block.id, key, text === '' ? undefined : text)) }, place);
}

function isDeep(value: Plain | undefined): boolean {
  return Array.isArray(value) || (value instanceof Map && [...value.values()].some((inner) => typeof inner !== 'string'));
}

function inText(key: string, entry: KeyEntry): TemplateResult {
  return html`<p class="help"><code>${key}</code>: ${shown(quoted(entry.means))} It is written in the text above.</p>`;
}

/** Names that may stand below a key: what is asked, parts of a drawing, symbols of the sheet. */
function namesBelow(key: string, entry: KeyEntry, kind: KnownKind, { block, names }: Place): readonly string[] {
  const stated = statedIn(block);
  const word = (name: string): string => {
    const text = stated.get(name);
    return typeof text === 'string' ? text : '';
  };
  return BELOW[kind]?.(key, word) ?? (key === 'correlated' ? names.symbols.map(({ text }) => text) : wordsIn(entry.takes));
}

const BELOW: Readonly<Partial<Record<KnownKind, (key: string, word: (name: string) => string) => readonly string[] | undefined>>> = {
  fit: (key, word) => (key !== 'asks' ? undefined : Object.keys(Object.entries(ASKS).find(([finds]) => finds === word('finds'))?.[1].keys ?? {})),
  figure: (key, word) => (key !== 'values' && key !== 'givens' ? undefined : Object.keys(Object.entries(DRAWINGS).find(([drawings]) => drawings.split(', ').includes(word('drawing')))?.[1] ?? {})),
};

interface Field {
  readonly id: string;
  readonly label: string;
  readonly entry: KeyEntry;
  readonly value: string;
  readonly set: (text: string) => void;
}

/** One text: words to choose from, true or false, several lines, or a line with the names that fit. */
function field({ id: name, label, entry, value, set }: Field, { block, names }: Place): TemplateResult {
  const id = partId(block.id, `form-${name}`);
  const change = ({ target }: Event): void => {
    if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) set(target.value);
  };
  const described = `${id}-means`;
  const words = isOnlyWords(entry.takes) ? wordsIn(entry.takes) : [];
  const control = words.length > 0
    ? html`<select id=${id} aria-describedby=${described} .value=${live(value)} @change=${change}>${['', ...(words.includes(value) || value === '' ? [] : [value]), ...words].map((word) =>
        html`<option value=${word} .selected=${word === value}>${word === '' ? (entry.usual === undefined ? '—' : `— (${entry.usual.replaceAll('`', '')})`) : word}</option>`)}</select>`
    : value.includes('\n') || entry.takes.startsWith('prose')
      ? html`<textarea id=${id} rows="3" aria-describedby=${described} .value=${entered(value)} @change=${change}></textarea>`
      : html`<input id=${id} type="text" autocomplete="off" autocapitalize="off" spellcheck="false" list=${`${id}-names`} aria-describedby=${described} .value=${entered(value)} @change=${change}>
          <datalist id=${`${id}-names`}>${offersFor(label, entry, names).map((text) => html`<option value=${text}></option>`)}</datalist>`;
  return html`<div class="form-field"><label for=${id}><code>${label}</code>${entry.required === true ? html` <span class="help">(needed)</span>` : nothing}</label>${control}
    <p class="help" id=${described}>${shown(quoted(entry.means))}</p></div>`;
}

function offersFor(key: string, entry: KeyEntry, names: SheetNames): readonly string[] {
  if (key === 'instrument') return names.instruments.map(({ text }) => text);
  if (key === 'unit') return names.units.map(({ text }) => text);
  const kind = /\bid of an? (choice|table|fit|check|checklist|picture)\b/u.exec(entry.takes)?.[1];
  if (kind !== undefined) return names.ids(kind === 'picture' ? 'photo' : kind).map(({ text }) => text);
  if (/^(?:a symbol|symbols|the symbol|two symbols)/u.test(entry.takes)) return names.symbols.map(({ text }) => text);
  return entry.takes.includes('quantity') || entry.takes.includes('formula') ? [] : wordsIn(entry.takes);
}

/** A group of texts by names of their own. */
function groupFields(key: string, entry: KeyEntry, value: Plain | undefined, offered: readonly string[], place: Place): TemplateResult {
  const { block, apply } = place;
  const rows = value instanceof Map ? [...value].map(([name, text]) => [name, typeof text === 'string' ? text : ''] as const) : [];
  const put = (name: string, text: string | undefined): void => apply({ do: 'set in group', cellId: block.id, group: key, key: name, value: text });
  const inner: KeyEntry = { means: entry.means, takes: 'a symbol' };
  const id = partId(block.id, `form-${key}-new`);
  const add = ({ currentTarget }: Event): void => {
    const typed = currentTarget instanceof Element ? currentTarget.closest('.form-field')?.querySelector('input') : null;
    if (typed instanceof HTMLInputElement && typed.value.trim() !== '') {
      put(typed.value.trim(), '');
      typed.value = '';
    }
  };
  return html`<fieldset><legend><code>${key}</code></legend><p class="help">${shown(quoted(entry.means))}</p>
    ${rows.map(([name, text]) => html`${field({ id: `${key}-${name}`, label: name, entry: { ...inner, means: '' }, value: text, set: (typed) => put(name, typed) }, place)}
      <button type="button" class="plain" aria-label=${`Take ${name} out of ${key}`} @click=${() => put(name, undefined)}>take ${name} out</button>`)}
    <div class="form-field"><label for=${id}>One more</label><input id=${id} type="text" autocomplete="off" autocapitalize="off" spellcheck="false" list=${`${id}-names`}>
      <datalist id=${`${id}-names`}>${offered.map((text) => html`<option value=${text}></option>`)}</datalist> <button type="button" @click=${add}>Add to ${key}</button></div></fieldset>`;
}

/** A list of groups, or of plain texts, each with the keys that the reference has for it. */
function listFields(key: string, entry: KeyEntry, value: Plain | undefined, inner: Entries, place: Place): TemplateResult {
  const { block, apply } = place;
  const items = Array.isArray(value) ? value : [];
  const [first = 'key'] = Object.keys(inner);
  const fresh = `new-${items.length + 1}`;
  return html`<fieldset><legend><code>${key}</code></legend><p class="help">${shown(quoted(entry.means))}</p>
    ${items.map((item, i) => html`<fieldset><legend>${i + 1}</legend>${item instanceof Map
      ? Object.entries(inner).map(([name, one]) => {
          const text = item.get(name);
          if (NO_FIELD.test(one.takes)) return nothing;
          if (one.takes.startsWith('below it') || (text !== undefined && typeof text !== 'string')) return text === undefined ? nothing : inText(name, one);
          return field({ id: `${key}-${i}-${name}`, label: name, entry: one, value: text ?? '', set: (typed) => apply({ do: 'set in item', cellId: block.id, list: key, item: i, key: name, value: typed === '' ? undefined : typed }) }, place);
        })
      : html`<p>${typeof item === 'string' ? item : ''} <span class="help">It is written in the text above.</span></p>`}
      <button type="button" class="plain" aria-label=${`Take entry ${i + 1} out of ${key}`} @click=${() => apply({ do: 'remove item', cellId: block.id, list: key, item: i })}>take it out</button></fieldset>`)}
    <button type="button" @click=${() => apply({ do: 'add item', cellId: block.id, list: key, entries: new Map([[first, fresh.replace('-', '_')]]) })}>Add to ${key}</button></fieldset>`;
}
