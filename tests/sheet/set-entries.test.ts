import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdit, parseSheet, serialiseSheet, type RecordCell, type SheetDocument } from '../../src/sheet/index.ts';

const TEXT = '# Day\n\n```record\nid: test # ours\nlabel: Record\nstarted: 2026-11-20T09:12:00+01:00\nweather: fair\nwatches:\n  life: N_f\nnote: kept\n```\n\nAfter.\n';

function recordOf({ blocks }: SheetDocument): RecordCell {
  const block = blocks.find(({ id }) => id === 'test');
  if (block?.kind !== 'cell' || block.cell.kind !== 'record') throw new Error('no record in the document');
  return block.cell;
}

function edited(document: SheetDocument, key: string, entries: ReadonlyMap<string, string> | readonly ReadonlyMap<string, string>[]): SheetDocument {
  const result = applyEdit(document, { do: 'set entries', cellId: 'test', key, entries });
  if (!result.ok) throw new Error(result.problem.what);
  return result.value;
}

describe('lists and groups of a record', () => {
  it('stand in its text in lines that differ well, and go without a trace', () => {
    const readings = [new Map([['at', '2026-11-20T09:30:00+01:00'], ['counter', '99'], ['note', 'a: b # c']]), new Map([['at', '2026-11-20T09:40:00+01:00'], ['speed', '']])];
    const written = edited(parseSheet(TEXT), 'readings', readings);
    expect(serialiseSheet(written)).toContain('readings:\n  - at: 2026-11-20T09:30:00+01:00\n    counter: 99\n    note: "a: b # c"\n  - at: 2026-11-20T09:40:00+01:00\n');
    expect(recordOf(written).readings).toEqual([readings[0], new Map([['at', '2026-11-20T09:40:00+01:00']])]);
    expect(serialiseSheet(edited(written, 'readings', []))).toBe(TEXT);
    expect(recordOf(written).unknownKeys.map(({ key }) => key)).toEqual(['weather']);
  });

  it('read back as they were written, whatever they hold', () => {
    const text = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }).filter((one) => one.trim() !== '');
    fc.assert(fc.property(fc.array(fc.dictionary(fc.constantFrom('at', 'counter', 'speed', 'note'), text, { minKeys: 1, noNullPrototype: true }), { maxLength: 3 }), (list) => {
      const readings = list.map((entry) => new Map(Object.entries(entry)));
      const document = edited(parseSheet(TEXT), 'readings', readings);
      expect(recordOf(parseSheet(serialiseSheet(document))).readings).toEqual(readings);
    }), { numRuns: 40 });
  });

  it('a group goes in whole and is replaced whole', () => {
    const first = edited(parseSheet(TEXT), 'frozen', new Map([['N_f', '1e5 ± 20 cycles'], ['choice line', 'estimated']]));
    const second = edited(first, 'frozen', new Map([['d', '6.31, 6.33 mm']]));
    expect([...recordOf(second).frozen]).toEqual([['d', '6.31, 6.33 mm']]);
  });

  it('a role that no record knows is told, and the others are read', () => {
    const cell = recordOf(parseSheet(TEXT.replace('  life: N_f', '  life: N_f\n  colour: c')));
    expect([...cell.watches]).toEqual([['life', 'N_f']]);
    expect(cell.problems.map(({ code }) => code)).toEqual(['record-role']);
  });
});
