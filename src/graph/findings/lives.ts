import { exactly, fromInput, type Estimate, type Input } from '../../core/estimate/index.ts';
import {
  fitOneStress, fitWeibullThreshold, lifeLimits, ONE_STRESS, parameterLimits, standardQuantile,
  type LifeDistribution, type LifeLimits, type LimitKind, type LineFit, type LivesAtOneStress, type ProfiledQuantity,
} from '../../core/fatigue/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { parseUnit } from '../../core/units/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import { specimensOf } from '../fit/specimens.ts';
import type { Ask, FindingsForm, FormReading, Found, PublishedValue } from './form.ts';
import type { LivesFindings, LivesRow } from './types.ts';

const DISTRIBUTIONS = ['lognormal', 'weibull', 'weibull-threshold'] as const;

const ASKS: readonly Ask[] = [
  { takes: 'quantity', name: 'stress', unit: 'MPa', possible: '> 0' },
  { takes: 'word', name: 'distribution', words: DISTRIBUTIONS, usual: 'lognormal' },
  { takes: 'quantity', name: 'next', unit: '1', possible: '1 .. 100000', usual: 10, whole: true },
  { takes: 'quantity', name: 'share', unit: '1', possible: '0.5 .. 0.999999', usual: 0.9 },
  { takes: 'quantity', name: 'confidence', unit: '1', possible: '0.5 .. 0.999999', usual: 0.95 },
];

/** A specimen belongs to a stress if its own lies within this share of it: what is set differs a little from test to test. */
const SAME_STRESS = 0.01;

const CYCLES = parseUnit('cycles');
const ONE_UNIT = parseUnit('1');
const QUANTILES = ['N_50', 'N_share'] as const;
/** Published names: which limit of which row each is. */
const LIMITS: ReadonlyMap<string, readonly [row: LivesRow, side: 'lower' | 'upper']> = new Map([
  ['N_50_low', ['median', 'lower']], ['N_50_high', ['median', 'upper']], ['N_share_low', ['share', 'lower']], ['N_share_high', ['share', 'upper']],
  ['N_next', ['next', 'lower']], ['N_next_high', ['next', 'upper']], ['N_first', ['first of several', 'lower']], ['N_design', ['tolerance', 'lower']],
  ['N_interval_low', ['interval', 'lower']], ['N_interval_high', ['interval', 'upper']],
]);
const IN_CYCLES: readonly string[] = [...QUANTILES, ...LIMITS.keys()];

/** Lives of specimens that were tested at one stress: their distribution, quantiles and limits, with no line through other stresses. */
export const livesForm: FindingsForm = {
  asks: ASKS,
  published: [...IN_CYCLES, 'n', 'failures'],
  unitOf: (name) => {
    const unit = IN_CYCLES.includes(name) ? CYCLES : livesForm.published.includes(name) ? ONE_UNIT : undefined;
    return unit?.ok === true ? unit.value : undefined;
  },
  find,
};

type Asked = Pick<LivesFindings, 'confidence' | 'share' | 'several'>;

function find(reading: FormReading): Result<Found> {
  const table = reading.table();
  if (!table.ok) return table;
  const chosen = specimensOf(table.value, reading.settings.group);
  if (!chosen.ok) return chosen;
  const { stressMpa, cycles, outcomes = [] } = chosen.value.specimens;
  const stress = reading.quantity('stress');
  const wanted = stress === undefined ? undefined : stress.value / 1e6;
  const places = Array.from(stressMpa, (_, row) => row).filter((row) =>
    outcomes[row] !== 'invalid' && (wanted === undefined || Math.abs((stressMpa[row] ?? 0) / wanted - 1) <= SAME_STRESS));
  if (places.length === 0) return fail(noneThere());
  const stresses = places.map((row) => stressMpa[row] ?? 0);
  const range = [Math.min(...stresses), Math.max(...stresses)] as const;
  if (range[1] > range[0] * (1 + 2 * SAME_STRESS)) return fail(severalStresses());
  const lives: LivesAtOneStress = { cycles: places.map((row) => cycles[row] ?? 0), outcomes: places.map((row) => outcomes[row] ?? 'fracture') };
  const asked: Asked = {
    confidence: reading.quantity('confidence')?.value ?? 0.95,
    share: reading.quantity('share')?.value ?? 0.9,
    several: reading.quantity('next')?.value ?? 10,
  };
  const common = { form: 'lives', ...asked, stress: [range[0] * 1e6, range[1] * 1e6] as const } as const;
  const distribution = reading.word('distribution');
  return distribution === 'weibull-threshold'
    ? withThreshold(lives, common)
    : ofTwoParameters(lives, distribution === 'weibull' ? 'weibull' : 'lognormal', common, reading.cell);
}

