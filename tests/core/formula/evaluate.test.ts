import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluate, evaluateTruth, evaluateWithPartials, type Expression } from '../../../src/core/formula/index.ts';
import { GENTLE_TREE, SMOOTH_TREE, environment, inMathjs, math, numberTree, read, truthTree } from './expressions.ts';
import { cases } from '../../sizes.ts';

/** Thousandths, so that no number is so near to zero that doubles lose digits. */
const within = (low: number, high: number) => fc.integer({ min: low * 1000, max: high * 1000 }).map((step) => step / 1000);
const point = fc.record({ x: within(0.3, 2), y: within(0.3, 2), z: within(-2, 2) });

function oracle(e: Expression, at: Record<string, number>): unknown {
  return math.evaluate(inMathjs(e), { ...at });
}

function isReal(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

function parts(e: Expression): readonly Expression[] {
  if (e.kind === 'call') return e.arguments;
  if (e.kind === 'negative' || e.kind === 'not') return [e.operand];
  return 'left' in e ? [e.left, e.right] : [];
}

/** Whether the oracle, too, finds a part of the formula without a real, finite value. */
function partWithoutValue(e: Expression, at: Record<string, number>): boolean {
  if (parts(e).some((part) => partWithoutValue(part, at))) return true;
  const value = oracle(e, at);
  return typeof value !== 'boolean' && !isReal(value);
}

function closeTo(ours: number, theirs: unknown): boolean {
  return isReal(theirs) && Math.abs(ours - theirs) <= 1e-12 * Math.abs(theirs);
}

describe('evaluate agrees with mathjs', () => {
  it('on random expressions, to 1e-12', () => {
    let compared = 0;
    fc.assert(fc.property(numberTree(GENTLE_TREE, 4), point, (e, at) => {
      const ours = evaluate(e, environment(at));
      if (ours.ok) compared += 1;
      expect(ours.ok ? closeTo(ours.value, oracle(e, at)) : partWithoutValue(e, at)).toBe(true);
    }), { numRuns: cases(1500) });
    expect(compared).toBeGreaterThan(cases(1000));
  });

  it('on random conditions', () => {
    const seen = { true: 0, false: 0 };
    fc.assert(fc.property(truthTree(GENTLE_TREE, 3), point, (e, at) => {
      const ours = evaluateTruth(e, environment(at));
      if (ours.ok) seen[`${ours.value}`] += 1;
      expect(ours.ok ? ours.value === oracle(e, at) : partWithoutValue(e, at)).toBe(true);
    }), { numRuns: 600 });
    expect(Math.min(seen.true, seen.false)).toBeGreaterThan(100);
  });

  it('on the same text, so that precedence is the same', () => {
    const texts = ['-x^2', '2^-3^2', '2^3^2', '-x*y', 'x/y/z*2', 'x - y - z', '-2^-x', 'x*-y^2', '1e3/x*y', '(-x)^2 - -y', '3*-x^-2*y'];
    const at = { x: 1.7, y: 0.6, z: 2.3 };
    for (const text of texts) {
      const ours = evaluate(read(text), environment(at));
      expect(ours).toEqual({ ok: true, value: math.evaluate(text, at) });
    }
  });
});

describe('evaluateWithPartials', () => {
  it('agrees with mathjs.derivative on smooth expressions', () => {
    let compared = 0;
    fc.assert(fc.property(numberTree(SMOOTH_TREE, 3), point, (e, at) => {
      const ours = evaluateWithPartials(e, environment(at));
      if (!ours.ok) return;
      const magnitude = largest(e, at);
      for (const [name, partial] of ours.value.partials) {
        const theirs: unknown = math.derivative(inMathjs(e), name, { simplify: false }).evaluate({ ...at });
        // The oracle's own derivative divides by zero where a base is zero, or takes the logarithm of a negative base.
        if (!isReal(theirs)) continue;
        compared += 1;
        expect(Math.abs(partial - theirs)).toBeLessThanOrEqual(1e-10 * (Math.abs(theirs) + magnitude));
      }
    }), { numRuns: cases(1000) });
    expect(compared).toBeGreaterThan(cases(800));
  });

  it('agrees with central differences, kinks and branches included', () => {
    let compared = 0;
    fc.assert(fc.property(numberTree(GENTLE_TREE, 3), point, (e, at) => {
      const ours = evaluateWithPartials(e, environment(at));
      if (!ours.ok) return;
      for (const [name, partial] of ours.value.partials) {
        const slope = centralDifference(e, at, name);
        if (slope === undefined) continue;
        compared += 1;
        expect(Math.abs(partial - slope.value)).toBeLessThanOrEqual(slope.tolerance);
      }
    }), { numRuns: cases(1500) });
    expect(compared).toBeGreaterThan(cases(1000));
  });

  it.each<[text: string, at: Record<string, number>, partials: Record<string, number>]>([
    ['x^0', { x: 0 }, { x: 0 }],
    ['x^1', { x: 0 }, { x: 1 }],
    ['x^2', { x: 0 }, { x: 0 }],
    ['0*x', { x: 5 }, { x: 0 }],
    ['0^p', { p: 2 }, { p: 0 }],
    ['x^p', { x: 0, p: 2 }, { x: 0, p: 0 }],
    ['x^3', { x: -2 }, { x: 12 }],
    ['x^-1', { x: -2 }, { x: -0.25 }],
    ['x - x', { x: 3.7 }, { x: 0 }],
    ['x/x', { x: 3.7 }, { x: 0 }],
    ['sqrt(0*x)', { x: 3 }, { x: 0 }],
    // Where two branches meet the first counts.
    ['min(a, b)', { a: 2, b: 2 }, { a: 1, b: 0 }],
    ['max(a, b, c)', { a: 1, b: 2, c: 2 }, { a: 0, b: 1, c: 0 }],
    ['abs(x)', { x: 0 }, { x: 1 }],
    ['abs(x)', { x: -3 }, { x: -1 }],
    ['macaulay(x)', { x: 0 }, { x: 1 }],
    ['macaulay(x)', { x: -1 }, { x: 0 }],
    ['if(x < 1, 2*x, 3*x)', { x: 1 }, { x: 3 }],
    ['if(x > 0, ln(x), y)', { x: -1, y: 4 }, { x: 0, y: 1 }],
    ['mean(a, b, c, a)', { a: 1, b: 2, c: 3 }, { a: 0.5, b: 0.25, c: 0.25 }],
    ['x + u(x) + u(y)', { x: 2, y: 3 }, { x: 1, y: 0 }],
    ['best(x)*y + x', { x: 2, y: 3 }, { x: 1, y: 2 }],
  ])('%s at %o', (text, at, partials) => {
    const result = evaluateWithPartials(read(text), environment(at));
    expect(result.ok && Object.fromEntries(result.value.partials)).toEqual(partials);
  });

  it('takes the value of best( )', () => {
    expect(evaluate(read('2*best(x)'), environment({ x: 5 }))).toEqual({ ok: true, value: 10 });
  });

  it('takes u( ) from the environment', () => {
    const env = { value: () => 5, standardUncertainty: (name: string) => (name === 'x' ? 0.25 : NaN) };
    expect(evaluate(read('2*u(x)'), env)).toEqual({ ok: true, value: 0.5 });
    expect(evaluate(read('2*u(y)'), env)).toMatchObject({ ok: false, problem: { what: 'u(y) has no value.' } });
  });
});

/** Largest magnitude met in the formula, as a scale for cancellation. */
function largest(e: Expression, at: Record<string, number>): number {
  const own = oracle(e, at);
  return Math.max(isReal(own) ? Math.abs(own) : 0, ...parts(e).map((part) => largest(part, at)));
}

/** The slope by central differences with two steps; undefined near a kink or an edge, where the two disagree. */
function centralDifference(e: Expression, at: Record<string, number>, name: string): { value: number; tolerance: number } | undefined {
  const step = 1e-5 * Math.max(1, Math.abs(at[name] ?? 1));
  const value = (shift: number): number => {
    const shifted = evaluate(e, environment({ ...at, [name]: (at[name] ?? NaN) + shift }));
    return shifted.ok ? shifted.value : NaN;
  };
  const wide = (value(step) - value(-step)) / (2 * step);
  const narrow = (value(step / 2) - value(-step / 2)) / step;
  const curvature = Math.abs(value(step) - 2 * value(0) + value(-step)) / step;
  const rounding = (1e-14 * largest(e, at)) / step;
  const tolerance = 1e-6 * Math.abs(narrow) + 10 * Math.abs(wide - narrow) + 10 * rounding + 1e-9;
  const trusted = Math.abs(wide - narrow) <= 1e-4 * (1 + Math.abs(narrow)) && curvature <= 1e-2 * (1 + Math.abs(narrow));
  return trusted && Number.isFinite(narrow) ? { value: narrow, tolerance } : undefined;
}

describe('a formula without value says which part, its value and what to do', () => {
  it.each<[text: string, at: Record<string, number>, underlined: string, what: string, mend: string]>([
    ['1 + F/(a - b)', { F: 1, a: 2, b: 2 }, 'F/(a - b)', 'F/(a - b) has no value: a - b is 0.', 'The divisor must not be zero: check a and b.'],
    ['1/0', {}, '1/0', '1/0 has no value: the number is 0.', 'The divisor must not be zero: check the number in the formula.'],
    ['2*sqrt(a - b)', { a: 1, b: 1.5 }, 'sqrt(a - b)', 'sqrt(a - b) has no value: a - b is -0.5 in SI units.', 'sqrt needs zero or more: check a and b.'],
    ['log10(x)', { x: 0 }, 'log10(x)', 'log10(x) has no value: x is 0.', 'log10 needs a number above zero: check x.'],
    ['ln(x)', { x: -2 }, 'ln(x)', 'ln(x) has no value: x is -2 in SI units.', 'ln needs a number above zero: check x.'],
    ['asin(x)', { x: 1.25 }, 'asin(x)', 'asin(x) has no value: x is 1.25 in SI units.', 'asin needs a number between -1 and 1: check x.'],
    ['x^0.5', { x: -4 }, 'x^0.5', 'x^0.5 has no value: x is -4 in SI units, and the exponent is no whole number.', 'Such a power needs a base of zero or more: check x.'],
    ['x^(-1)', { x: 0 }, 'x^(-1)', 'x^(-1) has no value: x is 0, and the exponent is negative.', 'Zero has no negative power: check x.'],
    ['1/exp(x)', { x: 1000 }, 'exp(x)', 'exp(x) has no value: x is 1000 in SI units.', 'exp needs a number below 709: check x.'],
    ['1/(x*x)', { x: 1e200 }, '(x*x)', 'x*x is too large to calculate with.', 'Check x.'],
    ['x + 1', { x: NaN }, 'x', 'x has no value.', 'Mend x first.'],
    ['if(sqrt(x) < 1, 2, 3)', { x: -1 }, 'sqrt(x)', 'sqrt(x) has no value: x is -1 in SI units.', 'sqrt needs zero or more: check x.'],
  ])('%s', (text, at, underlined, what, mend) => {
    const results = [evaluate(read(text), environment(at)), evaluateWithPartials(read(text), environment(at))];
    for (const result of results) {
      if (result.ok) throw new Error(`value ${JSON.stringify(result.value)}`);
      const { span, ...rest } = result.problem;
      expect(rest).toEqual({ code: 'no-value', what, mend });
      expect(text.slice(span?.start, span?.end)).toBe(underlined);
    }
  });

  it('also where only the rate of change has none', () => {
    for (const [text, at] of [['sqrt(x)', { x: 0 }], ['x^0.5', { x: 0 }], ['asin(x)', { x: 1 }], ['x^p', { x: -2, p: 3 }], ['cbrt(x)', { x: 0 }]] as const) {
      expect(evaluate(read(text), environment(at)).ok).toBe(true);
      expect(evaluateWithPartials(read(text), environment(at))).toMatchObject({ ok: false, problem: { code: 'no-value', span: { start: 0, end: text.length } } });
    }
  });

  it('and does not look at the branch that does not count', () => {
    expect(evaluate(read('if(x > 0, ln(x), 1/2)'), environment({ x: -1 }))).toEqual({ ok: true, value: 0.5 });
    expect(evaluateTruth(read('x > 0 and ln(x) > 1'), environment({ x: -1 }))).toEqual({ ok: true, value: false });
    expect(evaluateTruth(read('x <= 0 or ln(x) > 1'), environment({ x: -1 }))).toEqual({ ok: true, value: true });
    expect(evaluateTruth(read('ln(x) > 1 or x <= 0'), environment({ x: -1 }))).toMatchObject({ ok: false, problem: { code: 'no-value' } });
  });
});
