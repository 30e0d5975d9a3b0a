import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdit, keysOf, KNOWN_KINDS, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import type { EditCommand } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { cellOf, changedRows, edited, fieldText, sheetLikeText } from './texts.ts';
import { cases as sized } from '../sizes.ts';

const worksheet = shipped('rotating-bending');
const given = (body: string) => `\`\`\`given\n${body}\`\`\`\n`;
const bodyOf = (text: string) => text.replace(/^```+given\n|```+\n$/g, '');

function set(body: string, key: string, value: string | undefined): string {
  return bodyOf(edited(given(body), { do: 'set key', cellId: 'd', key, value }));
}

/** Bodies of every way of writing a value, each with the key `note`. */
const BODIES: readonly string[] = [
  'symbol: d\nnote: old\nunit: mm\n',
  'symbol: d # sym\nnote: old   # why\n# above unit\nunit: mm\n',
  'symbol: d\nnote: "old"\nunit: mm\n',
  "symbol: d\nnote: 'old'\nunit: mm\n",
  'symbol: d\nnote:\nunit: mm\n',
  'symbol: d\nnote: # to do\nunit: mm\n',
  'symbol: d\nnote: |\n  old\n\n  text\n\n# above unit\nunit: mm\n',
  'symbol: d\nnote: >- # why\n  old\n  text\nunit: mm\n',
  'symbol: d\nnote: "old\n  text" # why\nunit: mm\n',
  'symbol: d\nnote:\n  old text\nunit: mm\n',
  'symbol: d\nnote: old\n  text\nunit: mm\n',
  'symbol: d\nnote: [a, b]\nunit: mm\n',
  'symbol: d\nnote:\n  - a\n  - b: c\n    d: |\n      x\n\n# above unit\nunit: mm\n',
  'symbol: d\nunit: mm\n',
  '# first\n\nsymbol: d\nunit: mm\n# last\n',
  '  symbol: d\n  note: old\n  unit: mm\n',
  '{symbol: d, note: old, unit: mm}\n',
  '{symbol: d, unit: mm}\n',
  'symbol: d\nbroken line\nnote: old\nunit: mm\n',
  'symbol: d\nnote: "old\nunit: mm\n',
  'symbol: d\nnote: > 0\nunit: mm\n',
  'symbol: d\nnote: a: b\nunit: mm\n',
  'symbol: d\nnote: *a\nunit: mm\n',
  'symbol: d\nnote: &a !!str old\nunit: mm\n',
];

