/** Notes at the head of the page: one that offers something is not lost to the next. */
import { describe, expect, test } from 'vitest';
import { createNoticeDesk, withNotice, withoutSheet, type Notice } from '../../src/app/notices.ts';

const remedy = { label: 'Put it back', apply: () => undefined };
const texts = (notices: readonly Notice[]) => notices.map(({ text }) => text).join(' | ');

describe('notes', () => {
  test('that only tell give way to the next; one that offers something stays beside what is told after it', () => {
    let notices = withNotice([], { text: 'brought in' });
    notices = withNotice(notices, { text: 'not brought in' });
    expect(texts(notices)).toBe('not brought in');
    notices = withNotice(notices, { text: 'deleted', remedy });
    notices = withNotice(notices, { text: 'told' });
    expect(texts(notices)).toBe('told | deleted');
  });

  test('do not say the same of a sheet twice, but of two things deleted under one name; the oldest gives way to the fifth', () => {
    const all = (list: readonly Notice[]) => texts(list.reduce<readonly Notice[]>(withNotice, []));
    expect(all(['a', 'b', 'a'].map((text) => ({ text, remedy, ofSheet: true })))).toBe('a | b');
    expect(all(['a', 'a'].map((text) => ({ text, remedy })))).toBe('a | a');
    expect(all(['a', 'b', 'c', 'd', 'e'].map((text) => ({ text, remedy })))).toBe('e | d | c | b');
  });

  test('about a sheet go with it; what was deleted can still be put back', () => {
    const notices = [{ text: 'changed in another window', remedy, ofSheet: true }, { text: 'deleted', remedy }, { text: 'brought in' }];
    expect(texts(withoutSheet(notices))).toBe('deleted');
  });

  test('go when what they offer is taken up, or when they are closed', () => {
    const done: string[] = [];
    const desk = createNoticeDesk(() => undefined);
    desk.tell('one', { label: 'Do it', apply: () => done.push('one') });
    desk.tellOfSheet('two', { label: 'Do it', apply: () => done.push('two') });
    desk.shown()[1]?.remedy?.apply();
    expect([done, texts(desk.shown())]).toEqual([['one'], 'two']);
    desk.dismiss(desk.shown()[0] as Notice);
    expect(desk.shown()).toEqual([]);
  });
});
