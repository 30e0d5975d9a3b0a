/** Invented lives at one stress from a known distribution, and whether limits hold what is known. */
import {
  fitOneStress, fitWeibullThreshold, lifeLimits, ONE_STRESS, type LifeDistribution, type LimitKind, type LivesAtOneStress, type Outcome,
} from '../../src/core/fatigue/index.ts';
import { createRandom, normalCumulative, normalQuantile } from '../../src/core/numeric/index.ts';
import { Tally } from './coverage-study.ts';

const CONFIDENCE = 0.95;
const SHARE = 0.9;

interface Setting {
  readonly life: LifeDistribution;
  readonly n: number;
  /** Mean share of tests that the end of tests leaves unbroken. */
  readonly runouts: number;
}

const quantile = (life: LifeDistribution, p: number): number => (life === 'lognormal' ? normalQuantile(p) : Math.log(-Math.log1p(-p)));
const below = (life: LifeDistribution, z: number): number => (life === 'lognormal' ? normalCumulative(z) : -Math.expm1(-Math.exp(z)));

/** Per cent held: median, next specimen, tolerance, interval. Location 0 and scale 1 of log10 life. */
export function studyOneStress({ life, n, runouts }: Setting, repetitions: number): readonly string[] {
  const random = createRandom(n * 1000 + runouts * 10 + (life === 'weibull' ? 3 : 0));
  const end = runouts === 0 ? Infinity : quantile(life, 1 - runouts);
  const tally = new Tally();
  for (let run = 0; run < repetitions; run++) {
    const logs = Array.from({ length: n }, () => quantile(life, random.uniform()));
    const lives: LivesAtOneStress = { cycles: logs.map((y) => 10 ** Math.min(y, end)), outcomes: logs.map((y): Outcome => (y > end ? 'runout' : 'fracture')) };
    const fit = fitOneStress(lives, life, CONFIDENCE);
    if (!fit.ok) continue;
    const limits = (asked: LimitKind) => lifeLimits(fit.value, ONE_STRESS, asked);
    const median = limits({ kind: 'median', confidence: CONFIDENCE });
    tally.within('median', median.lower, quantile(life, 0.5), median.upper);
    tally.within('tolerance', limits({ kind: 'tolerance', share: SHARE, confidence: CONFIDENCE }).lower, quantile(life, 1 - SHARE), Infinity);
    const next = limits({ kind: 'next', confidence: CONFIDENCE });
    tally.add('next', below(life, next.upper ?? Number.NaN) - below(life, next.lower ?? Number.NaN));
    const interval = limits({ kind: 'interval', share: SHARE, confidence: CONFIDENCE });
    tally.add('interval', below(life, interval.upper ?? Number.NaN) - below(life, interval.lower ?? Number.NaN) >= SHARE ? 1 : 0);
  }
  return [life, String(n), runouts === 0 ? 'none' : '20 %', ...['median', 'next', 'tolerance', 'interval'].map((name) => tally.percent(name).toFixed(1))];
}

const THRESHOLD = 0.3;

/** Per cent of tables with a threshold, with none above zero, without a bound; of those with one, per cent held. */
export function studyThreshold(n: number, shape: number, repetitions: number): readonly string[] {
  const random = createRandom(n * 10 + Math.round(shape * 10));
  const tally = new Tally();
  const lifeAt = (u: number): number => THRESHOLD + (1 - THRESHOLD) * (-Math.log(u)) ** (1 / shape);
  for (let run = 0; run < repetitions; run++) {
    const fit = fitWeibullThreshold({ cycles: Array.from({ length: n }, () => lifeAt(random.uniform())) }, CONFIDENCE);
    tally.add('found', fit.ok ? 1 : 0);
    tally.add('none', !fit.ok && fit.problem.code === 'threshold-none' ? 1 : 0);
    tally.add('unbounded', !fit.ok && fit.problem.code === 'threshold-unbounded' ? 1 : 0);
    if (!fit.ok) continue;
    const { thresholdLimits, quantile: at } = fit.value;
    tally.within('threshold', thresholdLimits.lower, THRESHOLD, thresholdLimits.upper);
    const tenth = at(SHARE);
    tally.within('tenth', tenth.lower, lifeAt(SHARE), tenth.upper);
    tally.within('tenth from below', tenth.lower, lifeAt(SHARE), Infinity);
  }
  return [String(n), String(shape), ...['found', 'none', 'unbounded', 'threshold', 'tenth', 'tenth from below'].map((name) => tally.percent(name).toFixed(1))];
}