describe('setting a key', () => {
  it('reads back exactly what was set, whatever stood there, and leaves every other key and line', () => {
    fc.assert(
      fc.property(fc.constantFrom(...BODIES), fieldText, fc.constantFrom('\n', '\r\n', '\r'), (body, value, end) => {
        const before = parseSheet(given(body).replaceAll('\n', end));
        const result = applyEdit(before, { do: 'set key', cellId: 'd', key: 'note', value });
        if (!result.ok) throw new Error(`${result.problem.code} for ${JSON.stringify(body)}`);
        const { cell, source } = cellOf(result.value, 'd');
        expect(cell.note ?? '').toBe(value);
        expect(cell).toMatchObject({ symbol: 'd', unit: 'mm' });
        expect(result.value.blocks.length).toBe(1);
        expect(cell.problems.filter(({ key }) => key === 'note')).toEqual([]);
        expect(source.replaceAll(end, '').replaceAll(/\\[rn]/g, '')).not.toMatch(end === '\n' ? /\r/ : end === '\r' ? /\n/ : /[\r\n]/);
        expect(parseSheet(serialiseSheet(result.value))).toEqual(result.value);
        const comments = ['# sym', '# above unit', '# first', '# last'].filter((comment) => body.includes(comment));
        expect(comments.filter((comment) => !source.includes(comment))).toEqual([]);
      }),
      { numRuns: sized(800) },
    );
  });

  it('takes a key out, with its lines and no others', () => {
    for (const body of BODIES) {
      const result = applyEdit(parseSheet(given(body)), { do: 'set key', cellId: 'd', key: 'note', value: undefined });
      if (!result.ok) throw new Error(`${result.problem.code} for ${JSON.stringify(body)}`);
      const { cell } = cellOf(result.value, 'd');
      expect(cell.note).toBeUndefined();
      expect(cell).toMatchObject({ symbol: 'd', unit: 'mm' });
      expect(changedRows(body, bodyOf(serialiseSheet(result.value))).added.length).toBeLessThanOrEqual(body.startsWith('{') ? 1 : 0);
    }
  });

  const cases: readonly (readonly [string, string, string | undefined, string])[] = [
    ['symbol: d\nvalue: 6 mm  # twice\nunit: mm\n', 'value', '7 mm', 'symbol: d\nvalue: 7 mm  # twice\nunit: mm\n'],
    ['symbol: d\nvalue: 6 mm  # twice\nunit: mm\n', 'value', '', 'symbol: d\nvalue:  # twice\nunit: mm\n'],
    ['symbol: d\nvalue:\n', 'value', '> 1', 'symbol: d\nvalue: "> 1"\n'],
    ['symbol: d\nlabel: "a"\n', 'label', 'b', 'symbol: d\nlabel: "b"\n'],
    ["symbol: d\nlabel: 'a'\n", 'label', "it's", "symbol: d\nlabel: 'it''s'\n"],
    ['symbol: d\nnote: |\n  a\n  b\n', 'note', 'a\nc\n', 'symbol: d\nnote: |\n  a\n  c\n'],
    ['symbol: d\nunit: mm\n', 'value', '6,35 mm', 'symbol: d\nvalue: 6,35 mm\nunit: mm\n'],
    ['symbol: d\nunit: mm\n', 'id', 'bar', 'id: bar\nsymbol: d\nunit: mm\n'],
    ['symbol: d\nunit: mm\n', 'colour', 'red', 'symbol: d\nunit: mm\ncolour: red\n'],
    ['symbol: d\nreadings: 1, 2 mm\nunit: mm\n', 'readings', undefined, 'symbol: d\nunit: mm\n'],
    ['symbol: d\nvalue: [1, 2] mm\nunit: mm\n', 'value', '[1, 2] mm', 'symbol: d\nvalue: "[1, 2] mm"\nunit: mm\n'],
    ['symbol: d\nvalue: "6\nunit: mm\n', 'unit', 'in', 'symbol: d\nvalue: "6\nunit: in\n'],
    ['symbol: d\nnote: C:\\x "y"\n', 'note', 'a: "\\"', 'symbol: d\nnote: \'a: "\\"\'\n'],
  ];
  it.each(cases)('%j with %s set to %j', (body, key, value, expected) => {
    expect(set(body, key, value)).toBe(expected);
  });

  it('changes one line of the standard worksheet for a new value of any given, and takes out that it was invented or assumed', () => {
    const document = parseSheet(worksheet);
    const givens = document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'given' ? [block.cell] : []));
    expect(givens.length).toBeGreaterThan(10);
    for (const { id, value, readings, origin } of givens) {
      const key = readings === undefined ? 'value' : 'readings';
      const after = edited(worksheet, { do: 'set key', cellId: id, key, value: '123.25 mm' });
      const source = cellOf(parseSheet(after), id).source;
      const rows = changedRows(cellOf(document, id).source, source);
      expect(rows.added).toEqual([expect.stringMatching(new RegExp(`^${key}: "?123\\.25 mm"?$`))]);
      expect(rows.gone.map((row) => row.split(':')[0])).toEqual([...(value === undefined && readings === undefined ? [] : [key]), ...(origin === undefined ? [] : ['origin'])]);
      expect(after.length - worksheet.length).toBe(source.length - cellOf(document, id).source.length);
    }
  });

  it('puts a new key where the order of the kind wants it', () => {
    for (const kind of KNOWN_KINDS) {
      const keys = keysOf(kind);
      let text = `\`\`\`${kind}\n\`\`\`\n`;
      for (const key of keys.toReversed()) {
        const [block] = parseSheet(text).blocks;
        text = edited(text, { do: 'set key', cellId: block?.id ?? '', key, value: key === 'id' ? 'x' : 'a_1' });
      }
      expect(text.match(/^\w+(?=:)/gm)).toEqual(keys);
    }
  });

  it('sets several keys in one step, or none of them', () => {
    const text = given('symbol: d\nreadings: 1, 2 mm\n');
    const values = new Map([['readings', undefined], ['value', '3 mm']]);
    expect(edited(text, { do: 'set keys', cellId: 'd', values })).toBe(given('symbol: d\nvalue: 3 mm\n'));
    const document = parseSheet(text);
    const failed = applyEdit(document, { do: 'set keys', cellId: 'd', values: new Map([['value', '1'], ['', 'x']]) });
    expect(failed).toMatchObject({ ok: false, problem: { code: 'key-empty', cell: 'd' } });
  });

  it('gives back the same document where nothing changes', () => {
    const document = parseSheet(given('symbol: d\nvalue: 6 mm\n'));
    const result = applyEdit(document, { do: 'set key', cellId: 'd', key: 'value', value: '6 mm' });
    expect(result.ok && result.value).toBe(document);
  });

  it('lengthens the fences where a text holds a line that would close them', () => {
    const after = edited('```remark\nheading: Aim\n```\n', { do: 'set key', cellId: 'remark-1', key: 'text', value: 'See\n```\ncode\n```\n' });
    expect(after).toBe('````remark\nheading: Aim\ntext: |\n  See\n  ```\n  code\n  ```\n````\n');
    expect(cellOf(parseSheet(after), 'remark-1').cell).toMatchObject({ text: 'See\n```\ncode\n```\n' });
  });

  it('tells why where it can not: no such cell, a text that can not be read, a text too long', () => {
    const document = parseSheet('```given\njust text\n```\n');
    const run = (command: EditCommand) => applyEdit(document, command);
    expect(run({ do: 'set key', cellId: 'gone', key: 'value', value: '1' })).toMatchObject({ ok: false, problem: { code: 'block-gone' } });
    expect(run({ do: 'set key', cellId: 'given-1', key: 'value', value: '1' })).toMatchObject({ ok: false, problem: { code: 'body-unreadable', key: 'value', cell: 'given-1' } });
    expect(run({ do: 'set body', cellId: 'given-1', body: 'x'.repeat(200_001) })).toMatchObject({ ok: false, problem: { code: 'too-long', cell: 'given-1' } });
    expect(applyEdit(parseSheet(given('? symbol\n: d\n')), { do: 'set key', cellId: 'd', key: 'symbol', value: 'e' })).toMatchObject({ ok: false, problem: { code: 'edit-unsafe' } });
  });

  it('never throws and never harms another block, on any text', () => {
    fc.assert(
      fc.property(sheetLikeText, fieldText, fc.constantFrom('value', 'symbol', 'items', 'zz: #'), (text, value, key) => {
        const document = parseSheet(text);
        for (const block of document.blocks) {
          const result = applyEdit(document, { do: 'set key', cellId: block.id, key, value });
          if (!result.ok) continue;
          const others = (blocks: typeof document.blocks, own: string | undefined) => blocks.map(({ source }) => source).filter((source) => source !== own);
          const index = document.blocks.indexOf(block);
          expect(others(result.value.blocks, result.value.blocks[index]?.source)).toEqual(others(document.blocks, block.source));
        }
      }),
      { numRuns: sized(400) },
    );
  });
});

