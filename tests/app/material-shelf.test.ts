/** Materials kept in the browser's small storage: one name, one material; what is none there is passed over and left as it is. */
import { describe, expect, test } from 'vitest';
import { createMaterialShelf } from '../../src/app/material-shelf.ts';
import type { OwnMaterial } from '../../src/graph/index.ts';

const steel = (name: string, strength = '655 MPa'): OwnMaterial => ({ name, kind: 'steel', values: new Map([['S_ut', strength]]), hardness: '', source: 'invented' });

function shelfWith(text: string | null) {
  const kept = { text };
  const shelf = createMaterialShelf(() => ({ getItem: () => kept.text, setItem: (_key, value) => void (kept.text = value) }));
  return { kept, shelf };
}

describe('the materials of this browser', () => {
  test('are had by name, and once', () => {
    const { shelf } = shelfWith(null);
    expect(shelf.keep(steel('Heat 9')) && shelf.keep(steel('Heat 7')) && shelf.keep(steel('Heat 7'))).toBe(true);
    expect(shelf.all()).toEqual([steel('Heat 7'), steel('Heat 9')]);
    expect(shelf.drop('Heat 9')).toBe(true);
    expect(shelf.all().map(({ name }) => name)).toEqual(['Heat 7']);
  });

  test('are not written over in silence', () => {
    const { shelf } = shelfWith(null);
    shelf.keep(steel('Heat 7'));
    expect(shelf.keep(steel('heat 7 ', '640 MPa'))).toBe(false);
    expect(shelf.all()).toEqual([steel('Heat 7')]);
    expect(shelf.keep(steel('Heat 7', '640 MPa'), true)).toBe(true);
    expect(shelf.all()).toEqual([steel('Heat 7', '640 MPa')]);
  });

  test.each(['', '{', '7', '{"a":1}', '[null, 7, {"source":"x","entries":{"name":"y"}}, {"source":1}]', '[{"source":"","entries":{"name":"y","kind":"steel","S_ut":"=cmd"}}]'])('are none in %s', (text) => {
    expect(shelfWith(text).shelf.all()).toEqual([]);
  });

  test('stay beside what something else wrote', () => {
    const { kept, shelf } = shelfWith('[{"newer":"form"}]');
    shelf.keep(steel('Heat 7'));
    expect(shelf.all().length).toBe(1);
    shelf.drop('Heat 7');
    expect(kept.text).toBe('[{"newer":"form"}]');
  });

  test('are refused in so many words where the browser refuses, and where the list is full', () => {
    const refuse = (): never => {
      throw new Error('refused');
    };
    const refusing = createMaterialShelf(() => ({ getItem: refuse, setItem: refuse }));
    expect([refusing.all(), refusing.keep(steel('x')), refusing.drop('x')]).toEqual([[], false, false]);
    const { shelf } = shelfWith(null);
    for (let i = 0; i < 200; i += 1) shelf.keep(steel(`Heat ${i}`));
    expect(shelf.keep(steel('one more'))).toBe(false);
    expect(shelf.all().length).toBe(200);
  });
});
