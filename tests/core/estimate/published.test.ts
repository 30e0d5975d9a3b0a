import { describe, expect, it } from 'vitest';
import {
  budget, combine, correlation, covariance, coverageInterval, effectiveDegreesOfFreedom, fromInput, inputCovariance, inputUncertainty,
  instrumentClass, standardUncertainty, summariseReadings, type Estimate, type Input,
} from '../../../src/core/estimate/index.ts';
import { composed, given, limited, part, stated, value } from './inputs.ts';
import { example } from './table.ts';

// Worked examples; each case's source stands in tests/tables/uncertainty.json and beside the test.

describe('type A and type B', () => {
  it('twenty temperatures (JCGM 100:2008, 4.4.3)', () => {
    const of = example('unc-gum-443-repeats');
    const readings = of.numbers('readings');
    const statistics = summariseReadings(readings);
    const input = given({ id: 't', readings });
    expect(of.missed('mean', input.value)).toEqual([]);
    expect(of.missed('s', statistics.standardDeviation)).toEqual([]);
    expect(of.missed('u_mean', inputUncertainty(input))).toEqual([]);
    expect(of.missed('dof', input.components[0]?.degreesOfFreedom ?? 0)).toEqual([]);
    expect(input.components).toMatchObject([{ kind: 'A', distribution: 't', source: '20 readings' }]);
  });

  it('bounds alone, rectangular and triangular (JCGM 100:2008, 4.4.5 and 4.4.6)', () => {
    const of = example('unc-gum-445-rectangular');
    const [low, high] = [of.number('lower'), of.number('upper')];
    const within = (distribution: 'rectangular' | 'triangular'): number =>
      inputUncertainty(limited('t', (low + high) / 2, (high - low) / 2, distribution));
    expect(of.missed('mean', (low + high) / 2)).toEqual([]);
    expect(of.missed('u_rectangular', within('rectangular'))).toEqual([]);
    expect(of.missed('u_rectangular_full', within('rectangular'))).toEqual([]);
    expect(of.missed('u_triangular', within('triangular'))).toEqual([]);
    expect(of.missed('u_triangular_full', within('triangular'))).toEqual([]);
  });

  it('resolution of a digital display (JCGM 100:2008, F.2.2.1)', () => {
    const of = example('unc-resolution');
    const u = (step: number): number =>
      inputUncertainty(given({ id: 'x', readings: [5], instrument: value(instrumentClass(`resolution only, ${step}`)) }));
    expect(of.missed('u', of.numbers('step').map(u))).toEqual([]);
    expect(of.missed('factor', u(1))).toEqual([]);
  });
});

