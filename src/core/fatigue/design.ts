import { powersOfShifted, spanOf, type Matrix } from '../numeric/index.ts';
import { onScale } from './line.ts';
import type { Observed } from './specimens.ts';
import type { LifeDistribution, LineModel, StressScale } from './types.ts';
import type { CensoredLives } from './location-scale.ts';

/** The design of a line in a centred and scaled X, with the way back to the coefficients of X. */
export interface Design {
  readonly lives: CensoredLives;
  /** Rows turn the coefficients of the scaled X into A, B (, C); A still lacks `origin`. */
  readonly back: Matrix;
  /** log10 life that was taken as zero. */
  readonly origin: number;
  /** Terms of the scaled X at a stress; not finite at or below the limit. */
  termsAt(stressMpa: number): readonly number[];
}

interface DesignOptions {
  readonly model: LineModel;
  readonly stress: StressScale;
  readonly life: LifeDistribution;
}

/** @param limit S_0 in MPa for the model with a limit, where X = log10(S − S_0); else 0 */
export function designOf(observed: Observed, { model, stress, life }: DesignOptions, limit = 0): Design {
  const degree = model === 'quadratic' ? 2 : model === 'constant' ? 0 : 1;
  const scaleOf = (stressMpa: number): number => {
    if (model !== 'limit') return onScale(stressMpa, stress);
    return stressMpa > limit ? Math.log10(stressMpa - limit) : Number.NaN;
  };
  const { stressMpa } = observed;
  const x = stressMpa.slice();
  // Entries of one stress mostly follow each other: what only depends on the stress is then reckoned once.
  const isNew = (i: number): boolean => i === 0 || stressMpa[i] !== stressMpa[i - 1];
  for (let i = 0; i < x.length; i++) x[i] = isNew(i) ? scaleOf(stressMpa[i] ?? 0) : (x[i - 1] ?? 0);
  const { centre, scale: width } = spanOf(x.filter((value, i) => isNew(i) && Number.isFinite(value)));
  const scale = width > 0 ? width : 1;
  let origin = 0;
  for (let i = 0; i < observed.log10Cycles.length; i++) origin += (observed.log10Cycles[i] ?? 0) / observed.log10Cycles.length;
  const terms = (value: number): readonly number[] =>
    Array.from({ length: degree + 1 }, (_, power) => (power === 0 ? 1 : ((value - centre) / scale) ** power));
  return {
    lives: {
      life,
      y: observed.log10Cycles.map((value) => value - origin),
      censored: observed.censored,
      ...(observed.weights === undefined ? {} : { weights: observed.weights, within: observed.within ?? 0 }),
      columns: Array.from({ length: degree + 1 }, (_, power) => {
        const column = new Float64Array(x.length).fill(1);
        for (let i = 0; i < x.length && power > 0; i++) column[i] = isNew(i) ? (((x[i] ?? 0) - centre) / scale) ** power : (column[i - 1] ?? 0);
        return column;
      }),
    },
    back: powersOfShifted(degree, centre, scale),
    origin,
    termsAt: (stressMpa) => terms(scaleOf(stressMpa)),
  };
}
