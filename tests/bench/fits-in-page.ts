/** What the benchmark of fits does in a page: invented tables, and fits of them timed. */
import { fitLeastSquares, fitMaximumLikelihood, profileLimits, type LifeDistribution, type LineFit, type Specimens } from '../../src/core/fatigue/index.ts';
import { createRandom } from '../../src/core/numeric/index.ts';
import type { Result } from '../../src/core/problem/index.ts';

export interface Table extends Specimens {
  readonly stressMpa: Float64Array;
  readonly cycles: Float64Array;
  readonly broken: Float64Array;
}

/** Lives about log10 N = 32 − 10 log10(S/MPa) with a scatter of 0.2, S between 250 and 500 MPa, no two alike; tests end at so many cycles. */
export function tableOf(rows: number, end: number): Table {
  const random = createRandom(20261130);
  const stressMpa = Float64Array.from({ length: rows }, () => 250 + 250 * random.uniform());
  const lives = stressMpa.map((stress) => 10 ** (32 - 10 * Math.log10(stress) + 0.2 * random.normal()));
  const broken = lives.map((life) => (life < end ? 1 : 0));
  return { stressMpa, cycles: lives.map((life) => Math.min(life, end)), broken, ...(end === Infinity ? {} : { outcomes: Array.from(broken, (is) => (is === 1 ? 'fracture' : 'runout')) }) };
}

export interface Fitted {
  readonly times: readonly number[];
  /** A, B and their errors, s, log likelihood. */
  readonly found: readonly number[];
}

/** Fits are remembered by their table: each run gets a new one. */
const anew = ({ stressMpa, cycles, outcomes }: Specimens): Specimens => ({ stressMpa, cycles, ...(outcomes === undefined ? {} : { outcomes }) });

function timed(runs: number, fit: () => Result<LineFit>): Fitted {
  const times: number[] = [];
  let found: readonly number[] = [];
  for (let run = 0; run < runs + 2; run++) {
    const begun = performance.now();
    const result = fit();
    if (run > 1) times.push(performance.now() - begun);
    if (!result.ok) throw new Error(result.problem.what);
    const { parameters, s, logLikelihood } = result.value;
    found = [...parameters.map(({ value }) => value), ...parameters.map(({ se }) => se), s, logLikelihood];
  }
  return { times, found };
}

/** With `everything` also what is said of levels and single rows. */
export function leastSquares(rows: number, runs: number, everything: boolean): Fitted {
  const table = tableOf(rows, Infinity);
  return timed(runs, () => {
    const result = fitLeastSquares(anew(table));
    if (result.ok && everything && result.value.warnings.length + result.value.replication.levels < 0) throw new Error('there are levels');
    return result;
  });
}

export function likelihood(rows: number, runs: number, end: number, life: LifeDistribution): Fitted {
  const table = tableOf(rows, end);
  return timed(runs, () => fitMaximumLikelihood(anew(table), { life }));
}

/** Limits of B by profile likelihood; milliseconds. */
export function profile(rows: number, runs: number, end: number, life: LifeDistribution): readonly number[] {
  const table = tableOf(rows, end);
  return Array.from({ length: runs }, () => {
    const begun = performance.now();
    const result = profileLimits(anew(table), { life }, { of: 'parameter', name: 'B' });
    if (!result.ok) throw new Error(result.problem.what);
    return performance.now() - begun;
  });
}
