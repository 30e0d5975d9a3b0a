import { normalQuantile, studentQuantile, type LinearFit } from '../numeric/index.ts';
import { rowOf, type Observed } from './specimens.ts';
import type { Residual } from './types.ts';

/** Chance that a clean table has any specimen flagged for its residual. */
const FALSE_ALARM = 0.05;

/**
 * Residuals of least squares with what their plots need: against fitted, and normal probability.
 * A specimen is influential where its externally studentised residual passes Bonferroni's bound for the largest of n at
 * 5 %, or its leverage is above twice the mean leverage p/n. Flagged, never deleted.
 * @source Belsley, Kuh and Welsch, Regression Diagnostics (1980), 2.1; normal scores after Blom (1958); from memory.
 */
export function residualsOf(linear: LinearFit, observed: Observed, s: number): Residuals {
  const n = observed.cycles.length;
  const dof = linear.degreesOfFreedom;
  const parameters = n - dof;
  const bound = dof > 1 ? studentQuantile(1 - FALSE_ALARM / (2 * n), dof - 1) : Infinity;
  const isInfluential = (leverage: number, studentised: number | null): boolean =>
    leverage > (2 * parameters) / n || (studentised !== null && Math.abs(studentised) > bound);
  const influential: number[] = [];
  // Most rows are plainly within the bound, which is seen without a root: t² > bound² where r²/(s²(1 − h)) > bound²·ν/(ν − 1 + bound²).
  const plain = (1 - 1e-9) * s * s * ((bound * bound * dof) / (dof - 1 + bound * bound));
  for (let i = 0; i < n; i++) {
    const leverage = linear.leverages[i] as number;
    const residual = linear.residuals[i] as number;
    if (residual * residual < plain * (1 - leverage) && leverage <= (2 * parameters) / n) continue;
    const studentised = studentisedResidual(linear.residuals[i] ?? 0, leverage, s, dof);
    if (isInfluential(leverage, studentised)) influential.push(rowOf(observed, i));
  }
  const every = (): readonly Residual[] => {
    const scores = normalScores(linear.residuals);
    return Object.freeze(Array.from(observed.cycles, (_, i) => {
      const residual = linear.residuals[i] ?? 0;
      const leverage = linear.leverages[i] ?? 0;
      const studentised = studentisedResidual(residual, leverage, s, dof);
      return Object.freeze({
        row: rowOf(observed, i),
        fitted: (observed.log10Cycles[i] ?? 0) - residual,
        residual,
        leverage,
        studentised,
        normalScore: scores[i] ?? 0,
        influential: isInfluential(leverage, studentised),
      });
    }));
  };
  let known: readonly Residual[] | undefined;
  return { influential: Object.freeze(influential), residuals: () => (known ??= every()) };
}

/** What is known of a line's residuals: the rows that stand apart at once, all that their plots need when it is asked for. */
interface Residuals {
  readonly influential: readonly number[];
  readonly residuals: () => readonly Residual[];
}

/** r/(s₋ᵢ √(1 − h)) with s₋ᵢ from all the other specimens; null where they leave no scatter to compare with. */
function studentisedResidual(residual: number, leverage: number, s: number, dof: number): number | null {
  const free = 1 - leverage;
  if (!(free > 1e-12) || dof < 2) return null;
  const others = (dof * s * s - (residual * residual) / free) / (dof - 1);
  return others > 1e-12 * s * s ? residual / Math.sqrt(others * free) : null;
}

function normalScores(residuals: Float64Array): Float64Array {
  const order = Uint32Array.from(residuals.keys()).sort((a, b) => (residuals[a] ?? 0) - (residuals[b] ?? 0) || a - b);
  const scores = new Float64Array(residuals.length);
  for (let rank = 0; rank < order.length; rank++) scores[order[rank] ?? 0] = normalQuantile((rank + 0.625) / (residuals.length + 0.25));
  return scores;
}
