import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainGroup } from '../../src/sheet/reads-as.ts';
import { lastTextBlock, withLastText } from '../../src/sheet/last-text.ts';
import { readBody } from '../../src/sheet/yaml-body.ts';
import { cases } from '../sizes.ts';

const line = fc.oneof(
  { weight: 1, arbitrary: fc.constantFrom('', '  a,b', '  1;2', '   deeper', '    ', ' ', '\t', '  \tx', 'b: c', 'rows: |', '  rows: |', '# end', '- x', '  # no comment', '  "', "  '", '...', '  ---', '  é\u0085x', '  [[') },
  { weight: 3, arbitrary: fc.string({ maxLength: 8 }).map((text) => `  ${text}`) },
);
const head = fc.constantFrom('', 'id: t\n', 'id: t\ncolumns:\n  - key: S\n', 'label: "open\n', 'rows: x\n', 'label: |\n  text\n', 'label: >\n  folded\n\n', '{a: 1}\n', 'note: \'a\n', '  id: t\n');
const opening = fc.constantFrom('rows: |', 'rows: |', 'rows: |', 'rows: |', 'rows:  | ', 'rows: |-', 'rows: | # c', ' rows: |', 'rows: >', '"rows": |');
const end = fc.constantFrom('\n', '\n', '\r\n', '\r');

describe('rows taken off the end of a body', () => {
  it('are what a YAML reader reads of the whole body, or are left to it', () => {
    let taken = 0;
    fc.assert(
      fc.property(head, opening, fc.array(line, { maxLength: 8 }), end, (above, key, lines, lineEnd) => {
        const body = [above.replace(/\n$/, ''), key, ...lines, ''].join('\n').replace(/^\n/, '').replaceAll('\n', lineEnd);
        const block = lastTextBlock(body, 'rows');
        if (block === undefined) return;
        taken++;
        const whole = readBody(body);
        expect(whole.problems).toEqual([]);
        const expected = plainGroup(body, whole);
        expect(block.text).toBe(expected.get('rows'));
        const short = plainGroup(block.head, block.reading);
        expect(new Map([...short, ['rows', block.text]])).toEqual(expected);
        expect(withLastText(block, block.text) ?? body).toBe(body);
      }),
      { numRuns: cases(5000) },
    );
    expect(taken).toBeGreaterThan(cases(300));
  });

  it('are put back as any text that can stand as plain lines, and read so', () => {
    const block = lastTextBlock('id: t\nrows: |\n  a\n', 'rows');
    if (block === undefined) throw new Error('not taken');
    fc.assert(
      fc.property(fc.array(fc.oneof(line, fc.string({ unit: 'binary', maxLength: 8 })), { minLength: 1, maxLength: 6 }), (lines) => {
        const rows = `${lines.join('\n')}\n`;
        const body = withLastText(block, rows);
        expect(body === undefined ? rows : plainGroup(body, readBody(body)).get('rows')).toBe(rows);
      }),
      { numRuns: cases(3000) },
    );
  });
});