type Common = Pick<LivesFindings, 'form' | 'confidence' | 'share' | 'several' | 'stress'>;

const ROWS: readonly LivesRow[] = ['median', 'share', 'next', 'first of several', 'tolerance', 'interval'];

function kindOf(row: LivesRow, { confidence, share, several }: Asked): LimitKind {
  switch (row) {
    case 'median':
    case 'next':
      return { kind: row, confidence };
    case 'first of several':
      return { kind: row, several, confidence };
    default:
      return { kind: row, share, confidence };
  }
}

function ofTwoParameters(lives: LivesAtOneStress, life: LifeDistribution, common: Common, cell: FitCell): Result<Found> {
  const fitted = fitOneStress(lives, life, common.confidence);
  if (!fitted.ok) return fitted;
  const fit = fitted.value;
  const rows = ROWS.map((row) => [row, lifeLimits(fit, ONE_STRESS, kindOf(row, common))] as const);
  const limits = parameterLimits(fit, common.confidence);
  const enlarged = life === 'lognormal' ? Math.sqrt(fit.failures / (fit.failures - 1)) : 1;
  const findings: LivesFindings = Object.freeze({
    ...common,
    distribution: life,
    n: fit.n,
    failures: fit.failures,
    runouts: fit.runouts,
    logLikelihood: fit.logLikelihood,
    isExact: life === 'lognormal' && fit.runouts === 0,
    rows,
    location: { estimate: fit.parameters[0]?.value ?? Number.NaN, lower: limits.parameters[0]?.lo ?? null, upper: limits.parameters[0]?.hi ?? null },
    scale: { estimate: fit.s * enlarged, lower: limits.s.lo, upper: limits.s.hi },
  });
  const values = counted(fit);
  const byRow = new Map(rows);
  for (const [name, [row, side]] of LIMITS) {
    const limit = byRow.get(row)?.[side] ?? null;
    // A limit holds its confidence already.
    values.set(name, limit === null ? { problem: noLimit() } : { estimate: exactly(10 ** limit) });
  }
  for (const [i, name] of QUANTILES.entries()) values.set(name, { estimate: quantileEstimate(fit, [0.5, common.share], i, cell) });
  return ok({ findings, values, warnings: fit.failures < FEW ? [livesFew(fit.failures)] : [] });
}

/** The life that a share exceeds, with the part of the fit's uncertainty that it has, and what it shares with the other one. */
function quantileEstimate(fit: LineFit, shares: readonly number[], place: number, cell: FitCell): Estimate {
  const gradients = shares.map((share) => [1, standardQuantile(fit.life, 1 - share) * fit.s]);
  const covariance = (i: number, j: number): number => gradients[i]?.reduce((sum, a, r) =>
    sum + (gradients[j] ?? []).reduce((inner, b, c) => inner + a * b * (fit.covariance[r]?.[c] ?? 0), 0), 0) ?? Number.NaN;
  const other = cell.symbols.get(QUANTILES[1 - place] ?? 'N_50');
  const value = 10 ** ((fit.parameters[0]?.value ?? Number.NaN) + (gradients[place]?.[1] ?? 0));
  const free = fit.failures - 1;
  const own = Math.sqrt(covariance(place, place));
  const together = covariance(0, 1) / Math.sqrt(covariance(0, 0) * covariance(1, 1));
  const input: Input = {
    id: cell.symbols.get(QUANTILES[place] ?? 'N_50') ?? 'N_50',
    value,
    components: [{
      kind: 'A', source: `lives of ${fit.n} specimens at one stress`, distribution: 'normal',
      standardUncertainty: value * Math.LN10 * own * Math.sqrt(fit.failures / free), degreesOfFreedom: free,
    }],
    ...(other === undefined || !Number.isFinite(together) ? {} : { correlations: new Map([[other, Math.max(-1, Math.min(1, together))]]) }),
  };
  return fromInput(Object.freeze(input));
}

