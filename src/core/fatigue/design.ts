import { powersOfShifted, spanOf, type Matrix } from '../numeric/index.ts';
import { onScale } from './line.ts';
import type { Observed } from './specimens.ts';
import type { LifeDistribution, LineModel, StressScale } from './types.ts';
import type { CensoredLives } from './censored-lives.ts';

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
  const { stressMpa, log10Cycles } = observed;
  const x = new Float64Array(stressMpa.length);
  let [low, high, origin] = [Infinity, -Infinity, 0];
  for (let i = 0; i < x.length; i++) {
    // Entries of one stress mostly follow each other: what only depends on the stress is then reckoned once.
    const value = (x[i] = i > 0 && stressMpa[i] === stressMpa[i - 1] ? (x[i - 1] as number) : scaleOf(stressMpa[i] as number));
    if (value < low && value > -Infinity) low = value;
    if (value > high) high = value;
    origin += log10Cycles[i] as number;
  }
  origin /= x.length;
  const { centre, scale: width } = spanOf([low, high]);
  const scale = width > 0 ? width : 1;
  const terms = (value: number): readonly number[] =>
    Array.from({ length: degree + 1 }, (_, power) => (power === 0 ? 1 : ((value - centre) / scale) ** power));
  const y = log10Cycles.slice();
  const columns = Array.from({ length: degree + 1 }, () => new Float64Array(x.length));
  for (let i = 0; i < y.length; i++) {
    y[i] = (y[i] as number) - origin;
    const own = ((x[i] as number) - centre) / scale;
    for (let power = 0, value = 1; power <= degree; power++, value *= own) (columns[power] as Float64Array)[i] = value;
  }
  return {
    lives: { life, y, censored: observed.censored, columns, ...(observed.weights === undefined ? {} : { weights: observed.weights, within: observed.within ?? 0 }) },
    back: powersOfShifted(degree, centre, scale),
    origin,
    termsAt: (stressMpa) => terms(scaleOf(stressMpa)),
  };
}
