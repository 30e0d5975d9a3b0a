import { select } from '../numeric/index.ts';
import { intervalPlaces, momentsOf, type Moments } from './summarise-samples.ts';
import type { Input } from './types.ts';

/** Samples in one block of the adaptive procedure: at least 100/(1 − p) and 10⁴, JCGM 101:2008, 7.9.4 b. */
export const STABILITY_BLOCK = 10_000;
/** The samples are to be this many times steadier than the tolerance that a comparison with first order is held to (8.2). */
const STEADIER = 5;

/** Digits of u that are to be trusted. */
export type Digits = 1 | 2;

/**
 * Half of the last of so many digits of u: numbers closer than that agree.
 * @param uncertainty standard uncertainty ≥ 0
 * @source JCGM 101:2008, 7.9.2: u = c·10^l with c a whole number of n digits; δ = ½·10^l.
 */
export function numericalTolerance(uncertainty: number, digits: Digits): number {
  if (!(uncertainty > 0) || uncertainty === Infinity) return 0;
  let power = Math.floor(Math.log10(uncertainty)) - (digits - 1);
  if (Math.round(uncertainty / 10 ** power) >= 10 ** digits) power++;
  return 0.5 * 10 ** power;
}

/** How far the adaptive procedure is. */
export interface Stability {
  readonly blocks: number;
  /** Twice the standard deviation of the block averages, the largest of those of mean, u and the interval's ends. */
  readonly spread: number;
  /** What it must not exceed. */
  readonly allowed: number;
  readonly isSteady: boolean;
}

/** Watches block after block of samples of one result. */
export interface StabilityWatch {
  /** @param values one block without NaN; blocks of fewer than two are passed over */
  add(values: Float64Array): void;
  state(): Stability;
  /** Of all values of the blocks that counted, and how many they were. */
  moments(): Moments & { readonly count: number };
}

/**
 * How well samples can settle where an input has Student's t: with up to two degrees of freedom they have no standard deviation
 * (`ends only`), with up to four it has no standard deviation of its own and wanders for ever (`without u`).
 */
export type Settling = 'all' | 'without u' | 'ends only';

/** By the fewest degrees of freedom among the t distributed components of what is sampled. */
export function settlingOf(inputs: readonly Input[]): Settling {
  const fewest = Math.min(Infinity, ...inputs.flatMap(({ components }) => components.flatMap(({ distribution, standardUncertainty, degreesOfFreedom }) =>
    (distribution === 't' && standardUncertainty > 0 ? [degreesOfFreedom] : []))));
  return fewest <= 2 ? 'ends only' : fewest <= 4 ? 'without u' : 'all';
}

/** A standard deviation so many times a quarter of the 95 % interval is made by rare samples that lie far off. */
const FAR_OFF = 2;

/**
 * The size that tolerances are taken from: the standard deviation of the samples, or a quarter of their 95 % interval where few
 * readings or a steep formula make rare samples that lie so far off that their standard deviation says nothing of the others, and
 * would let any interval pass.
 * @source JCGM 101:2008, 7.9.4 and 8.1 take u(y); that it must mean something is ours.
 */
export function telling({ standardDeviation, low, high }: { readonly standardDeviation: number; readonly low: number; readonly high: number }, settling: Settling): {
  readonly size: number;
  /** Rare samples have made the standard deviation and moved the mean, neither of which comes to rest. */
  readonly isFarOff: boolean;
} {
  const quarter = (high - low) / 4;
  // Also where it is no number: sums of huge samples run over.
  const isFarOff = !(standardDeviation <= FAR_OFF * quarter);
  return { size: isFarOff || settling !== 'all' ? quarter : standardDeviation, isFarOff };
}

/**
 * The adaptive Monte Carlo procedure: of each block its mean, standard deviation and interval ends; it is steady once twice the
 * standard deviation of each of the four averages is at most a fifth of the numerical tolerance. What cannot settle is not
 * waited for; a quarter of the interval then stands for u in the tolerance (`telling`).
 * @source JCGM 101:2008, 7.9.4; a fifth: 8.2 (from memory). That t with few degrees of freedom is let pass is ours.
 */
export function watchStability(digits: Digits, settling: Settling = 'all'): StabilityWatch {
  const quantities = [running(), running(), running(), running()];
  const [means, deviations, lows, highs] = quantities as [Running, Running, Running, Running];
  const ends = blockEnds();
  let [count, mean, squares] = [0, 0, 0];
  const pool = (values: Float64Array): void => {
    const block = momentsOf(values);
    means.add(block.mean);
    deviations.add(Math.sqrt(block.squares / (values.length - 1)));
    const total = count + values.length;
    const apart = block.mean - mean;
    squares += block.squares + (apart * apart * count * values.length) / total;
    mean += (apart * values.length) / total;
    count = total;
  };
  return {
    add: (values) => {
      if (values.length < 2) return;
      pool(values);
      const { low, high } = ends(values);
      lows.add(low);
      highs.add(high);
    },
    state: () => {
      const blocks = means.count();
      const { size, isFarOff } = telling({ standardDeviation: Math.sqrt(squares / (count - 1)), low: lows.mean(), high: highs.mean() }, settling);
      const allowed = numericalTolerance(size, digits) / STEADIER;
      const endsOnly = isFarOff || settling === 'ends only';
      const watched = endsOnly ? [lows, highs] : settling === 'without u' ? [means, lows, highs] : quantities;
      const spread = Math.max(...watched.map((one) => 2 * Math.sqrt(one.variance() / blocks)));
      return { blocks, spread, allowed, isSteady: blocks > 1 && spread <= allowed };
    },
    moments: () => ({ count, mean, squares }),
  };
}

/**
 * The ends of the probabilistically symmetric interval of block after block. The block before says about where they are: only
 * what lies beyond twice as many values is looked through for them.
 */
function blockEnds(): (values: Float64Array) => { readonly low: number; readonly high: number } {
  let [lowest, highest] = [new Float64Array(0), new Float64Array(0)];
  let [lowTo, highFrom] = [Number.NaN, Number.NaN];
  return (values) => {
    const { below, above } = intervalPlaces(values.length);
    if (lowest.length < values.length) [lowest, highest] = [new Float64Array(values.length), new Float64Array(values.length)];
    let [lows, highs] = [0, 0];
    for (let i = 0; i < values.length; i++) {
      const value = values[i] as number;
      if (value <= lowTo) lowest[lows++] = value;
      if (value >= highFrom) highest[highs++] = value;
    }
    if (lows < below || highs < above) {
      lows = highs = values.length;
      lowest.set(values);
      highest.set(values);
    }
    const low = select(lowest, below - 1, 0, lows);
    const high = select(highest, highs - above, 0, highs);
    // Of what is left beyond those; where that is none, the ends themselves.
    lowTo = select(lowest, Math.min(lows, 2 * below) - 1, below - 1, lows);
    highFrom = select(highest, Math.max(0, highs - 2 * above), 0, highs - above + 1);
    return { low, high };
  };
}

interface Running {
  add(value: number): void;
  count(): number;
  mean(): number;
  variance(): number;
}

/** Mean and variance of numbers as they come (Welford). */
function running(): Running {
  let [count, mean, squares] = [0, 0, 0];
  return {
    add: (value) => {
      count++;
      const apart = value - mean;
      mean += apart / count;
      squares += apart * (value - mean);
    },
    count: () => count,
    mean: () => mean,
    variance: () => (count > 1 ? squares / (count - 1) : Infinity),
  };
}
