import MarkdownIt from 'markdown-it';
import fc from 'fast-check';
import { parse as parseYaml } from 'yaml';
import { describe, expect, it } from 'vitest';
import { parseSheet } from '../../src/sheet/index.ts';
import type { CellBlock } from '../../src/sheet/index.ts';
import { cellOf } from './texts.ts';

function only(source: string): CellBlock {
  const [block, ...more] = parseSheet(source).blocks;
  if (block?.kind !== 'cell' || more.length > 0) throw new Error('not one cell');
  return block;
}

const cell = (kind: string, body: string) => only(`\`\`\`${kind}\n${body}\`\`\`\n`).cell;

describe('cells, typed', () => {
  it('keeps everything as typed: numbers are text', () => {
    const body = 'symbol: d\nvalue: 007\nreadings: 6,35 mm\nlimit: 1e3\nresolution: 0x10\nlabel: null\nnote: ~\npossible: true\nplausible: 2 mm .. 20 mm\n';
    expect(cell('given', body)).toEqual({
      kind: 'given', id: 'd', symbol: 'd', unit: '', value: '007', readings: '6,35 mm', limit: '1e3', resolution: '0x10',
      label: 'null', note: '~', possible: 'true', plausible: '2 mm .. 20 mm', unknownKeys: [], problems: [],
    });
  });

  it('reads every key of a given', () => {
    const body =
      'symbol: F\nlabel: Load\nvalue: 200 N\nreadings: 1, 2 N\nunit: N\ninstrument: load cell\nresolution: 1 N\nlimit: 1 %\ndistribution: triangular\nplausible: 1 N .. 500 N\npossible: ">= 0"\ntogether: pair\ncorrelated: {d: 0.5, L: -0.1}\nnote: why\n';
    expect(cell('given', body)).toEqual({
      kind: 'given', id: 'F', symbol: 'F', label: 'Load', value: '200 N', readings: '1, 2 N', unit: 'N', instrument: 'load cell', resolution: '1 N',
      limit: '1 %', distribution: 'triangular', plausible: '1 N .. 500 N', possible: '>= 0', together: 'pair', note: 'why',
      correlated: new Map([['d', '0.5'], ['L', '-0.1']]), unknownKeys: [], problems: [],
    });
  });

  it('reads every key of a step', () => {
    const body =
      'symbol: N_f\nlabel: Life\nformula: >-\n  A +\n  B\nby: line\nunit: cycles\nasked: false\nanswer: 5e4\nvalid_if: S > 0\notherwise: Lower it.\nranges:\n  below limit: S < S_e\n  low cycle: S > 1\nspread: factor\nclock: t_lo , t_hi\n';
    expect(cell('step', body)).toEqual({
      kind: 'step', id: 'N_f', symbol: 'N_f', label: 'Life', formula: 'A + B', by: 'line', unit: 'cycles', asked: false, answer: '5e4',
      validIf: 'S > 0', otherwise: 'Lower it.', ranges: new Map([['below limit', 'S < S_e'], ['low cycle', 'S > 1']]), spread: 'factor',
      clock: ['t_lo', 't_hi'], unknownKeys: [], problems: [],
    });
  });

  it('reads choices, also ranges that an option sets', () => {
    const body =
      'id: line\nlabel: Line\nchosen: a\noptions:\n  - key: a\n    label: Estimated\n    sets:\n      A: x + 1\n    ranges:\n      N_f: {low cycle: S > 1}\n    source: book\n    note: n\n  - {key: b, missing: Bring in a fit first.}\n';
    expect(cell('choice', body)).toEqual({
      kind: 'choice', id: 'line', label: 'Line', chosen: 'a', unknownKeys: [], problems: [],
      options: [
        { key: 'a', label: 'Estimated', sets: new Map([['A', 'x + 1']]), ranges: new Map([['N_f', new Map([['low cycle', 'S > 1']])]]), source: 'book', note: 'n' },
        { key: 'b', label: 'b', sets: new Map(), missing: 'Bring in a fit first.' },
      ],
    });
  });

  it('reads checks, figures, checklists and remarks', () => {
    expect(cell('check', 'condition: a < b\nholds: Yes.\notherwise: "No: stop."\n')).toMatchObject({ kind: 'check', condition: 'a < b', holds: 'Yes.', otherwise: 'No: stop.' });
    expect(cell('figure', 'drawing: free-body\nvalues:\n  span: L\n')).toMatchObject({ kind: 'figure', drawing: 'free-body', values: new Map([['span', 'L']]) });
    expect(cell('checklist', 'items:\n- Guard closed\n- text: Zeroed\n  done: 2031-05-04T10:00:00+02:00\n- text: Open\n  done:\n')).toMatchObject({
      kind: 'checklist', items: [{ text: 'Guard closed' }, { text: 'Zeroed', done: '2031-05-04T10:00:00+02:00' }, { text: 'Open' }],
    });
    expect(cell('remark', 'heading: Aim\ntext: |\n  One.\n\n  Two.\n')).toMatchObject({ kind: 'remark', heading: 'Aim', text: 'One.\n\nTwo.\n' });
  });

  it('keeps unknown keys and tells them, also those inside lists', () => {
    expect(cell('given', 'symbol: d\ncolour: red\n__proto__: x\n').unknownKeys.map(({ key }) => key)).toEqual(['colour', '__proto__']);
    expect(cell('checklist', 'items:\n- {text: a, who: me}\n').unknownKeys.map(({ key }) => key)).toEqual(['item 1: who']);
    expect(cell('choice', 'chosen: a\noptions:\n- key: a\n- {key: b, hue: x}\n').unknownKeys.map(({ key }) => key)).toEqual(['option 2: hue']);
  });

  it('keeps cells of unknown kinds with what can be shown of them', () => {
    const block = only('```wiring\nid: test-1\nlabel: Test\nstart: []\n```\n');
    expect(block).toMatchObject({ cellKind: 'wiring', id: 'test-1', cell: { kind: 'unknown', label: 'Test', unknownKeys: [] } });
  });

  it('shows a malformed symbol as typed, without taking it for an id', () => {
    expect(only('```given\nsymbol: 2x\n```\n')).toMatchObject({ id: 'given-1', cell: { symbol: '2x' } });
  });
});

