/** Letters of the loading lever stand clear of lines, of weights and of one another, on a phone and for places that somebody may slide to. */
import { describe, expect, test } from 'vitest';
import { leverFigureFrom, loadingLever, type FigureValue, type LeverRole } from '../../../src/figures/drawings/index.ts';
import { clashes } from './letter-boxes.ts';

/** Widths of the column on a phone of 360 and of 390 px, of a tablet and of a desk. */
const WIDTHS = [328, 358, 420, 520, 640, 700, 900];
const POSITIONS: ReadonlySet<LeverRole> = new Set(['x1', 'x2', 'x3', 'hanger', 'gb', 'hc', 'low', 'high', 'moved', 'wanted']);
const SYMBOLS: Partial<Record<LeverRole, string>> = { W1: 'W_1', W2: 'W_2', W3: 'W_3', Wb: 'W_b', Wc: 'W_c', x1: 'x_1', x2: 'x_2', x3: 'x_3', hanger: 'h', gb: 'g_b', hc: 'h_c', R: 'R_O', wanted: 'x_w' };

/** Invented, as the sheet's example is. */
const SHIPPED: Partial<Record<LeverRole, number>> = {
  W1: 40.004, x1: 0.3915, W2: 9.9984, x2: 0.25, W3: 2.0016, x3: 0.15, Wb: 8.9976, gb: 0.18, Wc: 12, hc: 0.2, hanger: 0.06, low: 0.09, high: 0.45,
  F: 294.68, R: -221.68, moved: 0.3915, wanted: 0.39123,
};
const SET_UPS: readonly (readonly [name: string, setUp: Partial<Record<LeverRole, number>>])[] = [
  ['as shipped', SHIPPED],
  ['the beam’s centre under a weight', { ...SHIPPED, gb: 0.25 }],
  ['the beam’s centre between two weights', { ...SHIPPED, gb: 0.2 }],
  ['the beam’s centre at the hanger', { ...SHIPPED, gb: 0.07 }],
  ['weights together', { ...SHIPPED, x1: 0.3, x2: 0.28, x3: 0.26, moved: 0.3, wanted: 0.35 }],
  ['weights at the near end', { ...SHIPPED, x1: 0.13, x2: 0.11, x3: 0.09, moved: 0.13, wanted: 0.2 }],
  ['weights at the far end', { ...SHIPPED, x1: 0.45, x2: 0.43, x3: 0.41, moved: 0.45, wanted: 0.1 }],
  ['the counterweight close', { ...SHIPPED, hc: 0.03 }],
  ['no counterweight', { ...SHIPPED, Wc: 0 }],
];

function drawn(setUp: Partial<Record<LeverRole, number>>, width: number, textSize?: number): string {
  const values = Object.fromEntries(Object.entries(setUp).map(([role, si]): [string, FigureValue] => [role, {
    si, text: POSITIONS.has(role as LeverRole) ? `${(si * 1e3).toFixed(2)} mm` : `${si.toPrecision(5)} N`, symbol: SYMBOLS[role as LeverRole] ?? role, hidden: false, ...(/^(x\d|h)/u.test(role) ? { given: role } : {}),
  }]));
  return loadingLever(leverFigureFrom(values, (si) => `${(si * 1e3).toFixed(1)} mm`), { width, idPrefix: 'lever', ...(textSize === undefined ? {} : { textSize }) }).svg;
}

describe.each(SET_UPS)('%s', (_name, setUp) => {
  test.each(WIDTHS)('at %i px', (width) => {
    expect(clashes(drawn(setUp, width))).toEqual([]);
  });
});
