import {
  coverageInterval, factorInterval, numericalTolerance, roundByUncertainty, standardUncertainty, telling, validateFactor, validateFirstOrder, type SampleSummary, type Estimate,
  type Histogram, type RoundedValue, type Validation,
} from '../../core/estimate/index.ts';
import { normalDensity, studentDensity } from '../../core/numeric/index.ts';
import { counterpart, fromSI, intervalFromSI, type Unit } from '../../core/units/index.ts';
import type { Chart, ChartOptions, SamplesData } from '../../figures/charts/index.ts';
import { chartDrawers } from '../../figures/at-hand/index.ts';
import type { SampledResult } from '../../graph/index.ts';
import type { SymbolState } from '../../graph/types.ts';
import { calledIn } from './lookup.ts';
import { atSamePlace, countText, decimalText, figures, intervalEnd, unitText, withUnit } from './number.ts';
import { isShownAsFactor } from './result.ts';
import type { PresentContext } from './types.ts';

/** What samples say of a result, beside what first order says. */
export interface PresentedSamples {
  readonly rows: readonly { readonly head: string; readonly sampled: string; readonly firstOrder: string }[];
  /** Whether the first-order interval may be used; `untold` where the samples cannot tell. */
  readonly verdict: { readonly holds: boolean | 'untold'; readonly sentence: string };
  /** The same of the interval as a factor, for lives. */
  readonly factorVerdict?: { readonly holds: boolean | 'untold'; readonly sentence: string };
  /** How many samples, how they ended, what had no value. */
  readonly facts: readonly string[];
  readonly chart?: (options: ChartOptions) => Chart;
  /** One sentence for those who do not see it. */
  readonly spoken: string;
}

/** What few readings do to samples. */
const SETTLING: Readonly<Record<SampledResult['settling'], readonly string[]>> = {
  all: [],
  'without u': ['One of the inputs rests on four or five readings. Few readings make rare draws that lie far off (Student’s t): they widen u, and its last digit keeps changing. More readings help.'],
  'ends only': ['One of the inputs rests on two or three readings only. Such draws have no standard deviation (Student’s t with one or two degrees of freedom); their interval stands. One more reading helps most.'],
};

const FAR_OFF = 'A few draws lie so far off that the standard deviation says little of the others: the formula is steep where they fall. Their interval stands.';

interface Ends {
  readonly low: number;
  readonly high: number;
}

/**
 * The samples of a result with its first-order interval beside them and whether that one may be used (JCGM 101:2008, clause 8).
 * Undefined where there is nothing to compare: no value, or samples without values.
 */
export function presentSamples(sampled: SampledResult, state: SymbolState, context: PresentContext): PresentedSamples | undefined {
  const { summary } = sampled;
  if (state.status !== 'value' || summary === undefined) return undefined;
  const { estimate } = state;
  const unit = counterpart(state.unit, context.system);
  const name = unitText(unit);
  const isFactor = isShownAsFactor(sampled.symbol, context) && estimate.value > 0;
  const { low, high } = coverageInterval(estimate);
  const u = standardUncertainty(estimate);
  // Sums of samples near the largest number of all run over; their interval stands.
  const hasMoments = Number.isFinite(summary.mean) && Number.isFinite(summary.standardDeviation);
  const hasUncertainty = sampled.settling !== 'ends only' && hasMoments;
  const { size, isFarOff } = telling(summary, sampled.settling);
  const rounded = roundByUncertainty(fromSI(hasMoments ? summary.mean : estimate.value, unit), intervalFromSI(size, unit));
  const write = (si: number): string => atSamePlace(fromSI(si, unit), rounded);
  const end = (si: number): string => intervalEnd(fromSI(si, unit), rounded);
  const interval = (ends: Ends): string => `${end(ends.low)} to ${end(ends.high)}`;
  const asFactor = isFactor ? factorInterval(estimate) : undefined;
  const words = { interval: (ends: Ends) => withUnit(interval(ends), name), size: (si: number) => withUnit(figures(intervalFromSI(si, unit), 2), name) };
  const tolerance = numericalTolerance(size, sampled.digits);
  const data = sampled.histogram === undefined ? undefined : chartData({ sampled, histogram: sampled.histogram, summary, first: estimate, unit, rounded }, context);
  const verdict = verdictOf(sampled, validateFirstOrder({ low, high }, summary, tolerance), words, isFactor ? ' as ±' : '');
  return {
    rows: [
      { head: 'Mean of the draws; value', sampled: hasUncertainty ? write(summary.mean) : 'none', firstOrder: write(estimate.value) },
      { head: 'Standard uncertainty', sampled: hasUncertainty ? (size === summary.standardDeviation ? uncertaintyText(rounded) : figures(intervalFromSI(summary.standardDeviation, unit), 2)) : 'none', firstOrder: figures(intervalFromSI(u, unit), 2) },
      { head: '95 % interval, as many left out below as above', sampled: interval(summary), firstOrder: interval({ low, high }) },
      ...(asFactor !== undefined ? [{ head: 'The same, first order as a factor ×/÷', sampled: interval(summary), firstOrder: interval(asFactor) }] : []),
      { head: 'Shortest 95 % interval', sampled: interval(summary.shortest), firstOrder: '' },
    ].map((row) => ({ ...row, sampled: row.sampled === 'none' ? row.sampled : withUnit(row.sampled, name), firstOrder: row.firstOrder === '' ? '' : withUnit(row.firstOrder, name) })),
    verdict,
    ...(asFactor === undefined ? {} : { factorVerdict: factorVerdictOf(sampled, asFactor, summary, words) }),
    facts: factsOf(sampled, isFarOff, words.size),
    ...(data === undefined ? {} : { chart: (options: ChartOptions) => chartDrawers().samplesChart(data, options) }),
    spoken: `Drawn: 95 % interval ${words.interval(summary)}. ${verdict.sentence}`,
  };
}

