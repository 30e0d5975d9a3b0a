/** Letters stand clear of lines, of arrows and of one another, at every width and for spans that somebody may slide to. */
import { describe, expect, test } from 'vitest';
import { freeBody, shearMoment } from '../../../src/figures/drawings/index.ts';
import { figureOf, SYMMETRIC, type SetUp } from './sheet-values.ts';
import { clashes } from './letter-boxes.ts';

/** Widths of the column, of a phone, and of the drawing that stays on a wall. */
const WIDTHS = [328, 358, 420, 520, 640, 700, 900];
const SET_UPS: readonly (readonly [name: string, setUp: SetUp])[] = [
  ['as shipped', { L: 0.4001, s1: 0.1003, s2: 0.1996, s3: 0.1002, F1: 99.6, F2: 99.6, xs: 0.1998, d: 7.52e-3 }],
  ['symmetric', SYMMETRIC],
  ['small s_1, big s_2', { ...SYMMETRIC, s1: 0.03, s2: 0.32, s3: 0.1 }],
  ['smallest s_1', { ...SYMMETRIC, s1: 0.01, s2: 0.34, s3: 0.1 }],
  ['loads together', { ...SYMMETRIC, s1: 0.2, s2: 0.05, s3: 0.2 }],
  ['big s_1', { ...SYMMETRIC, s1: 0.25, s2: 0.1, s3: 0.1, xs: 0.3 }],
  ['section beside a load', { ...SYMMETRIC, xs: 0.11 }],
  ['section under a load', { ...SYMMETRIC, xs: 0.1 }],
  ['section beside a support', { ...SYMMETRIC, xs: 0.02 }],
  ['spans that do not close', { ...SYMMETRIC, s2: 0.22 }],
  ['unequal loads', { ...SYMMETRIC, s1: 0.05, s2: 0.3, s3: 0.1, F1: 300, F2: 40 }],
];

describe.each(SET_UPS)('%s', (_name, setUp) => {
  test.each(WIDTHS)('at %i px', (width) => {
    for (const textSize of [undefined, 20]) {
      const options = { width, idPrefix: 'one', ...(textSize === undefined ? {} : { textSize }) };
      for (const drawing of [freeBody(figureOf(setUp), options), shearMoment(figureOf(setUp), options)]) {
        expect(clashes(drawing.svg), `letters of ${textSize ?? 'usual'} size`).toEqual([]);
      }
    }
  });
});

test('what the boxes are for: a letter on a line is told', () => {
  const svg = '<svg><line class="extension-line" x1="10" y1="0" x2="10" y2="50"/><text class="value" x="10" y="30" text-anchor="middle" font-size="12"><tspan>d</tspan></text></svg>';
  expect(clashes(svg)).toEqual(['d on extension-line']);
});
