import { beforeEach, expect, test, vi } from 'vitest';
import { createPlaceMemory } from '../../src/app/place-memory.ts';

/** A storage as browsers have it, as far as it is used here. */
function storage(): Storage {
  const kept = new Map<string, string>();
  return { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => void kept.set(key, value) } as unknown as Storage;
}

beforeEach(() => {
  vi.stubGlobal('localStorage', storage());
  vi.stubGlobal('sessionStorage', storage());
});

const place = (block: string) => ({ blocks: [block, 'before'], offset: 12 });

test('each kept sheet has its own place, until it is left at its head', () => {
  const [one, two] = ['one', 'two'].map((id) => createPlaceMemory(() => id, ''));
  one?.write(place('d'));
  two?.write(place('F'));
  expect([one?.read(), two?.read()]).toEqual([place('d'), place('F')]);
  one?.write(undefined);
  expect([one?.read(), two?.read()]).toEqual([undefined, place('F')]);
});

test('a sheet that is kept nowhere yet is known by what it holds, and goes on under its id once it is kept', () => {
  let id: string | undefined;
  const memory = createPlaceMemory(() => id, 'text');
  memory.write(place('d'));
  expect(createPlaceMemory(() => undefined, 'text').read()).toEqual(place('d'));
  expect(createPlaceMemory(() => undefined, 'other').read()).toBeUndefined();
  id = 'kept';
  expect(memory.read()).toBeUndefined();
  memory.write(place('F'));
  expect(createPlaceMemory(() => 'kept', '').read()).toEqual(place('F'));
});

test('the places of sixty sheets are remembered, those of the last ones', () => {
  for (let i = 0; i < 70; i += 1) createPlaceMemory(() => `s${i}`, '').write(place(`b${i}`));
  expect([createPlaceMemory(() => 's9', '').read(), createPlaceMemory(() => 's10', '').read()]).toEqual([undefined, place('b10')]);
});

test.each(['{', '7', '{"one": 3}', '{"one": {"blocks": "d"}}'])('what something else wrote there, %s, is no place', (text) => {
  localStorage.setItem('spanlife-places', text);
  const memory = createPlaceMemory(() => 'one', '');
  expect(memory.read()).toBeUndefined();
});

test('where the browser refuses, nothing is remembered and nothing thrown', () => {
  const refused = (): never => { throw new DOMException('refused', 'SecurityError'); };
  vi.stubGlobal('localStorage', { getItem: refused, setItem: refused });
  const memory = createPlaceMemory(() => 'one', '');
  expect(() => memory.write(place('d'))).not.toThrow();
  expect(memory.read()).toBeUndefined();
});
