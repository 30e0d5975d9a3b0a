import { describe, expect, it } from 'vitest';
import { checkDimensions, evaluate, evaluateBlock, evaluateWithPartials } from '../../../src/core/formula/index.ts';
import { ONE, fromSI, parseUnit, sameDimension, toSI, type Unit } from '../../../src/core/units/index.ts';
import examples from '../../tables/formula-examples.json';
import { environment, read } from './expressions.ts';

function unitOf(text: string): Unit {
  const unit = parseUnit(text);
  if (!unit.ok) throw new Error(unit.problem.what);
  return unit.value;
}

/** `90 ksi` as value in SI with its unit. */
function quantity(text: string): { si: number; unit: Unit } {
  const [number = '', name] = text.split(' ');
  const unit = name === undefined ? ONE : unitOf(name);
  return { si: toSI(Number(number), unit), unit };
}

interface Example {
  readonly id: string;
  readonly formula: string;
  readonly values: Readonly<Record<string, string | undefined>>;
  readonly result: number;
  readonly unit: string;
  readonly tolerance: number;
  readonly full?: number;
}

describe('formulas of the trade, sources in tests/tables/formula-examples.json', () => {
  it.each<Example>(examples.cases)('$id', (example) => {
    const e = read(example.formula);
    const quantities = new Map(Object.entries(example.values).map(([name, text]) => [name, quantity(text ?? '')]));
    const unit = unitOf(example.unit);
    const dimension = checkDimensions(e, (name) => quantities.get(name)?.unit.dimension);
    if (!dimension.ok || dimension.value === 'truth') throw new Error(dimension.ok ? 'truth' : dimension.problem.what);
    expect(sameDimension(dimension.value, unit.dimension)).toBe(true);
    const values = Object.fromEntries([...quantities].map(([name, { si }]) => [name, si]));
    const result = evaluate(e, environment(values));
    if (!result.ok) throw new Error(result.problem.what);
    const number = fromSI(result.value, unit);
    expect(Math.abs(number - example.result)).toBeLessThanOrEqual(example.tolerance);
    expect(Math.abs(number / (example.full ?? number) - 1)).toBeLessThanOrEqual(1e-12);
    const [sampled = NaN] = evaluateBlock(e, (name) => values[name] ?? NaN, () => 0, 1);
    expect(Math.abs(sampled / result.value - 1)).toBeLessThanOrEqual(1e-12);
  });
});

describe('partials of published uncertainty examples', () => {
  it('gives the contributions of JCGM 100:2008, H.1.3: 2.9 nm and 16.6 nm', () => {
    const e = read('l_s + d - l_s*(delta_alpha*theta + alpha_s*delta_theta)');
    const at = { l_s: 50_000_623e-9, d: 215e-9, delta_alpha: 0, theta: -0.1, alpha_s: 11.5e-6, delta_theta: 0 };
    const result = evaluateWithPartials(e, environment(at));
    if (!result.ok) throw new Error(result.problem.what);
    const { value, partials } = result.value;
    expect(value).toBeCloseTo(50_000_838e-9, 15);
    // Standard uncertainties of the rectangular differences: 1e-6/K and 0.05 K over the root of three.
    const contribution = (name: string, halfWidth: number): number => Math.abs((partials.get(name) ?? NaN) * halfWidth) / Math.sqrt(3) / 1e-9;
    expect(contribution('delta_alpha', 1e-6)).toBeCloseTo(2.9, 1);
    expect(contribution('delta_theta', 0.05)).toBeCloseTo(16.6, 1);
    expect([partials.get('l_s'), partials.get('d'), partials.get('theta'), partials.get('alpha_s')]).toEqual([1, 1, 0, 0]);
  });

  it('gives u(sigma) of rotating bending, sigma = 32 M/(pi d^3), as worked by hand', () => {
    // M = 12000(60) N mm, d = 7.520(0.015) mm, invented; u/sigma = root((60/12000)^2 + (3*0.015/7.52)^2) by hand.
    const at = { M: 12, d: 7.52e-3 };
    const result = evaluateWithPartials(read('32*M/(pi*d^3)'), environment(at));
    if (!result.ok) throw new Error(result.problem.what);
    const { value, partials } = result.value;
    const u = Math.hypot((partials.get('M') ?? NaN) * 0.06, (partials.get('d') ?? NaN) * 0.015e-3);
    expect(u / value).toBeCloseTo(Math.hypot(60 / 12000, (3 * 0.015) / 7.52), 12);
    expect(u).toBeCloseTo(2.241356415032488e6, 3);
  });
});
