/**
 * Invented tests about a known line, and whether limits hold what is known. The line is about X = log10 S centred on the
 * tested levels, so that A belongs to the middle of them; its scatter and slope only scale what comes out, but for runouts.
 */
import {
  fitLeastSquares,
  fitMaximumLikelihood,
  lifeLimits,
  parameterLimits,
  profileLimits,
  strengthLimits,
  type LifeDistribution,
  type LimitApproach,
  type LineFit,
  type Outcome,
  type Specimens,
} from '../../src/core/fatigue/index.ts';
import { createRandom, findRoot, normalCumulative, normalQuantile } from '../../src/core/numeric/index.ts';

export type Model = 'linear' | 'quadratic';

export interface Setting {
  readonly life: LifeDistribution;
  readonly model: Model;
  readonly n: number;
  /** Mean share of tests that the end of tests leaves unbroken. */
  readonly runouts: number;
}

const TRUTH = { A: 5.5, B: -10, s: 0.2 } as const;
/** Half the tested range of X: a ratio of 1.45 between the highest and the lowest stress. */
const HALF_RANGE = 0.08;
/** Where limits of life and strength are asked for: inside the range, off its middle. */
const ASKED = 0.03;

const QUANTILE: Readonly<Record<LifeDistribution, (p: number) => number>> = {
  lognormal: normalQuantile,
  weibull: (p) => Math.log(-Math.log1p(-p)),
};
const SURVIVAL: Readonly<Record<LifeDistribution, (z: number) => number>> = {
  lognormal: (z) => normalCumulative(-z),
  weibull: (z) => Math.exp(-Math.exp(z)),
};

const centred = (x: number): number => TRUTH.A + TRUTH.B * x;

/** X of each specimen: three or four levels, equally far apart and equally often tested. */
function levelsOf({ n }: Setting): readonly number[] {
  const levels = n % 4 === 0 ? 4 : 3;
  return Array.from({ length: n }, (_, i) => HALF_RANGE * (-1 + (2 * (i % levels)) / (levels - 1)));
}

/** log10 cycles at which a test is ended. */
function endOfTests(setting: Setting): number {
  if (setting.runouts === 0) return Infinity;
  const x = levelsOf(setting);
  const unbroken = (end: number): number => x.reduce((sum, at) => sum + SURVIVAL[setting.life]((end - centred(at)) / TRUTH.s), 0) / x.length;
  return findRoot((end) => unbroken(end) - setting.runouts, TRUTH.A - 2, TRUTH.A + 3, 1e-12) ?? Number.NaN;
}

/** Samples tables of one setting, one after another, always the same ones. */
export function tablesOf(setting: Setting, seed: number): () => Specimens {
  const random = createRandom(seed);
  const x = levelsOf(setting);
  const end = endOfTests(setting);
  return () => {
    const lives = x.map((at) => centred(at) + TRUTH.s * QUANTILE[setting.life](random.uniform()));
    return {
      stressMpa: x.map((at) => 10 ** at),
      cycles: lives.map((life) => 10 ** Math.min(life, end)),
      outcomes: lives.map((life): Outcome => (life > end ? 'runout' : 'fracture')),
    };
  };
}

/** Counts of what limits held, by the name of what was asked. */
export class Tally {
  private readonly sums = new Map<string, { held: number; of: number }>();

  add(name: string, held: number): void {
    const row = this.sums.get(name) ?? { held: 0, of: 0 };
    this.sums.set(name, { held: row.held + held, of: row.of + 1 });
  }

  within(name: string, lo: number | null | undefined, truth: number, hi: number | null | undefined): void {
    this.add(name, (lo ?? -Infinity) <= truth && truth <= (hi ?? Infinity) ? 1 : 0);
  }

  /** Per cent; NaN where nothing was asked. */
  percent(name: string): number {
    const row = this.sums.get(name);
    return row === undefined ? Number.NaN : (100 * row.held) / row.of;
  }
}

const CONFIDENCE = 0.95;
const SHARE = 0.9;

export function tallyParameters(fit: LineFit, approach: LimitApproach, tally: Tally): void {
  const { parameters: [a, b], s } = parameterLimits(fit, CONFIDENCE, approach);
  tally.within('A', a?.lo, TRUTH.A, a?.hi);
  tally.within('B', b?.lo, TRUTH.B, b?.hi);
  tally.within('s', s.lo, TRUTH.s, s.hi);
}

/** Limits of the median life, the life that 90 % exceed, and the stress of that median life. */
export function tallyLimits(fit: LineFit, approach: LimitApproach, tally: Tally): void {
  const [middle, weak] = [0.5, 1 - SHARE].map((p) => centred(ASKED) + TRUTH.s * QUANTILE[fit.life](p));
  if (middle === undefined || weak === undefined) return;
  const median = lifeLimits(fit, 10 ** ASKED, { kind: 'median', confidence: CONFIDENCE }, approach);
  tally.within('median', median.lower, middle, median.upper);
  const tolerance = lifeLimits(fit, 10 ** ASKED, { kind: 'tolerance', share: SHARE, confidence: CONFIDENCE }, approach);
  tally.within('tolerance', tolerance.lower, weak, Infinity);
  const strength = strengthLimits(fit, 10 ** middle, { kind: 'median', confidence: CONFIDENCE }, approach);
  const { lower, upper } = strength.ok ? strength.value : { lower: null, upper: null };
  tally.within('strength', lower, 10 ** ASKED, upper);
  tally.add('open', lower === null || upper === null ? 1 : 0);
}

/** The chance itself that the next life lies between the limits: no need to sample it. */
export function tallyNext(fit: LineFit, approach: LimitApproach, tally: Tally): void {
  const { lower, upper } = lifeLimits(fit, 10 ** ASKED, { kind: 'next', confidence: CONFIDENCE }, approach);
  const beyond = (y: number | null): number => SURVIVAL[fit.life](((y ?? Number.NaN) - centred(ASKED)) / TRUTH.s);
  tally.add('next', beyond(lower) - beyond(upper));
}

export function tallyProfile(specimens: Specimens, { life, model }: Setting, approach: LimitApproach, tally: Tally): void {
  const ask = (quantity: Parameters<typeof profileLimits>[2]) => {
    const limits = profileLimits(specimens, { life, model }, quantity, CONFIDENCE, approach);
    return limits.ok ? limits.value : { lower: null, upper: null };
  };
  const slope = ask({ of: 'parameter', name: 'B' });
  tally.within('B', slope.lower, TRUTH.B, slope.upper);
  const median = ask({ of: 'life', stressMpa: 10 ** ASKED, share: 0.5 });
  tally.within('median', median.lower, centred(ASKED) + TRUTH.s * QUANTILE[life](0.5), median.upper);
}

/** The fit by least squares, or by maximum likelihood; undefined where the specimens are refused in words. */
export function fitted(specimens: Specimens, { life, model }: Setting, method: 'least squares' | 'likelihood'): LineFit | undefined {
  const fit = method === 'least squares' ? fitLeastSquares(specimens, { model }) : fitMaximumLikelihood(specimens, { life, model });
  return fit.ok ? fit.value : undefined;
}
