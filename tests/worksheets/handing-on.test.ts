/** No number is typed twice between the shipped sheets: what one of them takes over, another works out, in the same dimension. */
import { describe, expect, test } from 'vitest';
import { parseUnit } from '../../src/core/units/index.ts';
import { cellsOf, parseSheet } from '../../src/sheet/index.ts';
import { SHIPPED, shipped } from '../shipped.ts';

const sheets = SHIPPED.map((name) => ({ name: `${name}.md`, document: parseSheet(shipped(name)) }));
const takers = sheets.flatMap(({ name, document }) => cellsOf(document, 'given').flatMap(({ symbol, elsewhere, unit }) => (elsewhere === undefined ? [] : [{ name, symbol, elsewhere, unit }])));

describe('what a sheet takes over', () => {
  test('is the notch of the specimen, the moment and the load', () => {
    expect(takers.map(({ name, symbol }) => `${name} ${symbol}`)).toEqual(expect.arrayContaining([
      'rotating-bending.md K_t', 'rotating-bending.md q', 'rotating-bending.md c_v', 'rotating-bending.md k_F', 'rotating-bending.md F',
      'alternating-bending.md K_t', 'alternating-bending.md q', 'specimen.md M_s', 'specimen.md V_s',
    ]));
  });

  test.each(takers.map((taker) => [`${taker.symbol} of ${taker.name}`, taker] as const))('%s', (_what, { name, elsewhere, unit }) => {
    const from = sheets.filter((sheet) => sheet.name !== name).flatMap(({ document }) => cellsOf(document, 'step').filter(({ symbol }) => symbol === elsewhere));
    expect(from.length).toBeGreaterThan(0);
    const [wanted, ...given] = [unit, ...from.map((step) => step.unit ?? '')].map((text) => {
      const read = parseUnit(text);
      return read.ok ? read.value.dimension : text;
    });
    for (const dimension of given) expect(dimension).toEqual(wanted);
  });
});