describe('front matter', () => {
  const run = (text: string, key: string, value: string | undefined) => edited(text, { do: 'set front matter', key, value });

  it('sets, adds and takes out entries', () => {
    const text = '---\ntitle: A # name\nunits: SI\n---\nText\n';
    expect(run(text, 'title', 'B: C')).toBe('---\ntitle: "B: C" # name\nunits: SI\n---\nText\n');
    expect(run(text, 'team', 'T4')).toBe('---\ntitle: A # name\nunits: SI\nteam: T4\n---\nText\n');
    expect(run(text, 'title', undefined)).toBe('---\nunits: SI\n---\nText\n');
    expect(run(text, 'team', undefined)).toBe(text);
  });

  it('is made where there is none, below a byte order mark and with the line ends of the text', () => {
    expect(run('', 'team', 'T4')).toBe('---\nteam: T4\n---\n');
    expect(run('\uFEFFText\r\n', 'team', 'T4')).toBe('\uFEFF---\r\nteam: T4\r\n---\r\nText\r\n');
  });

  it('reads back any text', () => {
    fc.assert(
      fc.property(fieldText, fieldText.filter((key) => key !== ''), (value, key) => {
        const result = applyEdit(parseSheet('---\ntitle: A\n---\nText\n'), { do: 'set front matter', key, value });
        if (!result.ok) throw new Error(result.problem.what);
        expect(parseSheet(serialiseSheet(result.value)).frontMatter.entries.get(key)).toBe(value);
      }),
      { numRuns: sized(250) },
    );
  });
});

