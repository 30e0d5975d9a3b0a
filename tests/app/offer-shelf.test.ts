/** Lines of sheets kept in the browser and of files: worked out as data, the open sheet left out. */
import { describe, expect, test } from 'vitest';
import { createLineShelf } from '../../src/app/offer-shelf.ts';
import type { KeptSheet } from '../../src/app/kept-sheet.ts';
import { reportPage } from '../../src/report/index.ts';
import { shipped } from '../shipped.ts';

const snLine = shipped('sn-line');
const rotating = shipped('rotating-bending');
const kept = (id: string, text: string): KeptSheet => ({ id, title: id, detail: 'all teams', text, changed: '2026-11-21T10:00:00Z', revision: 1, isCopy: false });
const shelf = (sheets: readonly KeptSheet[]) =>
  createLineShelf({ store: { list: () => Promise.resolve(sheets) }, openId: () => 'open', now: () => new Date(2026, 10, 25, 23, 59) });

describe('the shelf of lines', () => {
  test('has the kept sheets with a fit of their own, but for the one that lies open', async () => {
    const found = await shelf([kept('open', snLine), kept('class', snLine), kept('prediction', rotating), kept('notes', '---\ntitle: x\n---\nfit for use\n')]).kept();
    expect(found.map(({ title, detail }) => [title, detail])).toEqual([['The S-N line of the class', 'all teams · changed 2026-11-21']]);
    expect(found[0]?.offers.map(({ fitId, label }) => [fitId, label])).toEqual([['line', 'The line through the tests']]);
    expect(found[0]?.offers[0]?.snapshot?.get('taken')).toBe('2026-11-25');
  });

  test('says why a sheet has no line at the moment', async () => {
    const [sheet] = await shelf([kept('class', snLine.replace(/( {2}specimen,group[^\n]*\n)(?: {2}.*\n)+/, '$1'))]).kept();
    expect(sheet?.offers[0]?.snapshot).toBeUndefined();
    expect(sheet?.offers[0]?.trouble).toBe('It has no line at the moment: rows or blanks that it needs are empty.');
  });

  test('reads documents and reports, refuses other files in words, and leaves the browser’s refusal to the caller', async () => {
    const report = reportPage({ title: 'x', bodyHtml: '<p>x</p>', css: '', documentText: snLine, language: 'en-GB' });
    for (const content of [snLine, report]) {
      const read = await shelf([]).ofFile(new File([content], 'class.md'));
      expect(read.ok && [read.value.detail, read.value.offers.length]).toEqual(['class.md', 1]);
    }
    expect(await shelf([]).ofFile(new File(['milk'], 'x.md'))).toMatchObject({ ok: false, problem: { code: 'not-a-sheet' } });
    const refusing = createLineShelf({ store: { list: () => Promise.reject(new Error('refused')) }, openId: () => '', now: () => new Date() });
    await expect(refusing.kept()).rejects.toThrow('refused');
    expect(await createLineShelf({ store: undefined, openId: () => '', now: () => new Date() }).kept()).toEqual([]);
  });
});
