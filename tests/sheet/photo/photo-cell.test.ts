import { describe, expect, it } from 'vitest';
import { applyEdit } from '../../../src/sheet/edit.ts';
import { parseSheet, serialiseSheet } from '../../../src/sheet/parse.ts';
import { readPoints, readScaleMark, turnRight, writePoints, writeScaleMark } from '../../../src/sheet/photo/marks.ts';
import { pictureText, readPicture } from '../../../src/sheet/photo/stored-picture.ts';
import type { PhotoCell, SheetDocument } from '../../../src/sheet/types.ts';
import { JPEG } from './small-pictures.ts';

const PICTURE = pictureText(JPEG) ?? '';
const BODY = `id: p\nlabel: Surface # seen from the grip\noutline: 1,2 3.5,4 5,6\nsymbols:\n  share: A_r\npicture: |\n${PICTURE.replace(/^(?=.)/gm, '  ')}`;
const TEXT = `Before.\n\n\`\`\`photo\n${BODY}\`\`\`\n\nAfter.\n`;

function photo(document: SheetDocument): PhotoCell {
  const block = document.blocks.find(({ kind }) => kind === 'cell');
  if (block?.kind !== 'cell' || block.cell.kind !== 'photo') throw new Error('no photo');
  return block.cell;
}

function edited(document: SheetDocument, values: readonly (readonly [string, string | undefined])[]): SheetDocument {
  const result = applyEdit(document, { do: 'set keys', cellId: 'p', values: new Map(values) });
  if (!result.ok) throw new Error(result.problem.what);
  return result.value;
}

describe('a picture’s cell', () => {
  it('is read and written back byte for byte', () => {
    const document = parseSheet(TEXT);
    expect(serialiseSheet(document)).toBe(TEXT);
    expect(photo(document)).toMatchObject({ picture: PICTURE, outline: '1,2 3.5,4 5,6', symbols: new Map([['share', 'A_r']]), problems: [] });
    expect(readPicture(photo(document).picture)).toMatchObject({ ok: true, value: { width: 24, height: 16 } });
  });

  it('changes one key and leaves every other byte', () => {
    const document = edited(parseSheet(TEXT), [['outline', '7,8']]);
    expect(serialiseSheet(document)).toBe(TEXT.replace('1,2 3.5,4 5,6', '7,8'));
    expect(serialiseSheet(edited(document, [['outline', '1,2 3.5,4 5,6']]))).toBe(TEXT);
  });

  it('takes a picture where there is none, another in its place, and none', () => {
    const empty = parseSheet('```photo\nid: p\nsymbols:\n  share: A_r\nnote: x\n```\n');
    const filled = edited(empty, [['picture', PICTURE]]);
    expect(photo(filled).picture).toBe(PICTURE);
    expect(photo(edited(filled, [['picture', 'AAAA\nBBBB\n']])).picture).toBe('AAAA\nBBBB\n');
    expect(serialiseSheet(edited(filled, [['picture', undefined]]))).toBe(serialiseSheet(empty));
  });

  it('changes a mark beside 400 kB of picture, which stays sign for sign', () => {
    const document = edited(parseSheet(TEXT), [['picture', `${'A'.repeat(120)}\n`.repeat(3400)]]);
    const marked = edited(document, [['origins', '5,5']]);
    expect(serialiseSheet(edited(marked, [['origins', undefined]]))).toBe(serialiseSheet(document));
    expect(photo(marked)).toMatchObject({ origins: '5,5', picture: photo(document).picture });
  });

  it('tells what it can’t give', () => {
    const document = parseSheet('```photo\nsymbols:\n  colour: c_1\n  share: 2x\n```\n');
    expect(photo(document).problems.map(({ code }) => code)).toEqual(['photo-reading-unknown', 'symbol-malformed']);
  });
});

describe('marks', () => {
  it('are read and written', () => {
    expect(readPoints(' 1,2  -3.5,4 ', 'final')).toEqual({ ok: true, value: [{ x: 1, y: 2 }, { x: -3.5, y: 4 }] });
    expect(writePoints([{ x: 1.04, y: -0.01 }, { x: 3.55, y: 4 }])).toBe('1,0 3.6,4');
    expect(readScaleMark('102,220 911,230 = 8 mm')).toEqual({ ok: true, value: { points: [{ x: 102, y: 220 }, { x: 911, y: 230 }], length: '8 mm' } });
    expect(writeScaleMark({ points: [{ x: 1, y: 2 }], length: '8 mm' })).toBe('1,2 = 8 mm');
  });

  it.each(['1;2', '1,2,3', '1,', 'x', '1e3,2', '12345678,1'])('%j is told', (text) => {
    expect(readPoints(text, 'final')).toMatchObject({ ok: false, problem: { code: 'points-malformed', key: 'final' } });
  });

  it('a third point of the scale is told', () => {
    expect(readScaleMark('1,2 3,4 5,6')).toMatchObject({ ok: false, problem: { code: 'scale-points' } });
  });

  it('come back after four quarter turns', () => {
    const start = [{ x: 10, y: 20 }, { x: 0, y: 16 }];
    expect(turnRight(turnRight(turnRight(turnRight(start, 30), 50), 30), 50)).toEqual(start);
  });
});
