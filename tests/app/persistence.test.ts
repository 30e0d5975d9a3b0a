import { expect, test } from 'vitest';
import { createPersistence } from '../../src/app/persistence.ts';

/** A browser that answers so; how often it was asked. */
function browser(answers: { readonly persisted: boolean; readonly persist: boolean }) {
  const kept = new Map<string, string>();
  let asked = 0;
  const memory = { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => void kept.set(key, value) };
  const storage = { persisted: () => Promise.resolve(answers.persisted), persist: () => Promise.resolve((asked += 1) > 0 && answers.persist) };
  return { open: () => createPersistence(storage, () => memory), asked: () => asked };
}

test('the browser is asked once, over all openings, and its answer told', async () => {
  const refusing = browser({ persisted: false, persist: false });
  const desk = refusing.open();
  expect([await desk.look(), await desk.ask(), await desk.ask(), await refusing.open().ask(), refusing.asked()]).toEqual(['may clear', 'may clear', 'may clear', 'may clear', 1]);
  expect(await browser({ persisted: false, persist: true }).open().ask()).toBe('promised');
  const promised = browser({ persisted: true, persist: true });
  expect([await promised.open().ask(), promised.asked()]).toEqual(['promised', 0]);
});

test('a browser that lacks the question, or refuses storage, may clear', async () => {
  const refused = () => { throw new Error('refused'); };
  expect(await createPersistence(undefined, refused).ask()).toBe('may clear');
  expect(await createPersistence({ persisted: () => Promise.reject(new Error('no')) }, refused).look()).toBe('may clear');
});
