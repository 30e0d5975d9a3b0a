import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluate, evaluateBlock, evaluateTruth, type Expression } from '../../../src/core/formula/index.ts';
import { GENTLE_TREE, environment, numberTree, read, truthTree } from './expressions.ts';

const LENGTHS = [0, 1, 2, 1023, 1024, 1025, 2500];

/** Columns that fill their ranges evenly: multiples of irrational numbers, less their whole part. */
function samples(length: number): Record<'x' | 'y' | 'z', Float64Array> {
  const column = (step: number, low: number, high: number): Float64Array =>
    Float64Array.from({ length }, (_, sample) => low + (high - low) * (((sample + 1) * step) % 1));
  return { x: column(Math.SQRT2, 0.3, 2), y: column(Math.PI, 0.3, 2), z: column(Math.E, -2, 2) };
}

/** How many samples have a value and how many have none, and the samples where block and scalar evaluation differ. */
function compare(e: Expression, length: number, fixed: number | undefined) {
  const columns = samples(length);
  const column = (name: string): Float64Array | number => (name === 'y' && fixed !== undefined ? fixed : (columns[name as 'x'] ?? NaN));
  const block = evaluateBlock(e, column, () => 0.1, length);
  const seen = { values: 0, gaps: 0, different: [] as unknown[] };
  for (let sample = 0; sample < length; sample += 1) {
    const at = { x: columns.x[sample] ?? NaN, y: fixed ?? columns.y[sample] ?? NaN, z: columns.z[sample] ?? NaN };
    const scalar = evaluate(e, environment(at));
    const ours = block[sample];
    if (scalar.ok) seen.values += 1;
    else seen.gaps += 1;
    if (!agrees(ours, scalar.ok ? scalar.value : NaN)) seen.different.push({ sample, ours, scalar });
  }
  if (block.length !== length) seen.different.push({ length: block.length });
  return seen;
}

/** exp(p ln x) loses some p ln x rounding steps, and sums may cancel: the scale is that of the gentle numbers. */
function agrees(ours: number | undefined, scalar: number): boolean {
  if (ours === undefined || Number.isNaN(scalar)) return Number.isNaN(ours);
  return Math.abs(ours - scalar) <= 1e-12 * Math.max(1, Math.abs(scalar));
}

describe('evaluateBlock', () => {
  it.each(LENGTHS)('agrees draw by draw with evaluate for %i draws', (length) => {
    for (const text of [
      'x', '2', 'x + y', 'pi*x^4/64', 'x^0.5*y^(-0.265)', 'x^y', '10^(x - y)', '(-2)^x', 'z^3', 'z^-2', 'z^20', 'z^2.5', '-x', 'mean(x, y, z, 1)', 'min(x, y, 1)',
      'max(z, 0)', 'macaulay(x - y)', 'abs(z)', 'sqrt(z)', 'ln(z)', 'log10(x)', '1/(z - z)', '1/(1/(z - z))', 'exp(800*z)', '1/exp(800*x)', 'u(x)*x',
      'if(x < y, x, z)', 'if(z > 0, ln(z), y)', 'if(not (x < y) and z <= 0 or y >= 1, 1/z, 2)', 'if(1 < 2, x, ln(0))', 'if(sqrt(z) < 1, 1, 2)', 'unit(mm)*x',
      'x - (y - (x - (y - x)))', '(x + y)*(x + z)*(y + z)/((x - y)*(x + 1))',
    ]) {
      expect({ text, different: compare(read(text), length, undefined).different }).toEqual({ text, different: [] });
      expect({ text, different: compare(read(text), length, 1.25).different }).toEqual({ text, different: [] });
    }
  });

  it('takes best( ) from what is handed over, the same for every draw', () => {
    const sampled = Float64Array.of(1, 2, 3);
    expect([...evaluateBlock(read('best(x)*x'), () => sampled, () => 0, 3, () => 10)]).toEqual([10, 20, 30]);
    expect(() => evaluateBlock(read('best(x)'), () => sampled, () => 0, 3)).toThrow('best estimate');
  });

  it('agrees on random expressions', () => {
    const seen = { values: 0, gaps: 0 };
    fc.assert(fc.property(numberTree(GENTLE_TREE, 3), (e) => {
      const { values, gaps, different } = compare(e, 20, undefined);
      expect(different).toEqual([]);
      seen.values += values;
      seen.gaps += gaps;
    }), { numRuns: 800 });
    expect(seen.values).toBeGreaterThan(8000);
    expect(seen.gaps).toBeGreaterThan(100);
  });

  it('gives 1 and 0 for conditions, NaN where a side has no value', () => {
    fc.assert(fc.property(truthTree(GENTLE_TREE, 3), (e) => {
      const columns = samples(10);
      const block = evaluateBlock(e, (name) => columns[name as 'x'], () => 0.1, 10);
      block.forEach((ours, sample) => {
        const at = { x: columns.x[sample] ?? NaN, y: columns.y[sample] ?? NaN, z: columns.z[sample] ?? NaN };
        const scalar = evaluateTruth(e, environment(at));
        expect(ours).toBe(scalar.ok ? Number(scalar.value) : NaN);
      });
    }), { numRuns: 200 });
  });

  it('keeps whole powers whole', () => {
    const e = read('(-2)^(2^max(x, 3)) + (-2)^(9^0.5)');
    const block = evaluateBlock(e, () => Float64Array.of(1, 2, 3), () => 0, 3);
    expect([...block]).toEqual([248, 248, 248]);
  });

  it('leaves the columns as they were, and gives every call a result of its own', () => {
    const columns = samples(1500);
    const copies = { x: columns.x.slice(), y: columns.y.slice(), z: columns.z.slice() };
    const first = evaluateBlock(read('-x + abs(z)*y'), (name) => columns[name as 'x'], () => 0, 1500);
    const kept = first.slice();
    evaluateBlock(read('x*y - z^2'), (name) => columns[name as 'x'], () => 0, 1500);
    expect(columns).toEqual(copies);
    expect(first).toEqual(kept);
  });

  it('counts a draw that had no value before as one without value', () => {
    const x = Float64Array.of(1, NaN, 3);
    for (const text of ['x + 1', 'x^0', '1^x', 'x^x', 'max(x, 2)', 'if(x < 2, 1, 0)', 'macaulay(x)', 'abs(x)', 'mean(x, 1)', '-x']) {
      expect([...evaluateBlock(read(text), () => x, () => 0, 3)].map(Number.isNaN)).toEqual([false, true, false]);
    }
  });

  it('refuses a column that is too short: that is a bug of the caller', () => {
    expect(() => evaluateBlock(read('x'), () => new Float64Array(5), () => 0, 6)).toThrow('too short');
  });
});
