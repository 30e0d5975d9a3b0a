/** What was worked out once for an object is not worked out again. */
import { expect, test } from 'vitest';
import { atHand, remembered, rememberedShortTexts, rememberedTexts } from '../../src/core/remembered/index.ts';

test('each key is worked out once, whatever came of it, and gives the same object again', () => {
  const asked: object[] = [];
  const twice = remembered((key: { readonly n: number }) => {
    asked.push(key);
    return key.n === 0 ? undefined : { n: 2 * key.n };
  });
  const [one, zero, like] = [{ n: 1 }, { n: 0 }, { n: 1 }];
  expect(twice(one)).toEqual({ n: 2 });
  expect(twice(one)).toBe(twice(one));
  expect(twice(like)).not.toBe(twice(one));
  expect([twice(zero), twice(zero)]).toEqual([undefined, undefined]);
  expect(asked).toEqual([one, like, zero]);
});

test('of texts the last so many are kept, and the one that came first gives way', () => {
  const asked: string[] = [];
  const letters = rememberedTexts(2, (text) => {
    asked.push(text);
    return text === '' ? undefined : { letters: text.length };
  });
  expect(letters('one')).toBe(letters('one'));
  expect([letters(''), letters('')]).toEqual([undefined, undefined]);
  expect(letters('three')).toEqual({ letters: 5 });
  expect(asked).toEqual(['one', '', 'three']);
  letters('');
  letters('one');
  expect(asked).toEqual(['one', '', 'three', 'one']);
});

test('a long text is worked on each time, and puts none of the kept ones out', () => {
  const asked: string[] = [];
  const letters = rememberedShortTexts(1, 3, (text) => {
    asked.push(text);
    return { letters: text.length };
  });
  expect(letters('one')).toBe(letters('one'));
  expect(letters('three')).not.toBe(letters('three'));
  expect(letters('one')).toEqual({ letters: 3 });
  expect(asked).toEqual(['one', 'three', 'three']);
});

test('what is a part by itself is brought once, used at once from then on, and tried again where it did not come', async () => {
  let asked = 0;
  const part = atHand('words', async () => {
    asked += 1;
    if (asked === 1) throw new Error('gone');
    return `brought ${asked}`;
  });
  expect(part.isThere()).toBe(false);
  expect(() => part.use()).toThrow('words asked for before they are there');
  await expect(part.bring()).rejects.toThrow('gone');
  expect(await Promise.all([part.bring(), part.bring()])).toEqual(['brought 2', 'brought 2']);
  expect([part.isThere(), part.use(), asked]).toEqual([true, 'brought 2', 2]);
  // What was given beforehand is not brought.
  const given = atHand<number>('numbers', () => Promise.reject(new Error('never')));
  given.give(7);
  expect(await given.bring()).toBe(7);
});