describe('checklists and choices', () => {
  const time = '2031-05-04T10:00:00+02:00';
  const list = (body: string) => `\`\`\`checklist\n${body}\`\`\`\n`;
  const tick = (body: string, item: number, at: string | undefined) =>
    edited(list(body), { do: 'tick', cellId: 'checklist-1', item, time: at }).replace(/^```checklist\n|```\n$/g, '');

  it('ticks plain items and groups, and opens them again', () => {
    expect(tick('items:\n  - Guard closed # c\n  - Zeroed\n', 0, time)).toBe(`items:\n  - text: Guard closed # c\n    done: ${time}\n  - Zeroed\n`);
    expect(tick('items:\n- text: a\n- text: b\n', 1, time)).toBe(`items:\n- text: a\n- text: b\n  done: ${time}\n`);
    expect(tick(`items:\n- text: a\n  done: ${time}\n- b\n`, 0, undefined)).toBe('items:\n- text: a\n- b\n');
    expect(tick(`items:\n- done: ${time}\n  text: a\n`, 0, undefined)).toBe('items:\n- done:\n  text: a\n');
    expect(tick('items: [a, b]\n', 1, time)).toBe(`items: [a, {text: b, done: "${time}"}]\n`);
    expect(tick('items:\n- a\n', 0, undefined)).toBe('items:\n- a\n');
  });

  it('ticks items of any text and leaves the others', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', '"b: c"', "'d'", '|\n  e\n  f\n', '{text: g}', '{text: "h", done: x}', 'text: i', '"j\n  k"', 'l\n  m'), { minLength: 1, maxLength: 5 }), fc.nat(), (sources, n) => {
        const text = list(`items:\n${sources.map((source) => `- ${source.replace(/\n$/, '')}\n`).join('')}`);
        const before = cellOf(parseSheet(text), 'checklist-1').cell;
        if (before.kind !== 'checklist') throw new Error('no checklist');
        const item = n % sources.length;
        const after = cellOf(parseSheet(edited(text, { do: 'tick', cellId: 'checklist-1', item, time })), 'checklist-1').cell;
        expect(after).toEqual({ ...before, items: before.items.map((old, i) => (i === item ? { text: old.text, done: time } : old)) });
      }),
    );
  });

  it('tells where an item or an option is gone', () => {
    expect(applyEdit(parseSheet(list('items: [a]\n')), { do: 'tick', cellId: 'checklist-1', item: 1, time })).toMatchObject({ ok: false, problem: { code: 'item-missing', cell: 'checklist-1' } });
    const choice = parseSheet('```choice\nid: m\nchosen: a\noptions:\n- key: a\n- key: b\n```\n');
    expect(applyEdit(choice, { do: 'choose', cellId: 'm', option: 'c' })).toMatchObject({ ok: false, problem: { code: 'option-gone', cell: 'm' } });
    const chosen = applyEdit(choice, { do: 'choose', cellId: 'm', option: 'b' });
    expect(chosen.ok && serialiseSheet(chosen.value)).toBe('```choice\nid: m\nchosen: b\noptions:\n- key: a\n- key: b\n```\n');
  });
});