describe('front matter', () => {
  it('keeps entries in order as typed', () => {
    const { frontMatter, blocks } = parseSheet('\uFEFF---\ntitle: "A: b"\ndate: 2031-05-04\nteam: 007\noperators:\n...\nText\n');
    expect([...frontMatter.entries]).toEqual([['title', 'A: b'], ['date', '2031-05-04'], ['team', '007'], ['operators', '']]);
    expect(frontMatter.source).toBe('\uFEFF---\ntitle: "A: b"\ndate: 2031-05-04\nteam: 007\noperators:\n...\n');
    expect(blocks).toEqual([{ kind: 'prose', id: 'prose-1', source: 'Text\n' }]);
  });

  it('is only what begins on the first line', () => {
    expect(parseSheet('\n---\ntitle: x\n---\n').frontMatter.entries.size).toBe(0);
    expect(parseSheet(' ---\ntitle: x\n---\n').frontMatter.entries.size).toBe(0);
  });

  it('does not swallow cells where it is never closed', () => {
    const document = parseSheet('---\ntitle: x\n```given\nsymbol: d\n```\n---\n');
    expect(document.problems).toMatchObject([{ code: 'front-matter-open', line: 1 }]);
    expect(cellOf(document, 'd').cell.problems).toEqual([]);
  });
});

