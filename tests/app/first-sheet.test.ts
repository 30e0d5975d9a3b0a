/** Which sheet the page opens with: a file shows its own, whatever this browser keeps of others. */
import { describe, expect, test } from 'vitest';
import { firstSheet } from '../../src/app/first-sheet.ts';
import type { KeptSheet } from '../../src/app/kept-sheet.ts';
import { ok } from '../../src/core/problem/index.ts';

const kept = (id: string, text: string, more: Partial<KeptSheet> = {}): KeptSheet => ({ id, title: id, detail: '', text, changed: '2026-11-20T09:00:00Z', revision: 1, isCopy: false, ...more });
const store = (...sheets: readonly KeptSheet[]) => ({ list: async () => sheets });
const FILE = { text: ok('of the file'), sheetId: 'origin', takenAway: 'taken away 20 November 2026 at 09:12' };
const PLAIN = { text: ok('the example') };
const visit = (before?: string, asleep?: string) => ({ before, didNotWake: (id: string) => id === asleep });

describe('a working file', () => {
  test('shows its own state under its own name where nothing is kept of it', async () => {
    const { opening, notice } = await firstSheet(FILE, store(kept('other', 'another sheet')), visit());
    expect(opening).toMatchObject({ id: 'origin', origin: 'origin', text: 'of the file', revision: 0 });
    expect(notice).toBeUndefined();
  });

  test('shows its own state, with what is kept of the same origin offered beside it, both dates told', async () => {
    const mine = kept('mine', 'remarks of the marker', { origin: 'origin' });
    const { opening, notice } = await firstSheet(FILE, store(mine), visit());
    expect(opening.text).toBe('of the file');
    expect(notice?.text).toMatch(/taken away 20 November 2026 at 09:12.*last changed 20 Nov 2026/);
    expect(notice?.other?.opening).toBe(mine);
  });

  test('goes on with a kept sheet that holds the same, and with the one that lay open in its window', async () => {
    const [same, open] = [kept('same', 'of the file', { origin: 'origin' }), kept('open', 'worked on', { origin: 'origin' })];
    expect((await firstSheet(FILE, store(open, same), visit())).opening).toBe(same);
    expect((await firstSheet(FILE, store(same, open), visit('open'))).opening).toBe(open);
    // Another file that lay open in this window before is no reason to show another sheet.
    expect((await firstSheet(FILE, store(kept('strange', 'x')), visit('strange'))).opening.text).toBe('of the file');
  });
});

describe('the page without a sheet of its own', () => {
  test('opens what lay open in its window, else the sheet changed last, else the example', async () => {
    const sheets = [kept('last', 'a'), kept('before', 'b')];
    expect((await firstSheet(PLAIN, store(...sheets), visit())).opening.id).toBe('last');
    expect((await firstSheet(PLAIN, store(...sheets), visit('before'))).opening.id).toBe('before');
    expect((await firstSheet(PLAIN, store(), visit('gone'))).opening).toMatchObject({ text: 'the example', revision: 0 });
    expect((await firstSheet(PLAIN, { list: async () => Promise.reject(new Error('refused')) }, visit())).opening.text).toBe('the example');
  });

  test('does not open by itself a sheet that did not come to life the last time', async () => {
    const heavy = kept('heavy', 'a');
    const { opening, notice } = await firstSheet(PLAIN, store(heavy), visit(undefined, 'heavy'));
    expect(opening.text).toBe('the example');
    expect(notice?.text).toContain('did not come to life');
    expect(notice?.other?.opening).toBe(heavy);
  });
});
