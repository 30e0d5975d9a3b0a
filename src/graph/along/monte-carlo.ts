import {
  histogramOf, inputSource, settlingOf, STABILITY_BLOCK, summariseSamples, watchStability,
  type Digits, type SampleSummary, type Histogram, type Input, type Settling, type Stability, type StabilityWatch,
} from '../../core/estimate/index.ts';
import { randomStreams, sortNumbers } from '../../core/numeric/index.ts';
import type { CompiledSheet } from '../compiled-types.ts';
import type { SheetStates } from '../types.ts';
import { chainFor, chainOf, compileChain, neededFor, type Chain } from './chain.ts';
import { uncertainInputs } from './sample-sheet.ts';

/** What is to be sampled; plain data, so that it can be sent to a worker. */
export interface SamplingRequest {
  readonly chain: Chain;
  /** The uncertain inputs that the result may hang on. */
  readonly inputs: readonly Input[];
  readonly symbol: string;
  /** Fixes the samples: the same request gives the same result everywhere. */
  readonly seed: number;
  /** Digits of u that have to be steady. */
  readonly digits: Digits;
  /** So many samples, whether they are steady or not; absent: until they are. */
  readonly count?: number;
}

/** The request for samples of one result of a sheet at its present state, with no more of the sheet than the result hangs on. */
export function samplingRequest(
  compiled: CompiledSheet, states: SheetStates, symbol: string, asked: Pick<SamplingRequest, 'seed' | 'digits' | 'count'>,
): SamplingRequest {
  const chain = chainOf(compiled, states);
  const needed = neededFor(chain, [symbol]);
  return {
    chain: chainFor(chain, needed),
    inputs: uncertainInputs(compiled, states).filter(({ id }) => needed.has(id)),
    symbol,
    ...asked,
  };
}

/** The most samples that the adaptive procedure makes: 80 MB of them. */
export const MOST_SAMPLES = 10_000_000;

export interface SamplingProgress {
  readonly count: number;
  /** Samples that it will take, as far as can be told. */
  readonly expected: number;
}

/** What the samples of one result say of it. SI. */
export interface SampledResult {
  readonly symbol: string;
  readonly seed: number;
  readonly digits: Digits;
  /** Samples made, those without a value among them. */
  readonly count: number;
  readonly withoutValue: number;
  /** Of the samples with a value; absent where there are fewer than two. */
  readonly summary?: SampleSummary;
  readonly histogram?: Histogram;
  readonly stability: Stability;
  /** With `ends only` the samples have no standard deviation, whatever the summary's number is. */
  readonly settling: Settling;
  readonly ended: 'steady' | 'count' | 'most' | 'stopped';
}

/** Samples being made, block by block; pauses, helpers and ends are its owner's business. What comes out does not hang on who made which block, nor when. */
export interface Sampling {
  /** Makes one block of samples, 10 000 or what is left; false when there is nothing more to make here. */
  advance(): boolean;
  /** The next so many blocks, to be made elsewhere and handed in; fewer where no more are wanted. */
  claim(blocks: number): readonly number[];
  /** Blocks that nobody has claimed yet, as far as can be told. */
  left(): number;
  /** A block that was claimed, as a `blockMaker` of the same request makes it. */
  hand(block: number, values: Float64Array): void;
  /** Blocks that were claimed and will not be handed in. */
  giveBack(blocks: readonly number[]): void;
  /** Whether there is an end: no block is waited for. */
  isOver(): boolean;
  progress(): SamplingProgress;
  /** What has been sampled so far; `stopped` unless it has come to its end. */
  result(): SampledResult;
}

/** Places of one pass over the formulas: a part of a block that stays in the processor's cache. */
const PASS = 1000;
const BINS = 60;
/** Share of the samples that a histogram leaves beyond each of its ends. */
const BEYOND = 0.002;

/** Room for samples that one sampling after another can have: new memory costs as much time as a tenth of the samples that fill it. */
export class SampleRoom {
  #values = new Float64Array();

