import {
  histogramOf, inputSource, settlingOf, STABILITY_BLOCK, summariseDraws, watchStability,
  type Digits, type DrawSummary, type Histogram, type Input, type Settling, type Stability,
} from '../../core/estimate/index.ts';
import { createRandom } from '../../core/numeric/index.ts';
import type { Plan } from '../plan.ts';
import type { SheetStates } from '../types.ts';
import { chainOf, evaluateAlong, neededFor, type Chain } from './chain.ts';
import { uncertainInputs } from './draws.ts';

/** What is to be drawn; plain data, so that it can be sent to a worker. */
export interface DrawRequest {
  readonly chain: Chain;
  /** The uncertain inputs that the result may hang on. */
  readonly inputs: readonly Input[];
  readonly symbol: string;
  /** Fixes the draws: the same request gives the same result everywhere. */
  readonly seed: number;
  /** Digits of u that have to be steady. */
  readonly digits: Digits;
  /** So many draws, whether they are steady or not; absent: until they are. */
  readonly count?: number;
}

/** The request for draws of one result of a sheet at its present state, with no more of the sheet than the result hangs on. */
export function drawRequest(
  plan: Plan, states: SheetStates, symbol: string, asked: Pick<DrawRequest, 'seed' | 'digits' | 'count'>,
): DrawRequest {
  const chain = chainOf(plan, states);
  const needed = neededFor(chain, [symbol]);
  return {
    chain: { links: chain.links.filter((link) => needed.has(link.symbol)) },
    inputs: uncertainInputs(plan, states).filter(({ id }) => needed.has(id)),
    symbol,
    ...asked,
  };
}

/** The most draws that the adaptive procedure makes: 80 MB of them. */
export const MOST_DRAWS = 10_000_000;

export interface DrawProgress {
  readonly count: number;
  /** Draws that it will take, as far as can be told. */
  readonly expected: number;
}

/** What the draws of one result say of it. SI. */
export interface DrawnResult {
  readonly symbol: string;
  readonly seed: number;
  readonly digits: Digits;
  /** Draws made, those without a value among them. */
  readonly count: number;
  readonly withoutValue: number;
  /** Of the draws with a value; absent where there are fewer than two. */
  readonly summary?: DrawSummary;
  readonly histogram?: Histogram;
  readonly stability: Stability;
  /** With `ends only` the draws have no standard deviation, whatever the summary's number is. */
  readonly settling: Settling;
  readonly ended: 'steady' | 'count' | 'most' | 'stopped';
}

/** Draws being made, block by block; pauses and ends are its owner's business. */
export interface Drawing {
  /** Makes one block of draws, 10 000 or what is left; false when there is nothing more to do. */
  advance(): boolean;
  progress(): DrawProgress;
  /** What has been drawn so far; `stopped` unless it has come to its end. */
  result(): DrawnResult;
}

const BINS = 60;
/** Share of the draws that a histogram leaves beyond each of its ends. */
const BEYOND = 0.002;

/** @source JCGM 101:2008, clause 7; adaptive: 7.9.4. */
export function startDrawing({ chain, inputs, symbol, seed, digits, count: asked }: DrawRequest): Drawing {
  const random = createRandom(seed);
  const source = inputSource(inputs);
  const settling = settlingOf(inputs);
  const watch = watchStability(digits, settling);
  let values = new Float64Array(Math.min(asked ?? 50 * STABILITY_BLOCK, MOST_DRAWS));
  let [count, kept] = [0, 0];
  const most = Math.min(asked ?? MOST_DRAWS, MOST_DRAWS);

  const ended = (): DrawnResult['ended'] => {
    if (asked === undefined && watch.state().isSteady) return 'steady';
    return count < most ? 'stopped' : asked === undefined ? 'most' : 'count';
  };
  const advance = (): boolean => {
    if (ended() !== 'stopped') return false;
    const length = Math.min(STABILITY_BLOCK, most - count);
    const columns = new Map(inputs.map(({ id }) => [id, new Float64Array(length)]));
    source(random, [...columns.values()]);
    const found = evaluateAlong(chain, columns, length, { wanted: [symbol] }).get(symbol) ?? Number.NaN;
    if (kept + length > values.length) values = enlarged(values, most);
    const from = kept;
    for (let i = 0; i < length; i++) {
      const value = typeof found === 'number' ? found : found[i] as number;
      if (Number.isFinite(value)) values[kept++] = value;
    }
    count += length;
    watch.add(values.subarray(from, kept));
    return ended() === 'stopped';
  };
  return {
    advance,
    progress: () => ({ count, expected: asked ?? expectedCount(watch.state(), count) }),
    result: () => ({
      symbol, seed, digits, count, withoutValue: count - kept, stability: watch.state(), settling, ended: ended(),
      ...(kept < 2 ? {} : summarised(values.subarray(0, kept))),
    }),
  };
}

function enlarged(values: Float64Array, most: number): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(Math.min(2 * values.length, most));
  larger.set(values);
  return larger;
}

/** Chance shrinks with the square root of the number of draws. */
function expectedCount({ spread, allowed, isSteady }: Stability, count: number): number {
  if (isSteady || !(allowed > 0) || !Number.isFinite(spread)) return isSteady ? count : MOST_DRAWS;
  return Math.min(MOST_DRAWS, Math.max(count, count * (spread / allowed) ** 2));
}

function summarised(values: Float64Array): { readonly summary: DrawSummary; readonly histogram?: Histogram } {
  const summary = summariseDraws(values);
  const sample = Float64Array.from({ length: Math.min(values.length, STABILITY_BLOCK) }, (_, i) => values[i] ?? 0).sort();
  const beyond = Math.floor(BEYOND * sample.length);
  const from = Math.min(sample[beyond] ?? 0, summary.low);
  const to = Math.max(sample[sample.length - 1 - beyond] ?? 0, summary.high);
  return to > from ? { summary, histogram: histogramOf(values, from, to, BINS) } : { summary };
}
