import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asItWas, fieldPlaces, readDelimited, writeOutgoing, writeRecord } from '../../src/sheet/table/delimited.ts';
import type { Separator } from '../../src/sheet/table/delimited.ts';
import { cases } from '../sizes.ts';

const fieldsOf = (text: string, separator?: Separator) => readDelimited(text, separator).records.map(({ fields }) => fields);
const separator = fc.constantFrom<Separator>(',', ';', '\t');
const sign = fc.constantFrom('"', '""', ',', ';', '\t', '\n', '\r\n', '\r', ' ', 'a', '1,5', '\uFEFF', 'é');
const junk = fc.array(sign, { maxLength: 25 }).map((parts) => parts.join(''));

describe('delimited text', () => {
  // RFC 4180, section 2, rules 1 to 7: the rules' own examples.
  it('reads the examples of RFC 4180', () => {
    expect(fieldsOf('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual([['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']]);
    expect(fieldsOf('aaa,bbb,ccc\r\nzzz,yyy,xxx')).toEqual([['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']]);
    expect(fieldsOf('"aaa","bbb","ccc"\r\nzzz,yyy,xxx')).toEqual([['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']]);
    expect(fieldsOf('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([['aaa', 'b\r\nbb', 'ccc'], ['zzz', 'yyy', 'xxx']]);
    expect(fieldsOf('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });

  it('finds the separator in the first line, outside of quotation marks', () => {
    expect(fieldsOf('a;b,c\n1;2,5')).toEqual([['a', 'b,c'], ['1', '2,5']]);
    expect(fieldsOf('a\tb;c\n1\t2')).toEqual([['a', 'b;c'], ['1', '2']]);
    expect(fieldsOf('"a;b",c\n1,2')).toEqual([['a;b', 'c'], ['1', '2']]);
    expect(fieldsOf('\uFEFF\na;b')).toEqual([['a', 'b']]);
  });

  it('takes a mark that nothing closes for a sign, passes over blank lines, and keeps ragged rows', () => {
    expect(fieldsOf('a,b\n"1,2\n\n   \n3\n4,5,6\n')).toEqual([['a', 'b'], ['"1', '2'], ['3'], ['4', '5', '6']]);
    expect(fieldsOf('a,b\n 2" bar,x')).toEqual([['a', 'b'], [' 2" bar', 'x']]);
  });

  it('reads back any fields that it wrote', () => {
    fc.assert(
      fc.property(separator, fc.array(fc.array(junk, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 6 }), (between, rows) => {
        const text = rows.map((fields) => `${writeRecord(fields, between)}\n`).join('');
        fc.pre(!text.startsWith('\uFEFF'));
        expect(fieldsOf(text, between)).toEqual(rows);
      }),
    );
  });

  it('finds in the text of any record the places of its fields, end to end', () => {
    fc.assert(
      fc.property(separator, junk, (between, text) => {
        const read = readDelimited(text, between);
        for (const record of read.records) {
          const places = fieldPlaces(read.text, record, read.separator);
          expect(places.length).toBe(record.fields.length);
          expect(places[0]?.start).toBe(record.start);
          expect(places.at(-1)?.end).toBe(record.end);
          places.slice(1).forEach(({ start }, i) => expect(text.slice(places[i]?.end, start)).toBe(between));
        }
      }),
      { numRuns: cases(2000) },
    );
  });

  it('takes time in proportion to the text, however its quotation marks stand', () => {
    for (const line of ['"', '"a\n', 'a,"\n', '""', '"",\n', '"""\n']) {
      const began = performance.now();
      readDelimited(line.repeat(300_000));
      expect(performance.now() - began).toBeLessThan(5_000);
    }
  });
});

describe('what leaves', () => {
  it('marks what a spreadsheet takes for a formula, and no number', () => {
    expect(writeOutgoing(['=1+1', '@SUM(A1)', '+cmd', '-2+3', "'=x", '\t=1'], ';')).toBe(`'=1+1;'@SUM(A1);'+cmd;'-2+3;''=x;'\t=1`);
    expect(writeOutgoing(['-5', '+1.5e-3', '1e5', '-.5', 'steel K', "O'Neil", ''], ',')).toBe("-5,+1.5e-3,1e5,-.5,steel K,O'Neil,");
  });

  it('comes back as it was', () => {
    fc.assert(fc.property(fc.array(fc.oneof(fc.string(), fc.string().map((text) => `=${text}`), fc.string().map((text) => `'-${text}`), fc.constantFrom('-5', '@', "'", "'=", '-x')), { minLength: 1 }), (fields) => {
      const [record] = readDelimited(`${writeOutgoing(fields, ',')}\n`, ',').records;
      expect(record?.fields.map(asItWas)).toEqual(fields);
    }));
  });
});
