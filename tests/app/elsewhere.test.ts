import { describe, expect, it } from 'vitest';
import { createElsewhere, createRunningMemory } from '../../src/app/elsewhere.ts';
import type { KeptSheet } from '../../src/app/kept-sheet.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { fenced } from '../report/sheet-at.ts';

const sheet = (team: string, ...lines: readonly string[]): string => `---\ntitle: Bending\nteam: ${team}\n---\n${fenced('record', 'id: test', ...lines)}`;
const RUNS = 'started: 2026-11-20T09:00:00Z';
const ENDED = 'ended: 2026-11-20T10:00:00Z';

function room(open: { id: string | undefined; text: string }, ...kept: readonly (readonly [id: string, text: string])[]) {
  const small = new Map<string, string>();
  const stored = new Map(kept.map(([id, text]): [string, KeptSheet] => [id, { id, title: 'Bending', detail: id, text, changed: RUNS.slice(9), revision: 1, isCopy: false }]));
  const memory = createRunningMemory(() => ({ getItem: (key) => small.get(key) ?? null, setItem: (key, text) => void small.set(key, text) }));
  const heard = { changes: 0, reads: 0 };
  const desk = createElsewhere({
    store: { read: async (id) => {
      heard.reads += 1;
      return stored.get(id);
    } },
    memory, here: () => ({ id: open.id, document: parseSheet(open.text) }), changed: () => void (heard.changes += 1),
  });
  const keep = (id: string, text: string): void => {
    const before = stored.get(id);
    if (before !== undefined) stored.set(id, { ...before, text, revision: before.revision + 1 });
  };
  return { desk, memory, small, stored, keep, heard, open, shown: () => desk.tests().map(({ sheetId }) => sheetId) };
}

describe('a test that runs on another sheet', () => {
  it('is told on the sheets of its team, and on those that name none', async () => {
    const at = room({ id: 'open', text: sheet('T4') }, ['ours', sheet('T4', RUNS)], ['theirs', sheet('T5', RUNS)], ['nobody’s', sheet('', RUNS)]);
    for (const id of ['ours', 'theirs', 'nobody’s']) at.memory.note(id, true);
    await at.desk.look();
    expect(at.shown()).toEqual(['ours', 'nobody’s']);
    expect(at.desk.tests()[0]?.title).toBe('Bending');
    at.keep('ours', sheet('T4', RUNS).replace('team:', 'specimen: PS-07\nteam:'));
    await at.desk.look();
    expect(at.desk.tests()[0]?.title).toBe('PS-07');
    at.open.text = sheet('');
    await at.desk.look();
    expect(at.shown()).toEqual(['ours', 'theirs', 'nobody’s']);
  });

  it('is remembered when its own sheet is kept, and gone as soon as it has ended, or its sheet is', async () => {
    const at = room({ id: 'ours', text: sheet('T4', RUNS) }, ['ours', sheet('T4', RUNS)], ['more', sheet('T4', RUNS)]);
    at.memory.note('more', true);
    at.desk.keptHere();
    await at.desk.look();
    expect([at.memory.ids(), at.shown()]).toEqual([['more', 'ours'], ['more']]);
    Object.assign(at.open, { id: 'next', text: sheet('T4') });
    at.desk.keptHere();
    await at.desk.look();
    expect([at.memory.ids(), at.shown()]).toEqual([['more', 'ours'], ['more', 'ours']]);
    const before = at.heard.changes;
    at.keep('ours', sheet('T4', RUNS, ENDED));
    at.desk.keptThere('ours');
    await at.desk.look();
    at.stored.delete('more');
    await at.desk.look();
    expect([at.shown(), at.memory.ids()]).toEqual([[], []]);
    expect(at.heard.changes).toBeGreaterThan(before);
  });

  it('is read again only where something runs, and drawn again only where that changed', async () => {
    const at = room({ id: 'open', text: sheet('T4') }, ['ours', sheet('T4', RUNS)]);
    at.desk.keptHere();
    at.desk.keptThere('ours');
    await at.desk.look();
    expect(at.heard).toEqual({ changes: 0, reads: 0 });
    at.memory.note('ours', true);
    await at.desk.look();
    const [first] = at.desk.tests();
    await at.desk.look();
    expect([at.heard.changes, at.desk.tests()[0] === first]).toEqual([1, true]);
  });

  it('keeps what it predicts to itself where its sheet asks for the reader’s own working', async () => {
    const at = room({ id: 'open', text: sheet('T4') }, ['asks', sheet('T4', RUNS).replace('team:', 'own_working: true\nteam:')], ['tells', sheet('T4', RUNS)]);
    for (const id of ['asks', 'tells']) at.memory.note(id, true);
    await at.desk.look();
    expect(at.desk.tests().map(({ isWithheld }) => isWithheld)).toEqual([true, false]);
  });

  it('what else stands in the small storage, or that it is refused, is no test', () => {
    const odd = createRunningMemory(() => ({ getItem: () => '{"a":1}', setItem: () => undefined }));
    const refused = createRunningMemory(() => {
      throw new DOMException('refused', 'SecurityError');
    });
    refused.note('a', true);
    expect([odd.ids(), refused.ids()]).toEqual([[], []]);
  });
});