describe('effective degrees of freedom', () => {
  it('product of three quantities (JCGM 100:2008, G.4.2)', () => {
    const of = example('unc-gum-g4-welch');
    const readings = of.numbers('n');
    const inputs = of.numbers('u_rel').map((u, i) => composed(`x_${i}`, 100, [[u, (readings[i] ?? 0) - 1]]));
    const product = combine(100, inputs.map((input) => part(input, 1)));
    const { factor, degreesOfFreedom } = coverageInterval(product);
    expect(of.missed('uc_rel', standardUncertainty(product))).toEqual([]);
    expect(of.missed('uc_full', standardUncertainty(product))).toEqual([]);
    expect(of.missed('dof_effective', degreesOfFreedom ?? 0)).toEqual([]);
    expect(of.missed('dof_full', degreesOfFreedom ?? 0)).toEqual([]);
    expect(of.missed('t95', factor)).toEqual([]);
    expect(of.missed('U95_rel', factor * standardUncertainty(product))).toEqual([]);
  });

  it('end gauge (JCGM 100:2008, H.1)', () => {
    const of = example('unc-gum-h1');
    const ls = composed('l_s', of.number('ls'), [[of.number('u_ls'), of.number('dof_ls')]]);
    const freedoms = of.numbers('dof_d_parts');
    const d = composed('d', of.number('d'), of.numbers('u_d_parts').map((u, i) => [u, freedoms[i] ?? 0] as const));
    const rectangular = (id: string, halfWidth: string, dof: string): Input =>
      composed(id, 0, [[of.number(halfWidth) / Math.sqrt(3), of.number(dof)]]);
    const deltaAlpha = rectangular('da', 'da_halfwidth', 'dof_da');
    const deltaTheta = rectangular('dtheta', 'dtheta_halfwidth', 'dof_dtheta');
    const alpha = limited('a_s', of.number('as'), of.number('as_halfwidth'));
    const theta = stated('theta', of.number('theta'), of.number('u_theta'));
    // l = ls + d − ls(da θ + as dθ), where da and dθ are zero.
    const length = combine(ls.value + d.value, [
      part(ls, 1), part(d, 1), part(deltaAlpha, -ls.value * theta.value), part(deltaTheta, -ls.value * alpha.value),
      part(alpha, 0), part(theta, 0),
    ]);
    const { factor, degreesOfFreedom } = coverageInterval(length, 0.99);
    const contribution = (id: string): number => Math.abs(budget(length).find(({ input }) => input.id === id)?.contribution ?? 0);
    expect(of.missed('l', length.value)).toEqual([]);
    expect(of.missed('uc', standardUncertainty(length))).toEqual([]);
    expect(of.missed('uc_full', standardUncertainty(length))).toEqual([]);
    expect(of.missed('u_difference', contribution('d'))).toEqual([]);
    expect(of.missed('u_expansion_difference', contribution('da'))).toEqual([]);
    expect(of.missed('u_temperature_difference', contribution('dtheta'))).toEqual([]);
    expect(of.missed('dof_difference_unrounded', effectiveDegreesOfFreedom(fromInput(d)) ?? 0)).toEqual([]);
    expect(of.missed('dof_effective', degreesOfFreedom ?? 0)).toEqual([]);
    // The example carries the difference's degrees of freedom on as 25.6, computed from rounded parts.
    expect(Math.abs((degreesOfFreedom ?? 0) - 16.75)).toBeLessThan(0.01);
    expect(of.missed('t99', factor)).toEqual([]);
    // The example multiplies the factor with 32 nm, the rounded uncertainty.
    expect(of.missed('U99', factor * Math.round(standardUncertainty(length)))).toEqual([]);
    expect(contribution('a_s')).toBe(0);
  });
});

it('resistance, reactance and impedance from readings in pairs (JCGM 100:2008, H.2)', () => {
  const of = example('unc-gum-h2');
  const read = (id: string): Input => given({ id, readings: of.numbers(id), together: 'bench' });
  const [V, I, phi] = [read('V'), read('I'), read('phi')];
  const r = (a: Input, b: Input): number => inputCovariance(a, b) / (inputUncertainty(a) * inputUncertainty(b));
  expect(of.missed('V_mean', V.value)).toEqual([]);
  expect(of.missed('I_mean', I.value)).toEqual([]);
  expect(of.missed('phi_mean', phi.value)).toEqual([]);
  expect(of.missed('u_V', inputUncertainty(V))).toEqual([]);
  expect(of.missed('u_I', inputUncertainty(I))).toEqual([]);
  expect(of.missed('u_phi', inputUncertainty(phi))).toEqual([]);
  expect(of.missed('r_VI', r(V, I))).toEqual([]);
  expect(of.missed('r_Vphi', r(V, phi))).toEqual([]);
  expect(of.missed('r_Iphi', r(I, phi))).toEqual([]);
  const ampere = I.value / 1000;
  const ratio = V.value / ampere;
  const times = (g: number, slope: number): Estimate =>
    combine(ratio * g, [part(V, g / ampere), part(I, ((-ratio * g) / ampere) / 1000), part(phi, ratio * slope)]);
  const R = times(Math.cos(phi.value), -Math.sin(phi.value));
  const X = times(Math.sin(phi.value), Math.cos(phi.value));
  const Z = times(1, 0);
  for (const [name, estimate] of [['R', R], ['X', X], ['Z', Z]] as const) {
    expect(of.missed(name, estimate.value)).toEqual([]);
    expect(of.missed(`u_${name}`, standardUncertainty(estimate))).toEqual([]);
    // Five sets of readings, evaluated set by set (H.2.4): n − 1 = 4; t of 95 % for 4 is 2.776 (table G.2).
    expect(effectiveDegreesOfFreedom(estimate)).toBeCloseTo(4, 9);
    expect(coverageInterval(estimate).factor).toBeCloseTo(2.776, 3);
    const lines = budget(estimate);
    expect(lines.reduce((sum, line) => sum + line.share + line.covarianceShare, 0)).toBeCloseTo(1, 12);
  }
  expect(of.missed('r_RX', correlation(R, X) ?? 0)).toEqual([]);
  expect(of.missed('r_RZ', correlation(R, Z) ?? 0)).toEqual([]);
  expect(of.missed('r_XZ', correlation(X, Z) ?? 0)).toEqual([]);
});

