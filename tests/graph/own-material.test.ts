/** Materials of the reader's own: what is read of one, what is none, and the option that it is in a sheet. */
import { describe, expect, test } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import {
  differencesOf, entriesOf, isOfferedAt, kindLike, kindsAt, MATERIAL_VALUES, materialOf, optionFor, readMaterial, readMaterialValue, type OwnMaterial,
} from '../../src/graph/own-material.ts';
import { applyEdit, cellsOf, parseSheet, serialiseSheet, type ChoiceCell, type SheetDocument } from '../../src/sheet/index.ts';
import { neutral } from '../shipped.ts';

const entries = (changes: Readonly<Record<string, string>> = {}): ReadonlyMap<string, string> =>
  new Map(Object.entries({ name: 'Heat 7', kind: 'steel', S_ut: '655 MPa ± 2 %', S_y: '540 MPa', E: '205 GPa', hardness: '197 HB', ...changes }));

function material(changes: Readonly<Record<string, string>> = {}): OwnMaterial {
  const read = readMaterial(entries(changes), 'our test (invented)');
  if (read === undefined) throw new Error('no material');
  return read;
}

function choiceIn(document: SheetDocument): ChoiceCell {
  const choice = cellsOf(document, 'choice').find(({ id }) => id === 'material');
  if (choice === undefined) throw new Error('no choice of material');
  return choice;
}

const sheetOf = (name: string): SheetDocument => parseSheet(neutral(name));

describe('a value of a material', () => {
  test.each([
    ['S_ut', '655', '655 MPa'], ['S_ut', '655 ± 2 %', '655 MPa ± 2 %'], ['S_ut', '655 ± 13', '655 ± 13 MPa'], ['S_ut', '95 ksi', '95 ksi'],
    ['S_ut', ' 655 MPa ± 2 % ', '655 MPa ± 2 %'], ['E', '205', '205 GPa'],
  ])('%s %s has its unit', (symbol, typed, written) => {
    const value = MATERIAL_VALUES.find((one) => one.symbol === symbol);
    expect(value && readMaterialValue(value, typed)).toEqual({ ok: true, value: written });
  });

  test.each(['abc', '-3 MPa', '0', '12 mm', '', '9'.repeat(5000)])('is none: %s', (typed) => {
    expect(MATERIAL_VALUES[0] && readMaterialValue(MATERIAL_VALUES[0], typed).ok).toBe(false);
  });
});

describe('what is said of a material', () => {
  test('reads back as it was', () => {
    expect(readMaterial(entriesOf(material()), 'our test (invented)')).toEqual(material());
  });

  test.each<[string, Readonly<Record<string, string>>]>([
    ['no name', { name: ' ' }], ['a name without end', { name: 'x'.repeat(81) }], ['an unknown kind', { kind: '<script>' }], ['no strength', { S_ut: '' }],
    ['a strength that is none', { S_ut: '=1+1' }], ['a length for a modulus', { E: '3 mm' }], ['a hardness without end', { hardness: '9'.repeat(100) }],
  ])('is none with %s', (_what, changes) => {
    expect(readMaterial(entries(changes), '')).toBeUndefined();
  });

  test('differs in words', () => {
    expect(differencesOf(material(), material({ S_ut: '640 MPa', hardness: '' }))).toEqual([
      { label: 'tensile strength', here: '655 MPa ± 2 %', there: '640 MPa' }, { label: 'hardness', here: '197 HB', there: '' },
    ]);
  });
});

describe('at the choice of a sheet', () => {
  test('it can be entered in the sheets that offer a material, of the kinds that fit there', () => {
    expect(['rotating-bending', 'alternating-bending', 'specimen', 'staircase'].map((name) => cellsOf(sheetOf(name), 'choice').flatMap((choice) => kindsAt(choice))))
      .toEqual([['steel', 'aluminium'], ['steel', 'aluminium'], ['steel'], []]);
    expect(isOfferedAt(choiceIn(sheetOf('specimen')), material({ kind: 'aluminium' }))).toBe(false);
  });

  test.each([
    ['steel', {}, 'c_e*min(0.5*S_ut, 700*unit(MPa))', '10^6'],
    ['steel', { S_n: '310 ± 15 MPa' }, 'S_n', '10^6'],
    ['aluminium', { kind: 'aluminium', S_n: '90 ± 9 MPa' }, 'S_n', '5*10^8'],
  ] as const)('%s %j brings its limit, as its kind has it', (_kind, changes, limit, life) => {
    const option = optionFor(material(changes), choiceIn(sheetOf('rotating-bending')), sheetOf('rotating-bending'));
    expect([option?.sets.get('S_ut'), option?.sets.get('S_e0'), option?.sets.get('N_e')]).toEqual(['655 MPa ± 2 %', limit, life]);
    expect(option?.note).toMatch(/^Hardness 197 HB\./u);
  });

  test('it goes with the text of the sheet, fills it, keeps what this sheet does not read, and is not offered again', async () => {
    const sheet = sheetOf('specimen');
    const option = optionFor(material(), choiceIn(sheet), sheet);
    const added = option && applyEdit(sheet, { do: 'together', commands: [
      { do: 'add option', cellId: 'material', option: { key: 'heat-7', ...option } }, { do: 'choose', cellId: 'material', option: 'heat-7' },
    ] });
    if (added?.ok !== true) throw new Error('not added');
    const again = parseSheet(serialiseSheet(added.value));
    const choice = choiceIn(again);
    const there = choice.options.at(-1);
    expect(there && materialOf(there)).toEqual(material());
    expect(isOfferedAt(choice, material())).toBe(false);
    expect(isOfferedAt(choice, material({ S_ut: '640 MPa' }))).toBe(true);
    expect(optionFor(material({ S_ut: '640 MPa' }), choice, again)?.label).toBe('Heat 7, as this browser keeps it');
    expect(kindLike(choice, there)).toBe('steel');
    const graph = createSheetGraph(again);
    const strength = (await graph.settled()).symbol('S_ut');
    graph.dispose();
    expect(strength?.status === 'value' && strength.estimate.value).toBe(655e6);
  });
});
