import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { freeBody, shearMoment } from '../../../src/figures/drawings/index.ts';
import { figureOf, SYMMETRIC, UNEQUAL } from './sheet-values.ts';
import { all, readSvg } from './svg-reading.ts';

const css = readFileSync(new URL('../../../src/figures/drawings.css', import.meta.url), 'utf8');
const drawings = [SYMMETRIC, UNEQUAL, { ...SYMMETRIC, s1: 0.01, s2: 0.34 }].flatMap((setUp) => [
  freeBody(figureOf(setUp), { width: 360, idPrefix: 'a' }), shearMoment(figureOf(setUp), { width: 360, idPrefix: 'b' }),
]);

describe('looks come from class names alone', () => {
  test('no colour and no style in the markup', () => {
    for (const { svg } of drawings) expect(svg).not.toMatch(/style=|stroke=|fill="(?!url)|#[0-9a-f]{3,6}"/);
  });

  test('every shape carries a class that the style sheet knows', () => {
    const shapes = drawings.flatMap(({ svg }) => all(readSvg(svg))).filter((element) => /^(line|polyline|polygon|path|circle|text)$/.test(element.name));
    const classes = new Set(shapes.map((element) => element.attributes['class'] ?? ''));
    const plainInk = new Set(['area', 'value', 'axis-word']);
    for (const list of classes) {
      const known = list.split(' ').some((name) => plainInk.has(name) || new RegExp(`\\.${name}(?![\\w-])`).test(css));
      expect(known, list).toBe(true);
    }
  });

  test('every colour comes from the page, with a fallback, and both accents are told apart from ink', () => {
    for (const token of ['ink', 'ink-soft', 'paper', 'yours', 'look', 'rule']) expect(css).toMatch(new RegExp(`var\\(--${token}, #[0-9a-f]{6}\\)`));
  });
});
