import { cholesky, dot, solveFactored, type Matrix } from './symmetric.ts';

/** A function's value with its first and second derivatives. */
export interface Expansion {
  readonly value: number;
  readonly gradient: readonly number[];
  /** Symmetric matrix of second derivatives. */
  readonly hessian: Matrix;
}

export interface Maximum extends Expansion {
  readonly point: readonly number[];
  /** False where the steps ran out, or no step upwards was found, before the slope vanished. */
  readonly converged: boolean;
}

/** The expected gain of the next step below which the top is reached: far below what a likelihood can tell. */
const NO_GAIN = 1e-18;
const MOST_STEPS = 200;

/**
 * The top of a smooth function that is reached from `start`: Newton's method, the second derivatives made negative definite
 * where they are not, and steps halved until the value rises enough.
 * @param expand value may be −∞ or NaN outside the function's domain, but not at the start
 * @source Nocedal and Wright, Numerical Optimization, 3.1 (sufficient rise) and 3.4 (modified Hessian), from memory.
 */
export function maximise(expand: (point: readonly number[]) => Expansion, start: readonly number[]): Maximum {
  let point = start;
  let here = expand(point);
  for (let count = 0; count < MOST_STEPS; count++) {
    const step = uphill(here);
    const gain = dot(step, here.gradient);
    if (!(gain > NO_GAIN * (1 + Math.abs(here.value)))) return { ...here, point, converged: gain >= 0 };
    const found = search(expand, point, here, step, gain);
    // Nothing higher, although the slope is not nothing: rounding, where the expected gain is as small as that.
    if (found === undefined) return { ...here, point, converged: gain < 1e-9 * (1 + Math.abs(here.value)) };
    [point, here] = found;
  }
  return { ...here, point, converged: false };
}

function search(
  expand: (point: readonly number[]) => Expansion,
  point: readonly number[],
  here: Expansion,
  step: readonly number[],
  gain: number,
): [point: readonly number[], value: Expansion] | undefined {
  for (let share = 1; share > 1e-12; share /= 2) {
    const next = point.map((value, i) => value + share * (step[i] ?? 0));
    const there = expand(next);
    if (there.value >= here.value + 1e-4 * share * gain) return [next, there];
    // At the top the value no longer shows the gain; a gradient that shrinks still does.
    const level = Math.abs(there.value - here.value) <= 4e-15 * (1 + Math.abs(here.value));
    if (share === 1 && level && norm(there.gradient) < 0.5 * norm(here.gradient)) return [next, there];
  }
  return undefined;
}

function norm(vector: readonly number[]): number {
  return Math.hypot(...vector);
}

/** Newton's step for a maximum; with a growing ridge where the function does not curve downwards in all directions. */
function uphill({ gradient, hessian }: Expansion): readonly number[] {
  const scale = hessian.map((row, i) => Math.max(Math.abs(row[i] ?? 0), 1e-12));
  for (let ridge = 0; ridge < 1e12; ridge = ridge === 0 ? 1e-6 : ridge * 10) {
    const curvature = hessian.map((row, i) => row.map((value, j) => -value + (i === j ? ridge * (scale[i] ?? 0) : 0)));
    const factor = cholesky(curvature);
    if (factor !== undefined) return solveFactored(factor, gradient);
  }
  return gradient;
}
