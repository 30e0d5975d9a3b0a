import {
  evaluateGiven, fromInput, type Component, type Distribution, type Estimate, type GivenSpec, type Input,
} from '../../../src/core/estimate/index.ts';
import type { Result } from '../../../src/core/problem/index.ts';

/** The value of a result that has to be there. */
export function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(`${result.problem.code}: ${result.problem.what}`);
  return result.value;
}

/** The code of a problem that has to be there. */
export function problemCode<T>(result: Result<T>): string {
  if (result.ok) throw new Error('no problem was found');
  return result.problem.code;
}

export function given(spec: GivenSpec): Input {
  return value(evaluateGiven(spec));
}

/** An input with a standard uncertainty by itself. */
export function stated(id: string, estimate: number, u: number): Input {
  return given({ id, readings: [estimate], stated: { kind: 'standard uncertainty', value: u, distribution: 'normal' } });
}

/** An input known to lie within ±halfWidth. */
export function limited(id: string, estimate: number, halfWidth: number, distribution: Distribution = 'rectangular'): Input {
  return given({ id, readings: [estimate], stated: { kind: 'limit', value: halfWidth, distribution } });
}

/** An input whose components are given as standard uncertainty and degrees of freedom. */
export function composed(id: string, estimate: number, parts: readonly (readonly [u: number, degreesOfFreedom: number])[]): Input {
  const components = parts.map(([standardUncertainty, degreesOfFreedom]): Component =>
    ({ kind: 'B', source: 'published', distribution: 't', standardUncertainty, degreesOfFreedom }));
  return { id, value: estimate, components };
}

/** An input as an estimate with its partial derivative, for `combine`. */
export function part(of: Input | Estimate, derivative: number): { readonly estimate: Estimate; readonly derivative: number } {
  return { estimate: 'sensitivities' in of ? of : fromInput(of), derivative };
}
