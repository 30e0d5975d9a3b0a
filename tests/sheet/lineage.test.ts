import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asItStands, createHistory, lineageOf, parseSheet, serialiseSheet, type Block, type SheetDocument } from '../../src/sheet/index.ts';
import { ownText, replaceText } from '../../src/view/commands.ts';
import { SHIPPED, shipped } from '../shipped.ts';

const SHEETS = SHIPPED.map((name) => parseSheet(shipped(name)));

function withLineage(document: SheetDocument, lineage: object): Block {
  const block = document.blocks.find((one) => lineageOf(one) === lineage);
  if (block === undefined) throw new Error('the block is gone');
  return block;
}

const othersOf = (document: SheetDocument, lineage: object): readonly (readonly [object, string])[] =>
  document.blocks.filter((one) => lineageOf(one) !== lineage).map((one) => [lineageOf(one), one.source]);

describe('a block under edit', () => {
  it('stays itself whatever is typed there, and no other block changes by a byte or takes its place', () => {
    fc.assert(fc.property(fc.nat(), fc.nat(), fc.nat(), fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 8 }), (sheet, from, to, shares) => {
      const start = SHEETS[sheet % SHEETS.length] as SheetDocument;
      const cells = start.blocks.filter(({ kind }) => kind === 'cell');
      const [edited, other] = [cells[from % cells.length] as Block, cells[to % cells.length] as Block];
      const lineage = lineageOf(edited);
      const others = othersOf(start, lineage);
      const history = createHistory(start);
      const target = ownText(other);
      for (const share of [...shares, 1]) {
        const typed = target.slice(0, Math.round(share * target.length));
        const result = history.apply(replaceText(withLineage(history.document, lineage), typed));
        if (!result.ok) continue;
        expect(ownText(withLineage(history.document, lineage))).toBe(typed);
        expect(othersOf(history.document, lineage)).toEqual(others);
        expect(new Set(history.document.blocks.map(({ id }) => id)).size).toBe(history.document.blocks.length);
      }
      while (history.canUndo) {
        history.undo();
        expect(othersOf(history.document, lineage)).toEqual(others);
      }
      expect(serialiseSheet(history.document)).toBe(serialiseSheet(start));
    }), { numRuns: 150 });
  });

  it('does not take the id of a cell below it that has the symbol already', () => {
    const cell = (symbol: string): string => `\`\`\`given\nsymbol: ${symbol}\nvalue: 1 mm\n\`\`\`\n`;
    const history = createHistory(parseSheet(cell('a') + cell('W')));
    const [first, second] = history.document.blocks.map(lineageOf);
    history.apply(replaceText(history.document.blocks[0] as Block, 'symbol: W\nvalue: 2 mm'));
    expect(history.document.blocks.map(({ id }) => id)).toEqual(['W-2', 'W']);
    expect(history.document.blocks.map(lineageOf)).toEqual([first, second]);
    // Read anew, without a before, the first one has it.
    expect(parseSheet(serialiseSheet(history.document)).blocks.map(({ id }) => id)).toEqual(['W', 'W-2']);
  });

  it('is written to by keys that come before the page shows the last one, and no other block is', () => {
    const cell = (symbol: string): string => `\`\`\`given\nsymbol: ${symbol}\nvalue: 1 mm\n\`\`\`\n`;
    const seen = parseSheet(cell('a') + cell('W'));
    const history = createHistory(seen);
    const typed = (text: string) => history.apply(asItStands(replaceText(seen.blocks[0] as Block, text), seen, history.document));
    // By now "a" is the id of another block.
    expect(typed('symbol: W\nvalue: 1 mm').ok).toBe(true);
    expect(history.apply(replaceText(history.document.blocks[1] as Block, 'symbol: a\nvalue: 1 mm')).ok).toBe(true);
    expect(history.document.blocks.map(({ id }) => id)).toEqual(['W', 'a']);
    expect(typed('symbol: W_h\nvalue: 1 mm').ok).toBe(true);
    expect(serialiseSheet(history.document)).toBe(cell('W_h') + cell('a'));
  });

  it('is followed by what is put beside it, and by several commands at once; what is new keeps the id that it has', () => {
    const cell = (symbol: string): string => `\`\`\`given\nsymbol: ${symbol}\n\`\`\`\n`;
    const seen = parseSheet(cell('a') + cell('b'));
    const now = createHistory(seen);
    now.apply(replaceText(seen.blocks[0] as Block, 'symbol: c'));
    const at = (command: Parameters<typeof asItStands>[0]) => asItStands(command, seen, now.document);
    expect(at({ do: 'insert', after: 'a', source: 'x' })).toMatchObject({ after: 'c' });
    expect(at({ do: 'insert', after: undefined, source: 'x' })).toMatchObject({ after: undefined });
    expect(at({ do: 'move', blockId: 'b', to: { after: 'a' } })).toMatchObject({ blockId: 'b', to: { after: 'c' } });
    expect(at({ do: 'move', blockId: 'a', to: 'down' })).toMatchObject({ blockId: 'c', to: 'down' });
    expect(at({ do: 'together', commands: [{ do: 'delete', blockId: 'a' }, { do: 'set key', cellId: 'new', key: 'unit', value: 'mm' }] }))
      .toMatchObject({ commands: [{ blockId: 'c' }, { cellId: 'new' }] });
  });
});