describe('fences', () => {
  const kinds = (text: string) => parseSheet(text).blocks.map((block) => (block.kind === 'cell' ? `${block.cellKind} ${JSON.stringify(block.body)}` : 'prose'));

  it('takes cells by CommonMark 0.31 section 4.5: marks, lengths, indentation, info strings', () => {
    expect(kinds('```given\na\n```\n')).toEqual(['given "a\\n"']);
    expect(kinds('~~~~ given \na\n~~~\n~~~~~\t\n')).toEqual(['given "a\\n~~~\\n"']);
    expect(kinds('   ```given\n   a\n  ```\n')).toEqual(['given "   a\\n"']);
    expect(kinds('    ```given\n    a\n    ```\n')).toEqual(['prose']);
    expect(kinds('````remark\n```\nx\n```\n````')).toEqual(['remark "```\\nx\\n```\\n"']);
    expect(kinds('```given `x`\na\n```\n```\n')).toEqual(['prose']);
    expect(kinds('```\n~~~given\n```\n')).toEqual(['prose']);
    expect(kinds('``` two words\na\n```\n')).toEqual(['prose']);
    expect(kinds('```\nsymbol: d\n```\n')).toEqual(['prose']);
    expect(kinds('```{given}\nsymbol: d\n```\n')).toEqual(['prose']);
    expect(kinds('text\r```given\ra\r```\rtext')).toEqual(['prose', 'given "a\\r"', 'prose']);
    expect(kinds('\uFEFF```given\na\n```')).toEqual(['given "a\\n"']);
  });

  it('ends an open cell where the next one begins, so that the rest of the sheet stays alive', () => {
    const document = parseSheet('```given\nsymbol: a\n\n```step\nsymbol: b\nformula: 1\n```\n');
    expect(document.problems).toMatchObject([{ code: 'fence-open', line: 1 }]);
    expect(document.blocks.map(({ kind, source }) => [kind, source])).toEqual([['prose', '```given\nsymbol: a\n\n'], ['cell', '```step\nsymbol: b\nformula: 1\n```\n']]);
  });

  // Oracle: markdown-it 15, a CommonMark parser, on closed fences at the top level.
  it('finds the same fenced blocks as a CommonMark parser', () => {
    const fence = fc
      .tuple(fc.constantFrom('`', '~'), fc.integer({ min: 3, max: 5 }), fc.integer({ min: 0, max: 3 }), fc.constantFrom('given', 'fit', '', 'two words', ' step '), fc.array(fc.constantFrom('a: b', '', '``', '~~', 'text'), { maxLength: 4 }), fc.integer({ min: 0, max: 2 }))
      .map(([mark, length, indent, info, body, more]) => [' '.repeat(indent) + mark.repeat(length) + info, ...body, mark.repeat(length + more)].join('\n'));
    const text = fc.array(fc.oneof(fence, fc.constantFrom('Text.', '# Head')), { maxLength: 8 }).map((parts) => parts.join('\n\n') + '\n');
    const markdown = new MarkdownIt();
    fc.assert(
      fc.property(text, (source) => {
        const expected = markdown.parse(source, {}).filter(({ type, info }) => type === 'fence' && /^\s*\p{L}\S*\s*$/u.test(info)).map(({ info }) => info.trim());
        const found = parseSheet(source).blocks.flatMap((block) => (block.kind === 'cell' ? [block.cellKind] : []));
        expect(found).toEqual(expected);
      }),
      { numRuns: 400 },
    );
  });
});

describe('YAML', () => {
  // YAML 1.2.2, chapter 2 and section 5.7, examples 2.13, 2.15 to 2.17, 5.13 (texts shortened, written from memory).
  const examples: readonly (readonly [string, string])[] = [
    ['|\n  \\//||\\/||\n  // ||  ||__\n', '\\//||\\/||\n// ||  ||__\n'],
    ['>\n  folded\n  text\n\n  next\n', 'folded text\nnext\n'],
    ['"Sosa did fine.\\u263A"\n', 'Sosa did fine.\u263a'],
    ['"\\x0d\\x0a is \\r\\n"\n', '\r\n is \r\n'],
    ["' # Not a ''comment''.'\n", " # Not a 'comment'."],
    ['plain\n  over lines\n', 'plain over lines'],
    ['"\\0 \\N \\L"\n', '\0 \u0085 \u2028'],
  ];
  it.each(examples)('reads %j as the standard does', (source, value) => {
    expect(cell('given', `symbol: d\nnote: ${source}`)).toMatchObject({ note: value, problems: [] });
  });

  // Oracle: the general reader of the library, with the failsafe schema, on sound bodies.
  it('reads every key of the sound body as a general YAML reader does', () => {
    const value = fc.constantFrom('6.31 mm', '"a: b"', "'it''s'", '|\n  x\n   y\n', '>-\n  x\n  y\n', 'a # c', '', '"\\t"', '- 1', '{a: 1}', 'x:y', '-5', '<= 3');
    const body = fc.uniqueArray(fc.tuple(fc.constantFrom('label', 'note', 'value', 'unit', 'limit', 'instrument'), value), { selector: ([key]) => key }).map((entries) => entries.map(([key, text]) => `${key}: ${text}\n`).join(''));
    fc.assert(
      fc.property(body, (text) => {
        const source = `symbol: d\n${text}`;
        let expected: Record<string, unknown>;
        try {
          expected = parseYaml(source, { schema: 'failsafe' }) as Record<string, unknown>;
        } catch {
          return;
        }
        const found = cell('given', source) as unknown as Record<string, unknown>;
        const texts = Object.fromEntries(Object.entries(expected).filter(([, held]) => typeof held === 'string' && held !== ''));
        expect(found).toMatchObject(texts);
      }),
    );
  });
});
