/** A sign that nobody sees is told by name wherever a number, a unit, a symbol or a formula is read, and never taken away unasked. */
import { describe, expect, it } from 'vitest';
import { parseMeasurement, parseReadings } from '../../../src/core/estimate/index.ts';
import { checkSymbolName, parseFormula } from '../../../src/core/formula/index.ts';
import { invisibleSign, problemSentence, withSignsShown, type Result } from '../../../src/core/problem/index.ts';
import { parseNumber, parseQuantity, parseUnit } from '../../../src/core/units/index.ts';
import { problemOf, underlined, unitOf } from '../units/read.ts';

/** From the first to the last code. */
function codes(first: number, last: number): number[] {
  return Array.from({ length: last - first + 1 }, (_, i) => first + i);
}

const SIGNS = [0xad, ...codes(0x200b, 0x200f), ...codes(0x202a, 0x202e), ...codes(0x2060, 0x2064), ...codes(0x2066, 0x2069), 0xfeff, 0xe0001, ...codes(0xe0020, 0xe007f)]
  .map((code) => String.fromCodePoint(code));

const mm = unitOf('mm');
const READERS: readonly (readonly [name: string, text: string, read: (text: string) => Result<unknown>])[] = [
  ['a number', '12.5', parseNumber],
  ['a quantity', '12.5 mm', (text) => parseQuantity(text, mm)],
  ['a measurement', '12.5 ± 0.1 mm limit', (text) => parseMeasurement(text, mm)],
  ['readings', '[12.5, 12.6] mm', (text) => parseMeasurement(text, mm)],
  ['readings in a list', '12.5; 12.6 mm', (text) => parseReadings(text, mm)],
  ['a unit', 'N*m', parseUnit],
  ['a formula', 'F*a/2 + 3*unit(N*m)', parseFormula],
  ['a symbol', 'sigma_a', checkSymbolName],
];

describe('invisible signs', () => {
  it.each(READERS)('are told in %s, whichever and wherever they are', (_, text, read) => {
    expect(read(text).ok).toBe(true);
    for (const sign of SIGNS) {
      for (let place = 0; place <= text.length; place += 1) {
        const problem = problemOf(read(text.slice(0, place) + sign + text.slice(place)), text);
        expect(problem.code).toBe('invisible-sign');
        expect(underlined(problem)).toBe(sign);
        expect(problem.what).toContain(`U+${sign.codePointAt(0)?.toString(16).toUpperCase().padStart(4, '0')}`);
      }
    }
  });

  it.each([
    ['12\u200b.5 mm', 'An invisible sign, zero-width space (U+200B), stands after “12”. Delete it, or type this anew.'],
    ['\ufeff12', 'An invisible sign, byte order mark (U+FEFF), stands before “12”. Delete it, or type this anew.'],
    ['\u200b', 'An invisible sign, zero-width space (U+200B), stands here, and nothing else. Delete it, or type this anew.'],
    ['F\u2062a', 'An invisible sign, invisible times (U+2062), stands after “F”. Delete it, or write * in its place.'],
    ['d + \u202ea', 'An invisible sign, right-to-left override (U+202E), stands after “+”. Delete it, or type this anew.'],
    ['d\u{e0041}', 'An invisible sign, tag character (U+E0041), stands after “d”. Delete it, or type this anew.'],
    ['d\u034f', 'An invisible sign, U+034F, stands after “d”. Delete it, or type this anew.'],
  ])('%j is told in words', (text, sentence) => {
    const problem = invisibleSign(text);
    expect(problem === undefined ? '' : problemSentence(problem)).toBe(sentence);
  });

  it.each(['6.35 mm', '12\u202f345', '1\u00a0234', '10⁷', '30 °C', '20 µm', 'σ_a', '', ' '])('%j has none', (text) => {
    expect(invisibleSign(text)).toBeUndefined();
    expect(withSignsShown(text)).toBe(text);
  });

  it('stand as codes in the text that is shown beside the sentence', () => {
    expect(withSignsShown('12\u200b.5\u202e mm')).toBe('12⟨U+200B⟩.5⟨U+202E⟩ mm');
  });
});
