/**
 * Invented staircases about a known strength, and whether limits hold what is known. Levels are whole steps of one unit and the lowest is always
 * the same, so that staircases of the same counts are worked out once; the true median moves instead.
 */
import { analyseStaircase, type Outcome, type Staircase } from '../../src/core/fatigue/index.ts';
import { weighStrength } from '../../src/core/fatigue/staircase-likelihood.ts';
import { readStaircase } from '../../src/core/fatigue/staircase-run.ts';
import { createRandom, normalQuantile, studentQuantile } from '../../src/core/numeric/index.ts';
import type { Tally } from './coverage-study.ts';

export interface StaircaseSetting {
  readonly tests: number;
  /** Step over the standard deviation. */
  readonly ratio: number;
  /** The first level lies anywhere within as many standard deviations of the median; 2 where left out. */
  readonly start?: number;
}

export interface SampledStaircase {
  readonly levels: readonly number[];
  readonly outcomes: readonly Outcome[];
  /** The true median. */
  readonly median: number;
}

const LOWEST = 1000;

/** Samples staircases of one setting, one after another, always the same ones; those with one outcome only are sampled anew. */
export function staircasesOf({ tests, ratio, start = 2 }: StaircaseSetting, seed: number): () => SampledStaircase {
  const random = createRandom(seed);
  const one = (): SampledStaircase => {
    // In standard deviations from the first level.
    const median = start * (2 * random.uniform() - 1);
    const steps: number[] = [];
    const outcomes: Outcome[] = [];
    let step = 0;
    for (let test = 0; test < tests; test++) {
      const isBroken = median + normalQuantile(random.uniform()) < step * ratio;
      steps.push(step);
      outcomes.push(isBroken ? 'fracture' : 'runout');
      step += isBroken ? -1 : 1;
    }
    const lift = LOWEST - Math.min(...steps);
    return { levels: steps.map((level) => level + lift), outcomes, median: median / ratio + lift };
  };
  return () => {
    for (;;) {
      const sampled = one();
      if (new Set(sampled.outcomes).size > 1) return sampled;
    }
  };
}

export type Asked = readonly [share: number, confidence: number];
export const askedName = ([share, confidence]: Asked): string => `${100 * share}/${100 * confidence}`;

/** What is said of a staircase, with its limits in the order asked for. */
interface Worked {
  readonly found: Staircase;
  readonly limits: readonly number[];
}

/** Works staircases out, those of the same counts once. The first that is asked for is the one of the usual factor too. */
export function analyser(asked: readonly Asked[]): (sampled: SampledStaircase) => Worked {
  const known = new Map<string, Worked>();
  const work = ({ levels, outcomes }: SampledStaircase): Worked => {
    const [share = 0.9, confidence = 0.95] = asked[0] ?? [];
    const analysed = analyseStaircase({ levels, outcomes }, { step: 1, share, confidence });
    const run = readStaircase({ levels, outcomes }, { step: 1 });
    if (!analysed.ok || !run.ok) throw new Error('every staircase with both outcomes can be worked out');
    const weights = asked.length > 1 ? weighStrength(run.value) : undefined;
    const further = asked.slice(1).map(([p, c]) => weights?.exceeded(normalQuantile(p), c) ?? Number.NaN);
    return { found: analysed.value, limits: [analysed.value.lowerLimit ?? Number.NaN, ...further] };
  };
  return (sampled) => {
    const key = sampled.levels.map((level, i) => `${level}${sampled.outcomes[i]}`).sort().join();
    const worked = known.get(key) ?? work(sampled);
    known.set(key, worked);
    return worked;
  };
}

/** Whether what is said of a staircase holds: each limit that is asked for, and with the first the usual factor's, and the interval of S_50. */
export function tallyStaircase({ found, limits }: Worked, { median }: SampledStaircase, { ratio }: StaircaseSetting, asked: readonly Asked[], tally: Tally): void {
  for (const [i, one] of asked.entries()) tally.within(askedName(one), limits[i], median - normalQuantile(one[0]) / ratio, Infinity);
  const { counted, probit, factorLimit, degreesOfFreedom, share } = found;
  tally.within('factor', factorLimit?.value, median - normalQuantile(share) / ratio, Infinity);
  // As coverage intervals take them: at the next lower whole number.
  const reach = (se: number | undefined, dof: number): number => (se ?? Infinity) * studentQuantile(0.975, Math.min(1e6, Math.max(1, Math.floor(dof))));
  const within = (name: string, value: number, half: number): void => tally.within(name, value - half, median, value + half);
  within('S_50 counted', counted.mean, reach(counted.errors?.seMean, degreesOfFreedom.counting));
  if (probit !== null) within('S_50 likelihood', probit.mu, reach(probit.seMu, degreesOfFreedom.probit));
  within('S_50 counted, 1.96 u', counted.mean, reach(counted.errors?.seMean, Infinity));
  tally.add('none', probit === null ? 1 : 0);
}