  /** At least so long; what was sampled into it stays at its beginning. */
  take(length: number): Float64Array {
    if (length > this.#values.length) {
      const larger = new Float64Array(length);
      larger.set(this.#values);
      this.#values = larger;
    }
    return this.#values;
  }
}

/** Makes blocks of a request's samples by their numbers, quickest in rising order: of each those with a value, good until the next is made. */
export function blockMaker({ chain, inputs, symbol, seed, count }: SamplingRequest): (block: number) => Float64Array {
  const { inputs: blocks, results, run } = compileChain(chain, inputs.map(({ id }) => id), { wanted: [symbol] }, PASS);
  const moved = inputs.filter(({ id }) => blocks.has(id));
  const columns = moved.flatMap(({ id }) => blocks.get(id) ?? []);
  const found = results.get(symbol) ?? Number.NaN;
  const result = typeof found === 'number' ? new Float64Array(PASS).fill(found) : found;
  const source = inputSource(moved);
  const streams = randomStreams(seed);
  const values = new Float64Array(STABILITY_BLOCK);
  return (block) => {
    // Each block has a stream of its own, so that it is the same whoever makes it.
    const random = streams.at(block);
    const length = lengthOf(block, count);
    let kept = 0;
    for (let made = 0; made < length; made += PASS) {
      const places = Math.min(PASS, length - made);
      source(random, places === PASS ? columns : columns.map((column) => column.subarray(0, places)));
      run(places);
      kept = keepFinite(result, places, values, kept);
    }
    return values.subarray(0, kept);
  };
}

/** Samples in a block: fewer only in the last of so many as were asked for. */
function lengthOf(block: number, count: number | undefined): number {
  return Math.min(STABILITY_BLOCK, Math.min(count ?? MOST_SAMPLES, MOST_SAMPLES) - block * STABILITY_BLOCK);
}

/**
 * @param room not used by another sampling until this one's result is asked for
 * @source JCGM 101:2008, clause 7; adaptive: 7.9.4.
 */
export function startSampling(request: SamplingRequest, room = new SampleRoom()): Sampling {
  const { symbol, inputs, seed, digits, count: asked } = request;
  const make = blockMaker(request);
  const settling = settlingOf(inputs);
  const watch = watchStability(digits, settling);
  const most = Math.min(asked ?? MOST_SAMPLES, MOST_SAMPLES);
  let values = room.take(Math.min(asked ?? 50 * STABILITY_BLOCK, most));
  let [count, kept] = [0, 0];
  // Blocks are counted in their order: `next` is the first that was never claimed; those that came early wait.
  let [reached, next] = [0, 0];
  let returned: number[] = [];
  const early = new Map<number, Float64Array>();

  const ended = (): SampledResult['ended'] => {
    if (asked === undefined && watch.state().isSteady) return 'steady';
    return count < most ? 'stopped' : asked === undefined ? 'most' : 'count';
  };
  const isOver = (): boolean => ended() !== 'stopped';
  const add = (block: Float64Array): void => {
    if (kept + block.length > values.length) values = room.take(Math.min(2 * values.length, most));
    values.set(block, kept);
    kept += block.length;
    count += lengthOf(reached, asked);
    reached++;
    watch.add(block);
  };
  const hand = (block: number, made: Float64Array): void => {
    if (isOver()) return;
    if (block !== reached) {
      early.set(block, made.slice());
      return;
    }
    add(made);
    for (let waiting = early.get(reached); waiting !== undefined && !isOver(); waiting = early.get(reached)) {
      early.delete(reached);
      add(waiting);
    }
  };
  const claim = (blocks: number): readonly number[] => {
    const claimed: number[] = [];
    while (claimed.length < blocks && !isOver()) {
      const block = returned.shift() ?? next;
      if (block * STABILITY_BLOCK >= most) break;
      if (block === next) next++;
      claimed.push(block);
    }
    return claimed;
  };
  const expected = (): number => asked ?? expectedCount(watch.state(), count);
  const advance = (): boolean => {
    const [block] = claim(1);
    if (block === undefined) return false;
    hand(block, make(block));
    return !isOver();
  };
  return {
    advance, claim, hand, isOver,
    giveBack: (blocks) => {
      returned = [...returned, ...blocks].sort((a, b) => a - b);
    },
    progress: () => ({ count, expected: expected() }),
    left: () => (isOver() ? 0 : Math.max(1, Math.ceil(Math.min(expected(), most) / STABILITY_BLOCK) - next + returned.length)),
    result: () => ({
      symbol, seed, digits, count, withoutValue: count - kept, stability: watch.state(), settling, ended: ended(),
      ...(kept < 2 ? {} : summarised(values.subarray(0, kept), watch.moments())),
    }),
  };
}

/** The same of samples that were made already, of which so many were asked for; `inputs` are those that the result hangs on. */
export function sampledResult(
  { symbol, inputs, seed, digits }: Pick<SamplingRequest, 'symbol' | 'inputs' | 'seed' | 'digits'>, column: Float64Array,
): SampledResult {
  const settling = settlingOf(inputs);
  const watch = watchStability(digits, settling);
  const values = column.filter((value) => Number.isFinite(value));
  for (let from = 0; from < values.length; from += STABILITY_BLOCK) watch.add(values.subarray(from, from + STABILITY_BLOCK));
  return {
    symbol, seed, digits, count: column.length, withoutValue: column.length - values.length, stability: watch.state(), settling, ended: 'count',
    ...(values.length < 2 ? {} : summarised(values, watch.moments())),
  };
}

/** Copies the values that are numbers behind those that are there; gives the new end. */
function keepFinite(found: Float64Array, places: number, values: Float64Array, end: number): number {
  // Zero, unless one of them is no number.
  let sum = 0;
  for (let i = 0; i < places; i++) sum += (found[i] as number) - (found[i] as number);
  if (sum === 0) {
    values.set(places === found.length ? found : found.subarray(0, places), end);
    return end + places;
  }
  let next = end;
  for (let i = 0; i < places; i++) {
    const value = found[i] as number;
    values[next] = value;
    if (value - value === 0) next++;
  }
  return next;
}

/** Chance shrinks with the square root of the number of samples. */
function expectedCount({ spread, allowed, isSteady }: Stability, count: number): number {
  if (isSteady || !(allowed > 0) || !Number.isFinite(spread)) return isSteady ? count : MOST_SAMPLES;
  return Math.min(MOST_SAMPLES, Math.max(count, count * (spread / allowed) ** 2));
}

function summarised(
  values: Float64Array, moments: ReturnType<StabilityWatch['moments']>,
): { readonly summary: SampleSummary; readonly histogram?: Histogram } {
  const summary = moments.count === values.length ? summariseSamples(values, moments) : summariseSamples(values);
  const first = sortNumbers(values.slice(0, STABILITY_BLOCK));
  const beyond = Math.floor(BEYOND * first.length);
  const from = Math.min(first[beyond] ?? 0, summary.low);
  const to = Math.max(first[first.length - 1 - beyond] ?? 0, summary.high);
  return to > from ? { summary, histogram: histogramOf(values, from, to, BINS) } : { summary };
}
