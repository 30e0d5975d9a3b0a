/** A place that is dragged shifts what was typed; inch factors: NIST SP 811 (2008), 1 in = 25.4 mm exactly. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseSheet } from '../../src/sheet/index.ts';
import { sameNumber, shiftText, stepOf } from '../../src/view/shift.ts';

const readings = (text: string) => ({ value: undefined, readings: text });
const value = (text: string) => ({ value: text, readings: undefined });

describe('a given shifted by a distance', () => {
  test.each([
    ['every reading by the same', readings('101.0, 101.5 mm'), 0.5e-3, readings('101.5, 102.0 mm')],
    ['down', readings('101.0, 101.5 mm'), -2e-3, readings('99.0, 99.5 mm')],
    ['in the unit it was typed in', value('10.15 cm'), 0.5e-3, value('10.20 cm')],
    ['with more places where the step needs them', value('200 mm'), 0.5e-3, value('200.5 mm')],
    ['sixty-fourths of an inch', value('4 in'), 0.0254 / 64, value('4.015625 in')],
    ['a fraction becomes decimal', value('1 1/4 in'), 0.0254 / 64, value('1.265625 in')],
    ['a decimal comma stays', readings('6,35; 6,36 mm'), 1e-5, readings('6,36; 6,37 mm')],
    ['a stated uncertainty stays', value('200.5 ± 0.5 mm'), 1e-3, value('201.5 ± 0.5 mm')],
    ['with the unit said before the uncertainty', value('200.5 mm ± 0.5 mm'), 1e-3, value('201.5 mm ± 0.5 mm')],
    ['a bare number is in the unit of the cell', value('200.5'), 1e-3, value('201.5')],
    ['units of their own', readings('4.00 in, 101.5 mm'), 0.0254, readings('5.00 in, 126.9 mm')],
    ['no minus before zero', value('0.5 mm'), -0.5e-3, value('0.0 mm')],
  ])('%s', (_what, before, by, after) => {
    expect(shiftText(before, by, 'mm')).toEqual(after);
  });

  test('text without a number is left alone', () => {
    expect(shiftText(readings('abc, 101.5 mm'), 1e-3, 'mm')).toBeUndefined();
    expect(shiftText(value(''), 1e-3, 'mm')).toBeUndefined();
    expect(shiftText(value('6.35 furlongs'), 1e-3, 'mm')).toBeUndefined();
  });

  test('there and back is no change', () => {
    const steps = fc.integer({ min: -200, max: 200 });
    fc.assert(fc.property(fc.integer({ min: 2000, max: 9000 }), fc.integer({ min: 2000, max: 9000 }), steps, (a, b, step) => {
      const text = readings(`${(a / 10).toFixed(1)}, ${(b / 10).toFixed(1)} mm`);
      const there = shiftText(text, step * 0.5e-3, 'mm');
      expect(there === undefined ? undefined : shiftText(there, -step * 0.5e-3, 'mm')).toEqual(text);
    }));
  });
});

test.each([
  ['101.5 mm', '101.50 mm', true], ['101,5 mm', '101.5 mm', true], ['101.5 mm', '101.6 mm', false], ['101.5 mm', '101.5 cm', false], ['a', 'a', false],
])('%s and %s are the same value: %s', (a, b, same) => {
  expect(sameNumber(a, b)).toBe(same);
});

describe('the step of a place', () => {
  const given = (lines: string) => {
    const [block] = parseSheet(`\`\`\`given\nsymbol: s\n${lines}\n\`\`\`\n`).blocks;
    if (block?.kind !== 'cell' || block.cell.kind !== 'given') throw new Error('no given');
    return block.cell;
  };

  test.each([
    ['the instrument’s resolution', 'value: 1 mm\nunit: mm\ninstrument: steel rule, 1 mm', 1e-3],
    ['a resolution of its own', 'value: 1 mm\nunit: mm\ninstrument: steel rule, 1 mm\nresolution: 0.2 mm', 0.2e-3],
    ['half a millimetre', 'value: 1 mm\nunit: mm', 0.5e-3],
    ['a sixty-fourth of an inch', 'value: 4 in\nunit: in', 0.0254 / 64],
  ])('%s', (_what, lines, step) => {
    expect(stepOf(given(lines), undefined)).toBeCloseTo(step, 12);
  });
});
