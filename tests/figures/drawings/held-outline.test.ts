/** A held state behind a drawing: geometry on the same scale, only where it differs, and nothing of what is hidden. */
import { describe, expect, test } from 'vitest';
import { freeBody, shearMoment, showsHeld, type Drawing } from '../../../src/figures/drawings/index.ts';
import { figureOf, SYMMETRIC } from './sheet-values.ts';
import { readSvg, withClass } from './svg-reading.ts';

const options = { width: 640, idPrefix: 'held' };
const NOW = figureOf(SYMMETRIC);
const HELD = figureOf({ ...SYMMETRIC, s1: 0.12, s2: 0.21, s3: 0.12, F1: 150, F2: 150, xs: 0.2 });

const outlines = (drawing: Drawing) => withClass(readSvg(drawing.svg), 'held-outline');
const startOf = (path: string): number[] => path.slice(2).split(' ').slice(0, 2).map(Number);

describe('the reference behind a drawing', () => {
  test('forces stand where they stood, as long as their share of the largest of both', () => {
    const drawing = freeBody(NOW, options, HELD);
    const [left] = withClass(readSvg(drawing.svg), 'load');
    const now = Number(withClass(left ?? readSvg(drawing.svg), 'force-line')[0]?.attributes['x1']);
    const arrows = outlines(drawing).flatMap(({ attributes: { d } }) => (d === undefined ? [] : [d]));
    expect(arrows).toHaveLength(4);
    const [x = 0, tail = 0] = startOf(arrows[0] ?? '');
    expect((x - now) / drawing.pxPerMetre).toBeCloseTo(0.02, 4);
    const whole = freeBody(NOW, options);
    const longest = Number(withClass(withClass(readSvg(whole.svg), 'load')[0] ?? readSvg(whole.svg), 'force-line')[0]?.attributes['y1']);
    const tip = Number((/L [\d.]+ ([\d.]+)/.exec(arrows[0] ?? '') ?? [])[1]);
    expect((tip - tail) / (tip - longest)).toBeCloseTo(150 / 200, 2);
    expect(drawing.sentence).toBe(whole.sentence);
  });

  test('the held moment is drawn to the scale of the diagram, which holds both', () => {
    const [, moment] = outlines(shearMoment(NOW, options, HELD));
    const points = (moment?.attributes['points'] ?? '').split(' ').map((pair) => pair.split(',').map(Number));
    const curve = withClass(readSvg(shearMoment(NOW, options, HELD).svg), 'curve')[1]?.attributes['points']?.split(' ').map((pair) => pair.split(',').map(Number)) ?? [];
    const height = (list: readonly number[][]): number => (list[0]?.[1] ?? 0) - Math.min(...list.map(([, y = 0]) => y));
    // Moment between the loads: F·s_1 = 150·0.12 = 18 N m, and 200·0.1 = 20 N m.
    expect(height(points) / height(curve)).toBeCloseTo(18 / 20, 2);
    const larger = shearMoment(HELD, options, NOW);
    expect(Math.min(...outlines(larger).flatMap(({ attributes }) => (attributes['points'] ?? '').split(' ').map((pair) => Number(pair.split(',')[1]))))).toBeGreaterThan(0);
  });

  test('what is the same leaves no trace', () => {
    for (const draw of [freeBody, shearMoment]) {
      expect(showsHeld(draw(NOW, options, figureOf(SYMMETRIC)))).toBe(false);
      expect(draw(NOW, options, figureOf(SYMMETRIC)).svg).toBe(draw(NOW, options).svg);
    }
  });

  test('what is still to be worked out shows neither now nor then', () => {
    const roles = ['F1', 'F2', 'RA', 'RB', 'shear', 'moment'] as const;
    const hiddenThen = figureOf({ ...SYMMETRIC, F1: 90, F2: 90 }, roles);
    expect(showsHeld(freeBody(NOW, options, hiddenThen))).toBe(false);
    expect(showsHeld(shearMoment(NOW, options, hiddenThen))).toBe(false);
    expect(showsHeld(shearMoment(figureOf(SYMMETRIC, roles), options, HELD))).toBe(false);
    expect(showsHeld(freeBody(figureOf(SYMMETRIC, roles), options, figureOf({ ...SYMMETRIC, F1: 90, F2: 90 })))).toBe(false);
  });
});
