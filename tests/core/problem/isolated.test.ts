/**
 * A document's text turns nothing beside it. What its signs of direction do is reckoned by the rules of Unicode Standard Annex 9, The Unicode
 * Bidirectional Algorithm (X1 to X8), in tests/directions.ts.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { composed, isolated, isolatedQuotes } from '../../../src/core/problem/index.ts';
import { HOSTILE, standings, turnedWords } from '../../directions.ts';

const SIGNS = ['\u061c', '\u200e', '\u200f', '\u202a', '\u202b', '\u202c', '\u202d', '\u202e', '\u2066', '\u2067', '\u2068', '\u2069'];
const text = fc.array(fc.constantFrom(...SIGNS, 'ж', 'ш', 'ש', 'ع', ' ', '“', '”', '`', '\n', '\u2029', '\u0085', '\u001c'), { maxLength: 40 }).map((parts) => parts.join(''));
/** Deeper than levels go. */
const deep = fc.tuple(text, fc.integer({ min: 0, max: 150 }), fc.constantFrom(...SIGNS)).map(([one, times, sign]) => sign.repeat(times) + one);
const any = fc.oneof(text, deep);

describe('isolated', () => {
  it.each(HOSTILE)('%j turns the words behind it, and no more once isolated', (hostile) => {
    expect(turnedWords(`before ${hostile} behind 12 mm`)).not.toEqual([]);
    expect(turnedWords(`before ${isolated(hostile)} behind 12 mm`)).toEqual([]);
    expect(turnedWords(composed`before ${hostile} behind ${12} mm ${hostile} and`)).toEqual([]);
    expect(turnedWords(isolatedQuotes(`before “${hostile}” behind 12 mm, \`${hostile}\` and`))).toEqual([]);
  });

  it('leaves what stands before and behind as it would be without', () => {
    fc.assert(fc.property(any, (one) => {
      const all = standings(`before 1${isolated(one)}behind 2`);
      expect(all.slice(0, 8).concat(all.slice(-8))).toEqual(standings('before 1behind 2'));
    }));
  });

  it('takes no sign away, and puts only an isolate’s own before and behind a paragraph', () => {
    const paragraphs = (whole: string): readonly string[] => whole.split(/[\n\u2029\u0085\u001c]/u);
    fc.assert(fc.property(any, (one) => {
      const before = paragraphs(one);
      const after = paragraphs(isolated(one));
      expect(after.length).toBe(before.length);
      for (const [i, paragraph] of after.entries()) {
        const rest = before[i] ?? '';
        expect(paragraph).toContain(rest);
        expect(paragraph.replace(rest, '')).toMatch(/^\u2068*\u2069*$/u);
      }
    }));
  });

  it('does nothing twice', () => {
    fc.assert(fc.property(any, (one) => {
      expect(isolated(isolated(one))).toBe(isolated(one));
    }));
  });

  it('leaves a composed sentence alone, whatever is quoted in it', () => {
    fc.assert(fc.property(any, any, (one, other) => {
      expect(turnedWords(isolatedQuotes(`first “${one}” second \`${other}\` third “${isolated(one)}” fourth`))).toEqual([]);
      const sentence = composed`${one}: second ${other}, third`;
      expect(turnedWords(sentence)).toEqual([]);
      expect(turnedWords(isolatedQuotes(sentence))).toEqual([]);
    }));
  });

  it.each(['', 'Diameter', '12 ± 0.1 mm', 'σ_a “x” `y`', 'Ж\u200b\u00ad', '\u2067\u202eж\u2069', 'a\nb', 'a\u2029b'])('%j stays as it is', (plain) => {
    expect(isolated(plain)).toBe(plain);
    expect(isolatedQuotes(plain)).toBe(plain);
    expect(composed`${plain}`).toBe(plain);
  });

  it('letters that run from the right draw no number beside them along', () => {
    expect(isolated('קוטר')).toBe('\u2068קוטר\u2069');
    expect(composed`${'קוטר'}, ${2} mm`).toBe('\u2068קוטר\u2069, 2 mm');
    expect(isolatedQuotes('קוטר “ד” של')).toBe('\u2068קוטר “ד” של\u2069');
  });

  it('long texts of signs are isolated in a moment', () => {
    const started = performance.now();
    for (const sign of SIGNS) expect(isolated(sign.repeat(200_000)).length).toBeGreaterThanOrEqual(200_000);
    expect(performance.now() - started).toBeLessThan(5000);
  });
});
