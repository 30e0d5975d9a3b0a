/** What of a sheet is out of sight, without a page. */
import { describe, expect, test } from 'vitest';
import { parseSheet } from '../../src/sheet/index.ts';
import { createFolds, EVERY, type FoldMemory, type Folds, type Remembered } from '../../src/view/folds.ts';
import { fenced, given } from '../report/sheet-at.ts';

const TEXT = [
  'Before.\n', given('a', '1', '1'), '## First\n', given('b', '1', '1'), fenced('aside', 'id: p', 'label: More', 'holds: all'), given('c', '1', '1'), fenced('end', 'id: e'),
  given('d', '1', '1'), '## Second\n\nWords.\n', given('f', '1', '1'),
].join('\n');
const DOCUMENT = parseSheet(TEXT);
const sectionId = (words: string): string => DOCUMENT.blocks.find(({ kind, source }) => kind === 'prose' && source.includes(words))?.id ?? 'none';
const FIRST = sectionId('First');

function memoryOf(state?: Remembered): FoldMemory & { state: Remembered | undefined } {
  const memory = { state, read: () => memory.state, write: (next: Remembered) => void (memory.state = next) };
  return memory;
}

function cellsAway(folds: Folds): readonly string[] {
  return DOCUMENT.blocks.filter(({ id, kind }) => kind === 'cell' && folds.isAway(id)).map(({ id }) => id);
}

describe('what is out of sight', () => {
  test('a part on demand, as the sheet opens; it comes when asked for and is remembered', () => {
    const memory = memoryOf();
    const drawn: (readonly string[])[] = [];
    const folds = createFolds(() => DOCUMENT, (ids) => void drawn.push(ids), memory);
    expect(cellsAway(folds)).toEqual(['c', 'e']);
    folds.set('p', true);
    expect([cellsAway(folds), memory.state, drawn]).toEqual([[], { open: ['aside More'], folded: [] }, [['p']]]);
    expect(cellsAway(createFolds(() => DOCUMENT, () => undefined, memory))).toEqual([]);
    folds.set('p', false);
    expect(cellsAway(folds)).toEqual(['c', 'e']);
  });

  test('a section that is folded, with the parts in it, but for its heading', () => {
    const folds = createFolds(() => DOCUMENT, () => undefined);
    folds.set(FIRST, false);
    expect(cellsAway(folds)).toEqual(['b', 'p', 'c', 'e', 'd']);
    expect([folds.isAway(FIRST), folds.isOpen(FIRST), folds.isAway(sectionId('Second'))]).toEqual([false, false, false]);
    folds.unfoldSections();
    expect(cellsAway(folds)).toEqual(['c', 'e']);
  });

  test('going to a line opens all that is around it', () => {
    const folds = createFolds(() => DOCUMENT, () => undefined);
    folds.set(FIRST, false);
    folds.reveal('c');
    expect([cellsAway(folds), folds.isOpen('p'), folds.isOpen(FIRST)]).toEqual([[], true, true]);
  });

  test('every part at once; one closed after that leaves the others open', () => {
    const memory = memoryOf();
    const two = parseSheet(`${TEXT}\n${fenced('aside', 'id: q', 'label: Last', 'holds: all')}\n${given('g', '1', '1')}\n${fenced('end')}`);
    const folds = createFolds(() => two, () => undefined, memory);
    folds.setEveryAside(true);
    expect([folds.away().size, memory.state?.open]).toEqual([0, [EVERY]]);
    folds.set('p', false);
    expect([folds.isAway('c'), folds.isAway('g'), memory.state?.open]).toEqual([true, false, ['aside Last']]);
  });

  test('before printing all is there, and afterwards as before; who listens hears of changes and not of printing', () => {
    const folds = createFolds(() => DOCUMENT, () => undefined);
    let heard = 0;
    const stop = folds.subscribe(() => void (heard += 1));
    folds.set(FIRST, false);
    const back = folds.showAll();
    expect(folds.away().size).toBe(0);
    back();
    expect(cellsAway(folds)).toEqual(['b', 'p', 'c', 'e', 'd']);
    stop();
    folds.set(FIRST, true);
    expect(heard).toBe(1);
  });

  test('the set stays the same object while nothing changes', () => {
    const folds = createFolds(() => DOCUMENT, () => undefined);
    expect(folds.away()).toBe(folds.away());
  });
});
