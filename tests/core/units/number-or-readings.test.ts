import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseMeasurement } from '../../../src/core/estimate/index.ts';
import { parseNumber, parseUnit, type Unit } from '../../../src/core/units/index.ts';

function mm(): Unit {
  const unit = parseUnit('mm');
  if (!unit.ok) throw new Error('mm');
  return unit.value;
}

describe('commas that may separate readings', () => {
  it.each([
    ['400,400,400 mm', 'The commas in “400,400,400” can be read in two ways: the one number 400400400, or the 3 readings 400; 400; 400? Write 400400400, or 400; 400; 400 with semicolons.'],
    ['400,401.5 mm', 'The commas in “400,401.5” can be read in two ways: the one number 400401.5, or the 2 readings 400; 401.5? Write 400401.5, or 400; 401.5 with semicolons.'],
  ])('%s is asked about', (text, asked) => {
    const read = parseMeasurement(text, mm());
    expect(read.ok ? read.value : `${read.problem.what} ${read.problem.mend}`).toBe(asked);
  });

  it.each([['400; 400; 400 mm', [0.4, 0.4, 0.4]], ['400, 400, 400 mm', [0.4, 0.4, 0.4]], ['[400, 401.5] mm', [0.4, 0.4015]], ['400400400 mm', [400400.4]]])('%s is what the advice says', (text, readings) => {
    expect(parseMeasurement(text, mm())).toMatchObject({ ok: true, value: { readings } });
  });

  it.each([['1,234,567', 1234567], ['1,234.5', 1234.5], ['12.345.678', 12345678], ['100,000,000', 1e8]])('%s is one number, and says so', (text, value) => {
    expect(parseNumber(text)).toMatchObject({ ok: true, value: { value, echo: expect.stringMatching(/^read as/) } });
  });

  it('readings of three digits joined by commas are never one number in silence', () => {
    fc.assert(fc.property(fc.array(fc.integer({ min: 100, max: 999 }), { minLength: 2, maxLength: 6 }), (readings) => {
      expect(parseMeasurement(`${readings.join(',')} mm`, mm()).ok).toBe(false);
    }));
  });
});
