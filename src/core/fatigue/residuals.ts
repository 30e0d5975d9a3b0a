import { normalQuantile, studentQuantile, type LinearFit } from '../numeric/index.ts';
import type { Sample } from './specimens.ts';
import type { Residual } from './types.ts';

/** Chance that a clean table has any specimen flagged for its residual. */
const FALSE_ALARM = 0.05;

/**
 * Residuals of least squares with what their plots need: against fitted, and normal probability.
 * A specimen is influential where its externally studentised residual passes Bonferroni's bound for the largest of n at
 * 5 %, or its leverage is above twice the mean leverage p/n. Flagged, never deleted.
 * @source Belsley, Kuh and Welsch, Regression Diagnostics (1980), 2.1; normal scores after Blom (1958); from memory.
 */
export function residualsOf(linear: LinearFit, sample: Sample, s: number): readonly Residual[] {
  const n = sample.rows.length;
  const dof = linear.degreesOfFreedom;
  const parameters = n - dof;
  const bound = dof > 1 ? studentQuantile(1 - FALSE_ALARM / (2 * n), dof - 1) : Infinity;
  const scores = normalScores(linear.residuals);
  return Object.freeze(sample.rows.map((row, i) => {
    const residual = linear.residuals[i] ?? 0;
    const leverage = linear.leverages[i] ?? 0;
    const studentised = studentisedResidual(residual, leverage, s, dof);
    return Object.freeze({
      row,
      fitted: (sample.log10Cycles[i] ?? 0) - residual,
      residual,
      leverage,
      studentised,
      normalScore: scores[i] ?? 0,
      influential: leverage > (2 * parameters) / n || (studentised !== null && Math.abs(studentised) > bound),
    });
  }));
}

/** r/(s₋ᵢ √(1 − h)) with s₋ᵢ from all the other specimens; null where they leave no scatter to compare with. */
function studentisedResidual(residual: number, leverage: number, s: number, dof: number): number | null {
  const free = 1 - leverage;
  if (!(free > 1e-12) || dof < 2) return null;
  const others = (dof * s * s - (residual * residual) / free) / (dof - 1);
  return others > 1e-12 * s * s ? residual / Math.sqrt(others * free) : null;
}

function normalScores(residuals: Float64Array): Float64Array {
  const order = Array.from(residuals.keys()).sort((a, b) => (residuals[a] ?? 0) - (residuals[b] ?? 0));
  const scores = new Float64Array(residuals.length);
  for (const [rank, i] of order.entries()) scores[i] = normalQuantile((rank + 0.625) / (residuals.length + 0.25));
  return scores;
}
