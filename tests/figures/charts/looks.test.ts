import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { fitLeastSquares } from '../../../src/core/fatigue/index.ts';
import { constantLifeChart, contourChart, normalScoreChart, residualChart, snChart, staircaseChart, sweepChart, type Chart } from '../../../src/figures/charts/index.ts';
import { all, readSvg } from '../drawings/svg-reading.ts';
import { snOf, TESTS, TEXTS } from './chart-data.ts';
import { contourOf, sweepOf } from './sweep-data.ts';

const css = ['drawings', 'charts'].map((name) => readFileSync(new URL(`../../../src/figures/${name}.css`, import.meta.url), 'utf8')).join('\n');

function charts(): Chart[] {
  const fitted = fitLeastSquares({ stressMpa: TESTS.map(({ S }) => S), cycles: TESTS.map(({ N }) => N), outcomes: TESTS.map(({ outcome = 'fracture' }) => outcome) }, { model: 'linear', stress: 'log' });
  if (!fitted.ok) throw new Error(fitted.problem.what);
  const { residuals, s } = fitted.value;
  const data = { residuals, s, name: ({ row }: { row: number }) => `K${row}`, texts: TEXTS };
  const many = Array.from({ length: 3000 }, (_, i) => ({ S: 300 + (i % 7), N: 1e5 * (1 + (i % 90)), outcome: i % 3 === 0 ? 'runout' as const : 'fracture' as const }));
  return [700, 345].flatMap((width) => [
    snChart(snOf([...TESTS, { S: 420, N: 1e5, outcome: 'invalid' }], { line: { fitted: fitted.value }, current: { stressMpa: 350, life: { median: 1e6, low: 3e5, high: 4e6 } } }), { width, idPrefix: 'a' }),
    snChart(snOf(many), { width, idPrefix: 'b' }),
    residualChart(data, { width, idPrefix: 'c' }),
    normalScoreChart(data, { width, idPrefix: 'd' }),
    constantLifeChart({
      correction: 'gerber', correctionName: 'Gerber', constants: { tensile: 630, yield: 530 }, specimen: { amplitude: 300, mean: 60 }, reversed: 303, limit: 280, factor: 1.2, texts: TEXTS,
    }, { width, idPrefix: 'f' }),
    sweepChart(sweepOf(), { width, idPrefix: 'g' }),
    contourChart(contourOf(), { width, idPrefix: 'h' }),
    staircaseChart({ levels: [300, 280, 300], outcomes: ['fracture', 'runout', 'invalid'], name: String, unit: 'MPa', level: TEXTS.stress, mean: 290, next: 300 }, { width, idPrefix: 'e' }),
  ]);
}

describe('looks come from class names alone', () => {
  test('no colour, no style, no face of letters, no words on parts in the markup', () => {
    for (const { svg } of charts()) {
      expect(svg).not.toMatch(/ style=| stroke[\w-]*=| fill="| font-family=|#[0-9a-f]{3,6}"|<style/);
      expect(svg.replace(/^<svg[^>]*>/, '')).not.toMatch(/ (?:aria-[\w-]+|role)=/);
    }
  });

  test('every chart is an image with a name and a description', () => {
    for (const { svg, description } of charts()) {
      const root = readSvg(svg);
      expect(root.attributes['role']).toBe('img');
      expect(root.attributes['aria-labelledby']).toBe(root.children.slice(0, 2).map(({ attributes }) => attributes['id']).join(' '));
      expect(root.children.slice(0, 2).map(({ name }) => name)).toEqual(['title', 'desc']);
      expect(description.length).toBeGreaterThan(40);
    }
  });

  test('every shape, or the group it is in, carries a class that the style sheets know', () => {
    const plainInk = new Set(['axis-word', 'axis-figure', 'value', 'word', 'count-figure', 'level-figure']);
    const known = (list: string): boolean => list.split(' ').some((name) => plainInk.has(name) || (name !== '' && new RegExp(`\\.${name}(?![\\w-])`).test(css)));
    for (const { svg } of charts()) {
      for (const group of all(readSvg(svg))) {
        for (const shape of group.children.filter(({ name }) => /^(line|polyline|polygon|path|circle|rect|text)$/.test(name))) {
          const list = `${shape.attributes['class'] ?? ''} ${group.name === 'g' ? (group.attributes['class'] ?? '') : ''}`;
          expect(known(list), `${shape.name}: ${list}`).toBe(true);
        }
      }
    }
  });
});
