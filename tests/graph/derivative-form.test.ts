import { describe, expect, it } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { evaluate, printFormula } from '../../src/core/formula/index.ts';
import { createSheetGraph, derivativeForm, slopesAround, type SheetStates } from '../../src/graph/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { given, step } from '../report/sheet-at.ts';
import { shipped } from '../shipped.ts';

async function statesOf(text: string): Promise<SheetStates> {
  const graph = createSheetGraph(parseSheet(text));
  const states = await graph.settled();
  graph.dispose();
  return states;
}

async function form(text: string, result: string, input: string): Promise<string | undefined> {
  const found = derivativeForm(result, input, await statesOf(text));
  return found === undefined ? undefined : printFormula(found.expression);
}

const bar = given('M', '12 N*m', 'N*m') + given('d', '7.52 mm', 'mm');
const stress = bar + step('c', 'd/2', 'mm') + step('I', 'pi*d^4/64', 'mm^4') + step('sigma', 'M*c/I', 'MPa');

describe('derivativeForm', () => {
  it('finds the power law of the stress through the steps: −3 σ/d', async () => {
    expect(await form(stress, 'sigma', 'd')).toBe('-(3*sigma/d)');
    expect(await form(stress, 'sigma', 'M')).toBe('c/I');
    expect(await form(stress, 'I', 'd')).toBe('4*I/d');
    expect(await form(stress, 'c', 'd')).toBe('1/2');
  });

  it('finds the slope of a line over log stress: B N/σ, by way of the diameter −3 B N/d', async () => {
    const life = stress + given('A', '31.2', '1') + given('B', '-10', '1') + step('N', '10^(A + B*log10(sigma/unit(MPa)))', '1');
    expect(await form(life, 'N', 'd')).toBe('-(3*B*N/d)');
    const other = bar + given('b', '-0.1', '1') + step('N', '(M/d^3/unit(MPa))^(1/b)', '1');
    expect(await form(other, 'N', 'M')).toBe('N/(b*M)');
  });

  it('takes the branch in force', async () => {
    const size = (d: string): Promise<string | undefined> =>
      form(given('d', d, 'mm') + step('k', 'min(1, if(d <= 51*unit(mm), 1.24*(d/unit(mm))^(-0.107), 1.51*(d/unit(mm))^(-0.157)))', '1'), 'k', 'd');
    expect(await size('20 mm')).toBe('-(0.107*k/d)');
    expect(await size('60 mm')).toBe('-(0.157*k/d)');
    expect(await size('2 mm')).toBe('0');
  });

  it('names what lies between where that is shorter', async () => {
    const text = given('a', '2 m', 'm') + given('F', '3 N', 'N') + given('x', '1 m', 'm')
      + step('R', 'F*(a + x)/(a + 2*x)', 'N') + step('M', 'R*x - F*macaulay(x - a)', 'N*m');
    const found = derivativeForm('M', 'a', await statesOf(text));
    expect(found === undefined ? '' : printFormula(found.expression)).toBe('x*∂R');
    expect(found?.inner).toEqual(new Map([['∂R', 'R']]));
  });

  it('comes to an end soon where every line reads the one before several times', async () => {
    const lines = Array.from({ length: 60 }, (_, i) => step(`x_${i + 1}`, `x_${i}*(x_${i} + x_${i})/(x_${i} + x_${i})`, '1')).join('');
    expect(await form(given('x_0', '1.5', '1') + lines, 'x_60', 'x_0')).toBe('x_60/x_0');
  });

  it('is none where it would not be simple', async () => {
    expect(await form(given('x', '2', '1') + step('y', 'sin(x)*exp(x)/(1 + x^2)', '1'), 'y', 'x')).toBeUndefined();
  });
});

it('every form of the rotating-bending sheet has the value of the derivative', async () => {
  const graph = createSheetGraph(parseSheet(shipped('rotating-bending')));
  const states = await graph.settled();
  graph.dispose();
  let compared = 0;
  for (const result of states.symbols) {
    const state = states.symbol(result);
    if (state?.status !== 'value') continue;
    for (const [input, { derivative, input: { value: at } }] of state.estimate.sensitivities) {
      const found = derivativeForm(result, input, states);
      if (found === undefined) continue;
      const { downstream } = slopesAround(input, states);
      const value = evaluate(found.expression, {
        value: (name) => {
          const inner = found.inner.get(name);
          const read = states.symbol(name);
          return inner !== undefined ? (downstream.get(inner) ?? 0) : read?.status === 'value' ? read.estimate.value : Number.NaN;
        },
        standardUncertainty: (name) => {
          const read = states.symbol(name);
          return read?.status === 'value' ? standardUncertainty(read.estimate) : Number.NaN;
        },
      });
      // Where what depends on an input cancels, rounding of the terms is left.
      const got = value.ok ? value.value : Number.NaN;
      expect(Math.abs(got - derivative), `∂${result}/∂${input} = ${printFormula(found.expression)}`).toBeLessThanOrEqual(1e-10 * Math.abs(derivative) + 1e-13 * Math.abs(at === 0 ? 0 : state.estimate.value / at) + 1e-300);
      compared++;
    }
  }
  expect(compared).toBeGreaterThan(80);
});
