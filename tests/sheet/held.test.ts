/** States held in the front matter: written, renamed, dropped and gone back to without touching anything else; hostile lists are told. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  applyEdit, cellsOf, createHistory, enterText, goBackTo, heldInputsOf, inputsOf, parseSheet, serialiseSheet, sharedInputs, tablesApart, tablesNotHeld, withInputs, type EditCommand, type SheetDocument,
} from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';

const SHEET = `---
title: Two blanks # ours
# a comment that stays
units: SI
---
\`\`\`given
symbol: d
readings: 6.31, 6.33 mm
unit: mm
\`\`\`

\`\`\`given
symbol: F
value: 200 N
unit: N
\`\`\`

\`\`\`given
symbol: S_ut
unit: MPa
\`\`\`

\`\`\`choice
id: material
chosen: steel
options:
  - key: steel
    label: Steel
    sets:
      S_ut: 630 MPa
  - key: other
    label: Other
    sets:
      S_ut: 500 MPa
\`\`\`
`;

function edited(document: SheetDocument, command: EditCommand): SheetDocument {
  const result = applyEdit(document, command);
  if (!result.ok) throw new Error(result.problem.what);
  return result.value;
}

function refused(document: SheetDocument, command: EditCommand): string {
  const result = applyEdit(document, command);
  return result.ok ? '' : result.problem.code;
}

const hold = (document: SheetDocument, name: string): SheetDocument =>
  edited(document, { do: 'hold', state: { name, at: '2026-11-25T15:30:00+00:00', inputs: inputsOf(document) } });

describe('a held state', () => {
  test('brought back has its values from where they came: assumed and of the example, or the reader’s own', () => {
    const document = parseSheet(SHEET.replace('value: 200 N', 'value: 200 N\norigin: assumed').replace('chosen: steel', 'chosen: steel\norigin: example'));
    const held = edited(document, { do: 'hold', state: { name: 'as it was', ...heldInputsOf(document) } });
    const origins = (sheet: SheetDocument): readonly unknown[] => [...cellsOf(sheet, 'given'), ...cellsOf(sheet, 'choice')].map(({ origin }) => origin);
    expect(origins(held)).toEqual([undefined, 'assumed', undefined, 'example']);
    const own = ['F=210 N', 'material=other', 'd=7 mm'].reduce((sheet, entry) => {
      const [target = '', text = ''] = entry.split('=');
      const entered = enterText(sheet, target, text);
      if (!entered.ok) throw new Error(entered.problem.what);
      return entered.value;
    }, held);
    expect(origins(own)).toEqual([undefined, undefined, undefined, undefined]);
    const [state] = parseSheet(serialiseSheet(own)).frontMatter.held;
    if (state === undefined) throw new Error('nothing held');
    const back = edited(own, goBackTo(own, state));
    expect(origins(back)).toEqual([undefined, 'assumed', undefined, 'example']);
    expect([...inputsOf(back)]).toEqual([...inputsOf(document)]);
    // A state of before origins were held says nothing of them.
    const old = edited(own, goBackTo(own, { inputs: state.inputs }));
    expect(origins(old)).toEqual([undefined, undefined, undefined, undefined]);
  });

  test('holds what the blanks and choices say, empty ones too, as --set takes it', () => {
    const inputs = inputsOf(parseSheet(SHEET));
    expect([...inputs]).toEqual([['d', '[6.31, 6.33 mm]'], ['F', '200 N'], ['S_ut', ''], ['material', 'steel']]);
  });

  test('stands in the front matter as lines of text; all else stays byte for byte, and dropping it gives the text of before', () => {
    const before = parseSheet(SHEET);
    const one = hold(before, 'as built');
    expect(serialiseSheet(one)).toBe(SHEET.replace('units: SI\n', `units: SI
held:
  - name: as built
    at: 2026-11-25T15:30:00+00:00
    inputs:
      d: "[6.31, 6.33 mm]"
      F: 200 N
      S_ut:
      material: steel
`));
    expect(one.frontMatter.held).toEqual([{ name: 'as built', at: '2026-11-25T15:30:00+00:00', inputs: inputsOf(before) }]);
    expect(one.frontMatter.problems).toEqual([]);
    const two = hold(one, 'second: “#2”');
    expect(two.frontMatter.held.map(({ name }) => name)).toEqual(['as built', 'second: “#2”']);
    expect(serialiseSheet(edited(edited(two, { do: 'drop held', name: 'as built' }), { do: 'drop held', name: 'second: “#2”' }))).toBe(SHEET);
  });

  test('is made in a sheet without front matter, and with Windows line ends', () => {
    const bare = SHEET.slice(SHEET.indexOf('```given'));
    expect(hold(parseSheet(bare), 'x').frontMatter.held.length).toBe(1);
    const windows = SHEET.replaceAll('\n', '\r\n');
    const held = hold(parseSheet(windows), 'x');
    expect(serialiseSheet(held)).not.toMatch(/[^\r]\n/);
    expect(serialiseSheet(edited(held, { do: 'drop held', name: 'x' }))).toBe(windows);
  });

  test('keeps comments and keys that are not understood when another is renamed or dropped', () => {
    const text = SHEET.replace('units: SI\n', 'units: SI\nheld:\n  - name: a # first\n    colour: red\n    inputs:\n      d: 7 mm\n  # between\n  - name: b\n    inputs: {F: 1 N}\nheld_reference: b\n');
    const document = parseSheet(text);
    expect(document.frontMatter.problems.map(({ code }) => code)).toEqual(['held-key-unknown']);
    const renamed = edited(document, { do: 'rename held', name: 'b', to: 'c' });
    expect(serialiseSheet(renamed)).toBe(text.replace('name: b', 'name: c').replace('held_reference: b', 'held_reference: c'));
    const dropped = edited(document, { do: 'drop held', name: 'b' });
    expect(dropped.frontMatter.entries.has('held_reference')).toBe(false);
    expect(serialiseSheet(dropped)).toContain('  - name: a # first\n    colour: red\n');
  });

  test('is refused without a name, with a taken or an endless one, and when too many are held', () => {
    const document = hold(parseSheet(SHEET), 'a');
    const state = (name: string): EditCommand => ({ do: 'hold', state: { name, inputs: new Map() } });
    expect(refused(document, state('  '))).toBe('hold-no-name');
    expect(refused(document, state(' a '))).toBe('hold-name-taken');
    expect(refused(document, state('x'.repeat(61)))).toBe('hold-name-long');
    expect(refused(document, { do: 'rename held', name: 'b', to: 'c' })).toBe('held-gone');
    const full = parseSheet(SHEET.replace('units: SI\n', `units: SI\nheld:\n${Array.from({ length: 1000 }, (_, i) => `  - name: n${i}`).join('\n')}\n`));
    expect(full.frontMatter.held.length).toBe(1000);
    expect(refused(full, state('one more'))).toBe('hold-too-many');
  });

  test('going back is one step to undo, and sets what was held, an empty blank and a choice included', () => {
    const history = createHistory(hold(parseSheet(SHEET), 'a'));
    const state = history.document.frontMatter.held[0];
    if (state === undefined) throw new Error('nothing held');
    for (const [target, text] of [['d', '7 mm'], ['S_ut', '700 MPa'], ['material', 'other']] as const) {
      const entered = enterText(history.document, target, text);
      if (!entered.ok) throw new Error(entered.problem.what);
      const block = entered.value.blocks.find((one, i) => one !== history.document.blocks[i]);
      if (block === undefined) throw new Error('nothing entered');
      history.apply({ do: 'set source', blockId: block.id, source: block.source });
    }
    const changed = serialiseSheet(history.document);
    history.apply(goBackTo(history.document, state));
    expect(inputsOf(history.document)).toEqual(state.inputs);
    history.undo();
    expect(serialiseSheet(history.document)).toBe(changed);
  });

  test('what a sheet does not have any more is told and stays held', () => {
    const text = SHEET.replace('units: SI\n', 'units: SI\nheld:\n  - name: a\n    inputs:\n      d: 7 mm\n      gone: 3 N\n      material: bronze\n');
    const document = parseSheet(text);
    const state = document.frontMatter.held[0];
    if (state === undefined) throw new Error('nothing held');
    const { problems, document: put } = withInputs(document, state);
    expect(problems.map(({ code }) => code)).toEqual(['enter-unknown', 'enter-option']);
    expect(inputsOf(put).get('d')).toBe('7 mm');
    expect(serialiseSheet(document)).toBe(text);
  });
});

const SERIES = `---
title: Series
---
\`\`\`table
id: series
columns:
  - key: S
    unit: MPa
  - key: N
rows: |
  S / MPa,N
  400,100000
  350,"300 000"
\`\`\`

\`\`\`table
id: open
columns:
  - key: x
\`\`\`
`;

describe('rows of tables in a held state', () => {
  const holdAll = (document: SheetDocument, name: string): SheetDocument => edited(document, { do: 'hold', state: { name, ...heldInputsOf(document) } });

  test('stand below its inputs as lines of text, and dropping the state gives the text of before', () => {
    const held = holdAll(parseSheet(SERIES), 'A');
    expect(serialiseSheet(held)).toBe(SERIES.replace('title: Series\n', `title: Series
held:
  - name: A
    inputs:
    rows:
      series: |
        S / MPa,N
        400,100000
        350,"300 000"
      open:
`));
    expect(held.frontMatter.problems).toEqual([]);
    expect([...(held.frontMatter.held[0]?.rows ?? [])]).toEqual([['series', 'S / MPa,N\n400,100000\n350,"300 000"\n'], ['open', '']]);
    expect(serialiseSheet(edited(held, { do: 'drop held', name: 'A' }))).toBe(SERIES);
    const windows = parseSheet(SERIES.replaceAll('\n', '\r\n'));
    expect(serialiseSheet(holdAll(windows, 'A'))).not.toMatch(/[^\r]\n/);
    expect(withInputs(windows, heldInputsOf(parseSheet(SERIES))).document).toBe(windows);
  });

  test('going back puts them back in one step to undo, those of an empty table too, and touches nothing else', () => {
    const history = createHistory(holdAll(parseSheet(SERIES), 'A'));
    const before = serialiseSheet(history.document);
    const state = history.document.frontMatter.held[0];
    if (state === undefined) throw new Error('nothing held');
    history.apply({ do: 'set table cell', cellId: 'series', row: 2, column: 'S', text: '300' });
    history.apply({ do: 'replace rows', cellId: 'open', text: 'x\n1\n' });
    const changed = serialiseSheet(history.document);
    expect(changed).not.toBe(before);
    history.apply(goBackTo(history.document, state));
    expect(heldInputsOf(history.document)).toEqual({ origins: new Map(), inputs: state.inputs, rows: state.rows });
    expect(serialiseSheet(history.document).replace('rows:\n```', '```')).toBe(before);
    history.undo();
    expect(serialiseSheet(history.document)).toBe(changed);
  });

  test('of another sheet come only from tables that both have; a table that is gone is told; long ones are not held', () => {
    const [own, other] = [parseSheet(SERIES.replace('id: open', 'id: else')), parseSheet(SERIES)];
    expect([...(sharedInputs(other, own).rows?.keys() ?? [])]).toEqual(['series']);
    expect(withInputs(own, heldInputsOf(other)).problems.map(({ code }) => code)).toEqual(['table-gone']);
    const long = parseSheet(SERIES.replace('  400,100000\n', '  400,100000\n'.repeat(1500)));
    expect([...(heldInputsOf(long).rows?.keys() ?? [])]).toEqual(['open']);
    expect(tablesNotHeld(long).map(({ id }) => id)).toEqual(['series']);
    expect(tablesApart(long, other).map(({ id }) => id)).toEqual(['series']);
    expect([...tablesApart(long, long), ...tablesApart(other, long)]).toEqual([]);
  });
});

describe('a hostile list', () => {
  const LISTS: readonly (readonly [string, readonly string[]])[] = [
    ['held: everything', ['held-no-list']],
    ['held: {name: a}', ['held-no-list']],
    ['held:\n  - just text', ['held-no-name']],
    ['held:\n  - inputs: {d: 1 mm}', ['held-no-name']],
    ['held:\n  - name: a\n  - name: a', ['held-name-twice']],
    ['held:\n  - name: a\n    inputs: all of them', ['held-inputs']],
    ['held:\n  - name: a\n    inputs:\n      d: [1, 2]', ['held-inputs']],
    [`held:\n${Array.from({ length: 1001 }, (_, i) => `  - name: n${i}`).join('\n')}`, ['held-too-many']],
    [`held:\n  - name: ${'y'.repeat(2000)}`, ['held-name-long']],
    ['held:\n  - name: a\n    rows: all of them', ['held-rows']],
    ['held:\n  - name: a\n    rows: {series: [1, 2]}', ['held-rows']],
    [`held:\n  - name: a\n    rows:\n      series: "${'7,'.repeat(6000)}"`, ['held-rows']],
    [`held:\n  - name: a\n    inputs:\n${Array.from({ length: 1200 }, (_, i) => `      s_${i}: 1`).join('\n')}`, ['held-inputs']],
  ];
  test.each(LISTS)('%.40s… is told and kept', (list, codes) => {
    const text = SHEET.replace('units: SI\n', `units: SI\n${list}\n`);
    const document = parseSheet(text);
    expect(document.frontMatter.problems.map(({ code }) => code)).toEqual(codes);
    expect(serialiseSheet(document)).toBe(text);
    expect(document.frontMatter.held.length).toBeLessThanOrEqual(1000);
  });

  test('`held:` with nothing behind it holds nothing and is no mistake', () => {
    const document = parseSheet(SHEET.replace('units: SI\n', 'units: SI\nheld:\n'));
    expect([document.frontMatter.held, document.frontMatter.problems]).toEqual([[], []]);
    expect(hold(document, 'a').frontMatter.held.length).toBe(1);
  });

  test('any name and any texts read back as they were held', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', minLength: 1, maxLength: 30 }), fc.dictionary(fc.string({ minLength: 1, maxLength: 8 }), fc.string({ maxLength: 20 })), (name, inputs) => {
      fc.pre(name.trim() !== '' && !Object.hasOwn(inputs, '__proto__'));
      const state = { name, inputs: new Map(Object.entries(inputs)) };
      const result = applyEdit(parseSheet(SHEET), { do: 'hold', state });
      if (!result.ok) return result.problem.code === 'edit-unsafe';
      const [read] = result.value.frontMatter.held;
      expect(read?.name).toBe(name.trim());
      expect([...(read?.inputs ?? [])].filter(([, text]) => text !== '')).toEqual([...state.inputs].filter(([, text]) => text !== ''));
      return true;
    }), { numRuns: 150, seed: 7 });
  });
});

describe('the sheets as they are delivered', () => {
  test.each(['rotating-bending', 'alternating-bending'])('%s: held, it reads back, with nothing to mend in its head', (name) => {
    const document = parseSheet(shipped(name));
    const held = hold(document, 'Team T4');
    expect(held.frontMatter.held[0]?.inputs).toEqual(inputsOf(document));
    expect(held.frontMatter.problems).toEqual(document.frontMatter.problems);
    expect(withInputs(held, heldInputsOf(document))).toEqual({ document: held, problems: [] });
  });
});
