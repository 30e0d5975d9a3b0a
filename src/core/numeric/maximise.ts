import { cholesky, dot, solveFactored, type Matrix } from './symmetric.ts';

/** A function's value with its first and second derivatives. */
export interface Expansion {
  readonly value: number;
  readonly gradient: readonly number[];
  /** Symmetric matrix of second derivatives. */
  readonly hessian: Matrix;
  /** How large what the value is a sum of is, where that is more than the value itself: so much is rounded. */
  readonly size?: number;
}

export interface Maximum extends Expansion {
  readonly point: readonly number[];
  /** False where the steps ran out, or no step upwards was found, before the slope vanished. */
  readonly converged: boolean;
}

/** An expected gain below this share of the value is lost in its rounding: from there on only the slope tells of progress. */
const ROUNDING = 1e-13;
const MOST_STEPS = 200;

/**
 * The top of a smooth function that is reached from `start`: Newton's method, the second derivatives made negative definite
 * where they are not, and steps halved until the value rises enough.
 * @param expand value may be −∞ or NaN outside the function's domain, but not at the start
 * @param enough an expected gain with which the top is as good as reached: where its value alone is asked for, half of the gain is added and the rest spared
 * @source Nocedal and Wright, Numerical Optimization, 3.1 (sufficient rise) and 3.4 (modified Hessian), from memory.
 */
export function maximise(expand: (point: readonly number[]) => Expansion, start: readonly number[], enough = 0): Maximum {
  let point = start;
  let here = expand(point);
  for (let count = 0; count < MOST_STEPS; count++) {
    const size = 1 + (here.size ?? Math.abs(here.value));
    const step = uphill(here);
    const gain = dot(step, here.gradient);
    if (!(gain >= 0)) return { ...here, point, converged: false };
    if (gain < enough) return { ...here, point: moved(point, step, 1), value: here.value + gain / 2, converged: true };
    if (gain <= ROUNDING * size) {
      const next = moved(point, step, 1);
      const there = expand(next);
      if (!(norm(there.gradient) < 0.5 * norm(here.gradient))) return { ...here, point, converged: true };
      [point, here] = [next, there];
      continue;
    }
    const found = search(expand, point, here, step, gain);
    if (found === undefined) return { ...here, point, converged: gain < 1e-9 * size };
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
    const next = moved(point, step, share);
    const there = expand(next);
    if (there.value >= here.value + 1e-4 * share * gain) return [next, there];
  }
  return undefined;
}

function moved(point: readonly number[], step: readonly number[], share: number): readonly number[] {
  return point.map((value, i) => value + share * (step[i] ?? 0));
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
