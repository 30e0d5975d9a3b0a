/** The reference of the language is what the readers do: keys, defaults and what is said of a wrong value, by reading sheets. */
import { describe, expect, it, test } from 'vitest';
import { FINDINGS_FORMS } from '../../src/graph/findings/index.ts';
import { ASKS, DRAWINGS, INNER_PARTS, KINDS, keysOf, parseSheet, type KeyEntry } from '../../src/sheet/index.ts';
import { CELL_READERS } from '../../src/sheet/cell-readers.ts';
import { anyFieldsOf, type Fields } from '../../src/sheet/fields.ts';
import { FINDS_WORDS, FIT_WORDS } from '../../src/sheet/table/read-fit-cell.ts';
import { COLUMN_TYPES } from '../../src/sheet/table/read-table-cell.ts';
import { RECORD_FILLS, RECORD_SYMBOLS, RECORD_WATCHES } from '../../src/sheet/keys.ts';
import { PHOTO_READINGS } from '../../src/sheet/photo/readings.ts';
import { LEVER_ROLES, SPECIMEN_ROLES, STRIP_ROLES } from '../../src/figures/drawings/index.ts';
import { PUBLISHED } from '../../src/graph/fit/published.ts';
import { readRecord } from '../../src/graph/record/read-record.ts';
import { languageChapter } from './language-chapter.ts';
import { PLACES, said, type Place } from './language-sheets.ts';
import { fenced } from './sheet-at.ts';

type Listed = readonly [title: string, place: Place, key: string, entry: KeyEntry];

const ENTRIES = PLACES.flatMap((place) => Object.entries(place.keys).map(([key, entry]): Listed => [`${place.name}: ${key}`, place, key, entry]));
const plain = (sentence: string): string => sentence.replaceAll('`', '');

/** Where a missing key is told in words of its own. */
const MISSING: Readonly<Record<string, string>> = { 'slip: formula': 'The slip radius has no formula yet.', 'held state: name': 'A held state has no name.' };

describe('the reference of the language', () => {
  test.each(ENTRIES.filter(([, , , { wrong }]) => wrong !== undefined))('says what is said of a wrong value: %s', async (_title, { sheet }, key, { wrong }) => {
    expect(await said(sheet(key, wrong?.typed))).toContain(plain(wrong?.said ?? ''));
  });

  test.each(ENTRIES.filter(([, , , { required }]) => required !== undefined))('says what has to be there: %s', async (title, { name, sheet }, key) => {
    expect(await said(sheet(key, undefined))).toContain(MISSING[title] ?? `This ${name} has no ${key} yet.`);
  });

  test.each(ENTRIES.filter(([, , , { same }]) => same !== undefined))('states the default that counts: %s', async (_title, { sheet }, key, { same, wrong }) => {
    const without = await said(sheet(key, undefined));
    expect(await said(sheet(key, same))).toBe(without);
    // And it is a key that says something.
    expect(await said(sheet(key, wrong?.typed ?? 'd'))).not.toBe(without);
  });

  test('states the defaults of a counter', () => {
    const [block] = parseSheet(fenced('record', 'counter_start: 0')).blocks;
    expect(block?.kind === 'cell' && block.cell.kind === 'record' ? readRecord(block.cell) : undefined).toMatchObject({ multiplier: 1, digits: 6 });
    expect([KINDS.record.keys.counter_multiplier.usual, KINDS.record.keys.counter_digits.usual]).toEqual(['1', '6']);
  });

  test.each(Object.keys(KINDS) as (keyof typeof KINDS)[])('has every key that the reader of a %s reads, and no other', (kind) => {
    // Those of every cell; a remark's heading stands in place of a label.
    const read = new Set(['id', 'note', ...(kind === 'remark' ? [] : ['label'])]);
    const fields = anyFieldsOf({ kind: 'group', row: 0, entries: new Map() }, kind, []);
    const noting = Object.fromEntries(Object.entries(fields).map(([name, take]) => [name, (key: string, ...rest: unknown[]) => {
      if (name !== 'tell' && name !== 'unknownBelow') read.add(key);
      return (take as (...all: unknown[]) => unknown)(key, ...rest);
    }])) as unknown as Fields;
    CELL_READERS[kind](noting, []);
    for (const shared of ['origin', 'per_specimen']) if (keysOf(kind).includes(shared)) read.add(shared);
    expect([...read].toSorted()).toEqual([...keysOf(kind)].toSorted());
  });

  it('knows every word that a key takes', () => {
    const fit = KINDS.fit.keys;
    const words: readonly (readonly [string, readonly string[]])[] = [
      [fit.finds.takes, FINDS_WORDS], [fit.method.takes, FIT_WORDS.method], [fit.life.takes, FIT_WORDS.life], [fit.model.takes, FIT_WORDS.model], [fit.stress.takes, FIT_WORDS.stress],
      [fit.symbols.takes, PUBLISHED], [INNER_PARTS.table?.[0]?.keys['type']?.takes ?? '', COLUMN_TYPES], [KINDS.photo.keys.symbols.takes, PHOTO_READINGS],
      [KINDS.record.keys.watches.takes, RECORD_WATCHES], [KINDS.record.keys.fills.takes, RECORD_FILLS], [`${KINDS.record.keys.symbols.takes}${KINDS.record.keys.watches.takes}`, RECORD_SYMBOLS],
    ];
    for (const [takes, known] of words) expect(known.filter((word) => !takes.includes(`\`${word}\``))).toEqual([]);
  });

  test.each(Object.keys(ASKS) as (keyof typeof ASKS)[])('knows what can be asked of %s, and what that gives', (find) => {
    const { asks, published } = FINDINGS_FORMS[find];
    expect(Object.keys(ASKS[find].keys)).toEqual(asks.map(({ name }) => name));
    expect(published.filter((name) => !ASKS[find].says.includes(`\`${name}\``))).toEqual([]);
    for (const ask of asks) expect([ask.name, 'usual' in ask && ask.usual !== undefined]).toEqual([ask.name, 'same' in (ASKS[find].keys as Readonly<Record<string, KeyEntry>>)[ask.name]!]);
  });

  it('knows every drawing and its parts', async () => {
    const listed = /Choose one of: ([^.]*)\./.exec(await said(fenced('figure', 'drawing: nothing')))?.[1]?.split(', ') ?? [];
    expect(listed.length).toBeGreaterThan(10);
    expect(listed.filter((name) => !KINDS.figure.keys.drawing.takes.includes(`\`${name}\``))).toEqual([]);
    expect(Object.keys(DRAWINGS).flatMap((names) => names.split(', ')).filter((name) => !listed.includes(name))).toEqual([]);
    const parts = INNER_PARTS.figure ?? [];
    const keysOfDrawing = (name: string): readonly string[] => Object.keys(parts.find(({ title }) => title.includes(name))?.keys ?? {});
    expect([keysOfDrawing('loading-lever'), keysOfDrawing('stress-along-axis'), keysOfDrawing('plane-bending')]).toEqual([LEVER_ROLES, SPECIMEN_ROLES, STRIP_ROLES]);
  });

  it('is what the chapter says: `npm run language` writes it anew', async () => {
    await expect(languageChapter()).toMatchFileSnapshot('../../LANGUAGE.md');
  });
});
