import fc from 'fast-check';
import { isDeepStrictEqual as equals } from 'node:util';
import { describe, expect, it } from 'vitest';
import { plainGroup } from '../../src/sheet/plain-body.ts';
import { splitText } from '../../src/sheet/split.ts';
import { groupOf, type Group } from '../../src/sheet/tree.ts';
import type { BodyProblem } from '../../src/sheet/body-problem.ts';
import { readBody } from '../../src/sheet/yaml-body.ts';
import { neutral, SHIPPED, shipped, shortSheet } from '../shipped.ts';
import { size } from '../sizes.ts';

const bodiesOf = (text: string): readonly string[] => splitText(text).segments.flatMap((segment) => (segment.kind === 'cell' ? [segment.body] : []));

/** What the reader of all of YAML makes of a body, with what it tells of it. */
function byYaml(body: string): { readonly group: Group; readonly problems: readonly BodyProblem[] } {
  const { entries, problems, form } = readBody(body);
  const told = [...problems];
  const group = groupOf(body, entries, told);
  return { group, problems: form === 'none' && told.length === 0 ? [{} as BodyProblem] : told };
}

/** What is read differently, with the body; undefined where both readers read the same, or the body is not plain. */
function difference(body: string): unknown {
  const plain = plainGroup(body);
  if (plain === undefined) return undefined;
  const [one, other] = [{ group: plain, problems: [] }, byYaml(body)];
  return equals(one, other) ? undefined : { body, one, other };
}

const everyBody = [...new Set([...SHIPPED.flatMap((name) => [...bodiesOf(neutral(name)), ...bodiesOf(shipped(name))]), ...bodiesOf(shortSheet())])];

describe('a body that is written plainly', () => {
  it('is read as YAML reads it, in every sheet that ships', () => {
    expect(everyBody.map(difference).filter((one) => one !== undefined)).toEqual([]);
  });

  it('is nearly every body of the sheet that the page begins with', () => {
    const bodies = bodiesOf(shipped('rotating-bending'));
    const left = bodies.filter((body) => plainGroup(body) === undefined);
    expect(left.length / bodies.length, left.join('\n---\n')).toBeLessThan(0.05);
  });

  it.each([
    ['a: b: c'], ['a: b #c'], ['a: b\n  c'], ['a: &x b'], ['a: *x'], ['a: !t b'], ['a: [b]'], ['a: {b: c}'], ['a: >\n  b'], ['a: |-\n  b'], ['a: |\n\n  b'], ['a: |\n  b\n c'],
    ['a: "b\\n"'], ['a: \'b\'\'c\''], ['a: "b" c'], ['a:\n- b'], ['a:\n  - b\n - c'], ['a: b\na: c'], ['- a'], ['a'], ['---\na: b'], ['a: b\n...'], ['%T\na: b'], ['a\t: b'], ['a: b\r\nc: d'],
    ['? a\n: b'], ['a : b'], ['a  b: c'], ['a #b: c'], [`${'a'.repeat(1100)}: b`], ['"a": b'], [' a: b\nc: d'], ['a: @b'], ['a: `b'], ['a: - b'], ['a: b:'], ['a:\n  b: c\n d: e'], ['# a'], ['a: |\n  b\n \n  c'], ['a: |\n  b\n   \n'],
  ])('is not %j', (body) => {
    expect(plainGroup(body)).toBeUndefined();
  });

  it.each([
    [''], ['\n \n'], ['a: b'], ['a: b\n'], ['a: b  \n\nc: d\n\n'], ['a: -5 mm'], ['a:'], ['a:\nb: c'], ['a: "b: c # d"'], ['a: \'b "c"\''], ['a: b:c#d'], ['a: x[1], {y}'], ['a: |\n  b\n    c\n\n  d\ne: f'], ['a: |\n  b'], ['a: |\n  b\n\n\n'],
    ['a:\n  - b\n  - c: d\n    e: f\n  - "g"\nh: i'], ['a:\n  b: c\n  d:\n    e: f'], ['σ_a: 3'], ['low cycle: 1\nsum n_i-: 2'], ['a:\n  -  b: c\n     d: e'], ['a:\n    - b\nc: d'],
  ])('is %j', (body) => {
    expect(plainGroup(body)).toBeDefined();
    expect(difference(body)).toBeUndefined();
  });

  it('is read as YAML reads it whatever is changed in it', () => {
    const sign = fc.constantFrom(...'abz01 \n\n:-?#&*!|>\'"%@`,[]{}()=~+.\t\r\\_é\u00a0\u2028\ufeff', '  ', ': ', ' #', '- ', '\n  ', '\n- ', '\n    ', '|\n', '>\n', '---\n', '...\n', '"', 'a: b\n');
    const change = fc.record({ at: fc.double({ min: 0, max: 1, noNaN: true }), removed: fc.nat(4), added: fc.array(sign, { maxLength: 3 }) });
    const few = everyBody.filter((body) => body.length < 600);
    fc.assert(fc.property(fc.nat(few.length - 1), fc.array(change, { minLength: 1, maxLength: 4 }), (which, changes) => {
      let body = few[which] ?? '';
      for (const { at, removed, added } of changes) {
        const place = Math.floor(at * body.length);
        body = body.slice(0, place) + added.join('') + body.slice(place + removed);
      }
      expect(difference(body)).toBeUndefined();
    }), { numRuns: size(3000, 400_000) });
  });

  it('is read as YAML reads it whatever it is made of', () => {
    const piece = fc.constantFrom('a', 'b', ' ', '  ', '    ', '\n', '\n', ':', ': ', '- ', '-', '"', '\'', '|', '>', '#', ' #', '1', '[', ']', '\n  ', '\n    ', 'a: b\n', 'c:\n', '  - d\n', '  e: f\n');
    fc.assert(fc.property(fc.array(piece, { maxLength: 24 }), (pieces) => {
      expect(difference(pieces.join(''))).toBeUndefined();
    }), { numRuns: size(3000, 400_000) });
  });
});
