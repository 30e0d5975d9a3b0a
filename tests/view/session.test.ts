/** History and graph of a sheet, tied together. */
import { expect, test } from 'vitest';
import { parseSheet } from '../../src/sheet/index.ts';
import { ownText, replaceText } from '../../src/view/commands.ts';
import { addBlock } from '../../src/view/new-blocks.ts';
import { createSession, type ChangedCells } from '../../src/view/session.ts';
import { endAfter, localTime } from '../../src/view/clock.ts';

const text = [
  '---', 'title: Two lengths', 'units: SI', '---', 'Some words.', '',
  '```given', 'symbol: a', 'value: 2 mm', 'unit: mm', '```', '',
  '```step', 'symbol: b', 'formula: 2*a', 'unit: mm', '```', '',
].join('\n');

const session = () => createSession(parseSheet(text), { now: () => new Date(0) });

function valueOf(one: ReturnType<typeof session>, symbol: string): number | undefined {
  const state = one.states().symbol(symbol);
  return state?.status === 'value' ? state.estimate.value : undefined;
}

/** The next call of a listener. */
function heard(one: ReturnType<typeof session>): Promise<ChangedCells> {
  return new Promise((resolve) => {
    const stop = one.subscribe((changed) => {
      stop();
      resolve(changed);
    });
  });
}

test('an edit, undone and done again, is told with its results each time', async () => {
  const one = session();
  await heard(one);
  expect(valueOf(one, 'b')).toBeCloseTo(4e-3, 15);
  const after = heard(one);
  expect(one.apply({ do: 'set key', cellId: 'a', key: 'value', value: '3 mm' }).ok).toBe(true);
  expect(await after).toEqual(new Set(['a', 'b']));
  expect(valueOf(one, 'b')).toBeCloseTo(6e-3, 15);
  const undone = heard(one);
  one.undo();
  await undone;
  expect(valueOf(one, 'b')).toBeCloseTo(4e-3, 15);
  expect([one.canUndo(), one.canRedo()]).toEqual([false, true]);
  const redone = heard(one);
  one.redo();
  await redone;
  expect(valueOf(one, 'b')).toBeCloseTo(6e-3, 15);
  one.dispose();
});

test('a refused edit changes nothing', () => {
  const one = session();
  const before = one.document();
  expect(one.apply({ do: 'set key', cellId: 'gone', key: 'value', value: '1' }).ok).toBe(false);
  expect(one.document()).toBe(before);
  one.dispose();
});

test('the system of units stands in the document', () => {
  const one = session();
  expect(one.system()).toBe('SI');
  one.setSystem('US customary');
  expect(one.system()).toBe('US customary');
  expect(one.document().frontMatter.entries.get('units')).toBe('US customary');
  one.dispose();
});

test('the own text of a block comes back from its editor byte for byte', () => {
  const one = session();
  for (const block of one.document().blocks) {
    one.apply(replaceText(block, ownText(block)));
  }
  expect(one.document().frontMatter.source + one.document().blocks.map(({ source }) => source).join('')).toBe(text);
  one.dispose();
});

test.each(['given', 'step', 'check', 'choice', 'checklist', 'remark', 'figure', 'prose'] as const)('a new %s stands below, without problems', (kind) => {
  const one = session();
  const known = new Set(one.document().blocks);
  expect(one.apply(addBlock(one.document(), kind, 'a')).ok).toBe(true);
  const fresh = one.document().blocks.filter((block) => !known.has(block) && block.source.trim() !== '');
  expect(fresh.map((block) => (block.kind === 'cell' ? block.cell.kind : 'prose'))).toEqual([kind]);
  expect(fresh.flatMap((block) => (block.kind === 'cell' ? block.cell.problems : []))).toEqual([]);
  one.dispose();
});

test('times are stamped with the offset of the place', () => {
  const date = new Date('2026-11-20T08:12:00Z');
  expect(new Date(localTime(date)).getTime()).toBe(date.getTime());
  expect(localTime(date)).toMatch(/^2026-11-\d\dT\d\d:\d\d:00[+-]\d\d:\d\d$/);
  expect(endAfter(date, 3600)).toContain('2026');
  expect(endAfter(date, 1e15)).toBeUndefined();
});