function withThreshold(lives: LivesAtOneStress, common: Common): Result<Found> {
  const fitted = fitWeibullThreshold(lives, common.confidence);
  if (!fitted.ok) return fitted;
  const fit = fitted.value;
  const quantiles = [0.5, common.share].map((share) => fit.quantile(share));
  const logs = ({ estimate, lower, upper }: ProfiledQuantity): LifeLimits => ({
    estimate: Math.log10(estimate), lower: lower === null ? null : Math.log10(lower), upper: upper === null ? null : Math.log10(upper),
  });
  const n = fit.failures + fit.runouts;
  const findings: LivesFindings = Object.freeze({
    ...common,
    distribution: 'weibull-threshold',
    n,
    failures: fit.failures,
    runouts: fit.runouts,
    logLikelihood: fit.logLikelihood,
    isExact: false,
    rows: quantiles.map((quantile, i) => [i === 0 ? 'median' : 'share', logs(quantile)] as const),
    location: { estimate: Math.log10(fit.characteristic), lower: null, upper: null },
    scale: { estimate: 1 / (fit.shape * Math.LN10), lower: null, upper: null },
    threshold: { estimate: fit.threshold, ...fit.thresholdLimits, p: fit.p },
  });
  const values = counted({ n, failures: fit.failures });
  for (const name of [...QUANTILES, ...LIMITS.keys()]) values.set(name, { problem: notWithThreshold() });
  return ok({ findings, values, warnings: [thresholdNoSafeLife(), ...(fit.failures < MANY ? [thresholdWeak(fit.failures, MANY)] : [])] });
}

function counted({ n, failures }: Pick<LineFit, 'n' | 'failures'>): Map<string, PublishedValue> {
  return new Map([['n', { estimate: exactly(n) }], ['failures', { estimate: exactly(failures) }]]);
}

/** Fewer broken specimens than this tell no distribution from another. */
const FEW = 5;
/** With fewer broken specimens a threshold is hardly told: simulated, `tests/bench/RESULTS.md`. */
const MANY = 30;

function noneThere(): Problem {
  return { code: 'lives-none', what: 'No specimen of the table was tested at this stress.', mend: `Ask about a stress of the table; a specimen counts within ${100 * SAME_STRESS} %.`, key: 'asks' };
}

function severalStresses(): Problem {
  return { code: 'lives-stresses', what: 'The specimens were tested at several stresses.', mend: 'Under `asks`, name one of them: `stress: 380 MPa`.', key: 'asks' };
}

function livesFew(failures: number): Problem {
  return {
    code: 'lives-few',
    what: `${failures} broken specimens hardly tell how lives are distributed: what is said of rare lives rests on the distribution that was chosen.`,
    mend: 'Test more specimens at this stress.',
  };
}

function thresholdNoSafeLife(): Problem {
  return {
    code: 'threshold-no-safe-life',
    what: 'The threshold is a number that fits these lives; it is no life that every specimen survives.',
    mend: 'Do not rely on it.',
  };
}

function thresholdWeak(failures: number, many: number): Problem {
  return {
    code: 'threshold-weak',
    what: `With ${failures} broken specimens a threshold is not told: samples of 15 from a distribution that has one gave none in a third to a half of simulated cases.`,
    mend: `Choose two parameters, or test ${many} and more.`,
  };
}

function noLimit(): Problem {
  return { code: 'lives-limit-none', what: 'So few broken specimens set no such limit.', mend: 'Test more specimens at this stress.' };
}

function notWithThreshold(): Problem {
  return {
    code: 'lives-threshold-unpublished',
    what: 'A distribution with a threshold gives no value to go on with.',
    mend: 'Choose a distribution without a threshold.',
  };
}