it('three spans adjusted to the overall span (least squares with one redundant reading)', () => {
  const of = example('unc-closure-three-spans');
  const uncertainties = of.numbers('u_parts');
  const spans = of.numbers('parts').map((length, i) => stated(`s_${i + 1}`, length, uncertainties[i] ?? 0));
  const overall = stated('L', of.number('overall'), of.number('u_overall'));
  const closure = combine(overall.value - spans.reduce((sum, span) => sum + span.value, 0),
    [part(overall, 1), ...spans.map((span) => part(span, -1))]);
  const sum = standardUncertainty(closure) ** 2;
  const adjust = (input: Input, sign: number): Estimate => {
    const weight = (sign * inputUncertainty(input) ** 2) / sum;
    return combine(input.value + weight * closure.value, [part(input, 1), part(closure, weight)]);
  };
  const adjusted = spans.map((span) => adjust(span, 1));
  const whole = adjust(overall, -1);
  const [a, b, c] = adjusted;
  if (a === undefined || b === undefined || c === undefined) throw new Error('three spans are needed');
  expect(of.missed('misclosure', closure.value)).toEqual([]);
  expect(of.missed('u_misclosure', standardUncertainty(closure))).toEqual([]);
  expect(of.missed('adjusted', adjusted.map((estimate) => estimate.value))).toEqual([]);
  expect(of.missed('u_adjusted', adjusted.map(standardUncertainty))).toEqual([]);
  expect(of.missed('cov_ab', covariance(a, b))).toEqual([]);
  expect(of.missed('cov_ac', covariance(a, c))).toEqual([]);
  expect(of.missed('cov_bc', covariance(b, c))).toEqual([]);
  expect(of.missed('adjusted_overall', whole.value)).toEqual([]);
  expect(of.missed('u_adjusted_overall', standardUncertainty(whole))).toEqual([]);
  // Adjusted spans close exactly: nothing is left, and nothing of it is uncertain.
  const left = combine(whole.value - a.value - b.value - c.value, [part(whole, 1), part(a, -1), part(b, -1), part(c, -1)]);
  expect(Math.abs(left.value)).toBeLessThan(1e-12);
  expect(standardUncertainty(left)).toBe(0);
});

describe('bending stress', () => {
  it('32M/(πd³), first order', () => {
    const of = example('unc-stress-32m');
    const moment = stated('M', of.number('M'), of.number('u_M'));
    const d = stated('d', of.number('d'), of.number('u_d'));
    const sigma = (32 * moment.value) / (Math.PI * d.value ** 3);
    const stress = combine(sigma, [part(moment, sigma / moment.value), part(d, (-3 * sigma) / d.value)]);
    expect(of.missed('sigma', stress.value)).toEqual([]);
    expect(of.missed('u_first_order', standardUncertainty(stress))).toEqual([]);
    expect(of.missed('u_relative', standardUncertainty(stress) / stress.value)).toEqual([]);
    expect(of.missed('share_of_variance_from_d', budget(stress)[0]?.share ?? 0)).toEqual([]);
    expect(budget(stress).map(({ input }) => input.id)).toEqual(['d', 'M']);
  });

  it('16Fa/(πd³), then the life on a given line, by the chain rule', () => {
    const of = example('unc-stress-4pt');
    const [F, a, d] = (['F', 'a', 'd'] as const).map((id) => stated(id, of.number(id), of.number(`u_${id}`)));
    if (F === undefined || a === undefined || d === undefined) throw new Error('three inputs are needed');
    const sigma = (16 * F.value * a.value) / (Math.PI * d.value ** 3);
    const stress = combine(sigma, [part(F, sigma / F.value), part(a, sigma / a.value), part(d, (-3 * sigma) / d.value)]);
    const logLife = combine(of.number('A') + of.number('B') * Math.log10(sigma), [part(stress, of.number('B') / (sigma * Math.LN10))]);
    expect(of.missed('sigma', stress.value)).toEqual([]);
    expect(of.missed('u_sigma', standardUncertainty(stress))).toEqual([]);
    expect(of.missed('log10_N', logLife.value)).toEqual([]);
    expect(of.missed('u_log10_N', standardUncertainty(logLife))).toEqual([]);
    expect(of.missed('N', 10 ** logLife.value)).toEqual([]);
  });
});