interface ChartSource {
  readonly sampled: SampledResult;
  readonly histogram: Histogram;
  readonly summary: SampleSummary;
  /** By first order. */
  readonly first: Estimate;
  readonly unit: Unit;
  /** What the figures of the result are rounded by. */
  readonly rounded: RoundedValue;
}

/** The histogram in the display unit, with the density that first order supposes: normal, or t with its degrees of freedom. */
function chartData({ sampled, histogram, summary, first, unit, rounded }: ChartSource, context: PresentContext): SamplesData {
  const name = unitText(unit);
  const at = (si: number): number => fromSI(si, unit);
  const shown = ({ low, high }: Ends): Ends => ({ low: at(low), high: at(high) });
  const [middle, scale] = [at(first.value), intervalFromSI(standardUncertainty(first), unit)];
  const ends = coverageInterval(first);
  const { degreesOfFreedom: freedom } = ends;
  const density = freedom === undefined || freedom === Infinity ? normalDensity : (z: number) => studentDensity(z, freedom);
  const label = calledIn(context, sampled.symbol);
  return {
    symbol: sampled.symbol, unit: name, title: name === '' ? label : `${label} in ${name}`,
    from: at(histogram.from), to: at(histogram.to), counts: histogram.counts, count: sampled.count - sampled.withoutValue,
    estimate: middle,
    density: (value) => density((value - middle) / scale) / scale,
    intervals: [
      { name: '95 % interval of the draws', key: '95 % interval', look: 'even', ...shown(summary) },
      { name: 'Shortest 95 % interval', key: 'shortest', look: 'shortest', ...shown(summary.shortest) },
      { name: '95 % interval by first order', key: 'by first order', look: 'first-order', ...shown(ends) },
    ],
    text: (value) => withUnit(intervalEnd(value, rounded), name),
  };
}

function uncertaintyText({ uncertainty, exponent }: RoundedValue): string {
  return uncertainty === undefined ? '0' : decimalText(uncertainty, exponent);
}

interface Words {
  readonly interval: (ends: Ends) => string;
  readonly size: (si: number) => string;
}

function verdictOf(sampled: SampledResult, validation: Validation, words: Words, as: string): PresentedSamples['verdict'] {
  const { summary, stability } = sampled;
  if (summary === undefined) throw new Error('no draws to judge by');
  const { lowApart, highApart, tolerance, holds } = validation;
  const apart = `Its ends lie ${words.size(lowApart)} and ${words.size(highApart)} from those of the draws, where at most ${words.size(tolerance)} is allowed`;
  // An end of the samples is itself known only so well; nearer to the limit than that, they can't tell.
  const doubt = stability.blocks > 1 ? stability.spread : Infinity;
  if (Math.abs(Math.max(lowApart, highApart) - tolerance) < doubt && !(stability.isSteady)) {
    return { holds: 'untold', sentence: `These draws can't tell yet whether the first-order interval${as} may be used. ${apart}, and chance alone moves them by ${Number.isFinite(doubt) ? words.size(doubt) : 'more than that'}. Draw more.` };
  }
  return holds
    ? { holds, sentence: `The first-order interval${as} may be used. ${apart}: half a unit in the ${sampled.digits === 1 ? 'first' : 'second'} digit of u.` }
    : { holds, sentence: `Don't use the first-order interval${as} here. ${apart}. Use the interval of the draws, ${words.interval(summary)}.` };
}

function factorVerdictOf(sampled: SampledResult, first: Ends, summary: SampleSummary, words: Words): PresentedSamples['verdict'] {
  const validation = validateFactor(first, summary, sampled.digits);
  if (validation === undefined) return { holds: false, sentence: 'As a factor it does not hold either: some draws are zero or below.' };
  const { holds } = validation;
  return {
    holds,
    sentence: holds
      ? `As a factor, ×/÷, it may be used: ${words.interval(first)}. The logarithm of this result is nearly linear in its inputs.`
      : `As a factor, ×/÷, it would be ${words.interval(first)}, which also differs from the draws by more than is allowed.`,
  };
}

function factsOf(sampled: SampledResult, isFarOff: boolean, size: (si: number) => string): string[] {
  const { count, withoutValue, stability, ended, settling, digits } = sampled;
  const of = digits === 1 ? 'the first digit' : 'two digits';
  const steadiness = Number.isFinite(stability.spread) ? ` Chance still moves a number by up to ${size(stability.spread)}.` : '';
  const how = {
    steady: `${isFarOff || settling === 'ends only' ? 'Both ends are' : settling === 'without u' ? 'Mean and both ends are' : 'Mean, u and both ends are'} steady to ${of} of u.`,
    count: `So many were asked for.${stability.isSteady ? '' : steadiness}`,
    most: `More are not made in one go.${steadiness}`,
    stopped: `Stopped early.${steadiness}`,
  }[ended];
  return [
    `${countText(count)} draws, seed ${sampled.seed}. ${how}`,
    ...(withoutValue === 0 ? [] : [`${countText(withoutValue)} draws gave no value (a root of a negative number, a division by zero) and are left out.`]),
    ...(isFarOff && settling === 'all' ? [FAR_OFF] : SETTLING[settling]),
  ];
}
