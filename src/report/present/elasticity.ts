import { effectsAround, elasticityBetween, slopesAround, type Effects } from '../../graph/index.ts';
import { wholeOf } from './asked.ts';
import { isSymbolHidden, withheldWords } from './hidden.ts';
import { calledIn } from './lookup.ts';
import { plainFigures } from './number.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext } from './types.ts';

/** How things move with one another along the chain about one chosen symbol: by the slope at this point, and by a change worked out. */
export interface PresentedElasticities {
  readonly symbol: string;
  readonly symbolTex: string;
  readonly words: string;
  /** The change that is worked out beside the slopes, as a share. */
  readonly change: number;
  /** By symbol: those that move the chosen one, and those it moves. The chosen one is not among them. */
  readonly marks: ReadonlyMap<string, ElasticityMark>;
  /** All of it in one sentence or two, for those who do not see the marks. */
  readonly sentence: string;
}

/** Per 1 % of `of` so many percent on `on`. */
export interface ElasticityMark {
  readonly side: 'upstream' | 'downstream';
  readonly ofTex: string;
  readonly onTex: string;
  /** By the slope: `−3 %`, `+25 %`, `0 %`. Absent while one of the two is still asked of the reader, and where there is no percentage of zero. */
  readonly percent?: string;
  /** `+1 %: −28.7 %, −1 %: +40.7 %`, where that is something else than the slope says; of any other change always. */
  readonly effects?: string;
  /** Why there is no percentage; '' where there is one. */
  readonly why: string;
}

/** Below this nobody tells it from nothing, % per 1 %. */
const NOTHING = 5e-4;
/** Changes that can be asked for, as shares; the slopes are told per one percent. */
export const CHANGES: readonly number[] = [0.001, 0.005, 0.01, 0.02, 0.05, 0.1];
export const USUAL_CHANGE = 0.01;
const MOST_NAMED = 4;

/** Elasticities of everything up- and downstream of a symbol; undefined where it has no value. */
export function presentElasticities(symbol: string, context: PresentContext, change = USUAL_CHANGE): PresentedElasticities | undefined {
  const { document, states } = wholeOf(context);
  if (states.symbol(symbol)?.status !== 'value') return undefined;
  const { upstream, downstream } = slopesAround(symbol, states);
  const effects = effectsAround(symbol, document, states, [change, -change]);
  const marks = new Map<string, ElasticityMark>();
  const ranked: { readonly name: string; readonly size: number; readonly percent: string; readonly effects?: string; readonly side: ElasticityMark['side'] }[] = [];
  const withheld = (name: string): string | undefined =>
    (isSymbolHidden(name, context) ? withheldWords(states.definedBy(name) ?? '', context) : undefined);
  const mark = (side: ElasticityMark['side'], other: string, slope: number): void => {
    const [of, on] = side === 'upstream' ? [other, symbol] : [symbol, other];
    const { percent, why, size } = told(elasticityBetween(slope, of, on, states), withheld(of) ?? withheld(on));
    const really = percent === undefined ? undefined : effectsTold(effects[side].get(other) ?? [], percent, change);
    const beside = really === undefined ? {} : { effects: really };
    marks.set(other, { side, ofTex: symbolOf(of), onTex: symbolOf(on), ...(percent === undefined ? {} : { percent }), ...beside, why });
    if (percent !== undefined) ranked.push({ name: wordsOf(other, context), size, percent, ...beside, side });
  };
  for (const [other, slope] of upstream) mark('upstream', other, slope);
  for (const [other, slope] of downstream) mark('downstream', other, slope);
  const words = wordsOf(symbol, context);
  return { symbol, symbolTex: symbolOf(symbol), words, change, marks, sentence: sentenceOf(words, marks.size, ranked) };
}

function told(elasticity: number | undefined, withheld: string | undefined): { readonly percent?: string; readonly why: string; readonly size: number } {
  if (withheld !== undefined) return { why: withheld, size: 0 };
  if (elasticity === undefined) return { why: 'one of the two is zero, and there is no percentage of zero', size: 0 };
  const size = Math.abs(elasticity);
  return { percent: percentOf(elasticity), why: '', size };
}

/** What so many percent are told as. */
function percentOf(percent: number, digits = 2): string {
  if (Math.abs(percent) < NOTHING) return percent === 0 ? '0 %' : '≈ 0 %';
  return `${percent > 0 ? '+' : ''}${plainFigures(percent, digits)} %`;
}

/** What the change and its opposite do; undefined where one percent does, in two figures, what the slope says. */
function effectsTold(effects: Effects, slope: string, change: number): string | undefined {
  const told = (digits: number): readonly string[] => effects.map((effect) => (Number.isFinite(effect) ? percentOf(100 * effect, digits) : 'no value there'));
  const [roughly, [more, less]] = [told(2), told(3)];
  if (more === undefined || less === undefined) return undefined;
  if (change === USUAL_CHANGE && roughly[0] === slope && roughly[1] === opposite(slope)) return undefined;
  const by = `${plainFigures(100 * change, 2)}\u00a0%`;
  return `+${by}: ${more}, −${by}: ${less}`;
}

function opposite(percent: string): string {
  return percent.startsWith('+') ? percent.replace('+', '−') : percent.replace('−', '+');
}

function wordsOf(symbol: string, context: PresentContext): string {
  return calledIn(context, symbol);
}

function sentenceOf(
  words: string, count: number,
  ranked: readonly { readonly name: string; readonly size: number; readonly percent: string; readonly effects?: string; readonly side: ElasticityMark['side'] }[],
): string {
  if (count === 0) return `Nothing on this sheet moves with ${words}.`;
  const named = (side: ElasticityMark['side'], of: (name: string, percent: string) => string): string => {
    const most = ranked.filter((one) => one.side === side && one.size >= NOTHING).toSorted((a, b) => b.size - a.size).slice(0, MOST_NAMED);
    return most.map(({ name, percent, effects }) => `${of(name, percent)}${effects === undefined ? '' : ` (${effects})`}`).join('; ');
  };
  const down = named('downstream', (name, percent) => `${percent} on ${name}`);
  const up = named('upstream', (name, percent) => `per 1 % of ${name} ${percent}`);
  return [
    `${count} ${count === 1 ? 'line lights' : 'lines light'} up.`,
    ...(down === '' ? [] : [`By the slope at this point, per 1 % of ${words}: ${down}.`]),
    ...(up === '' ? [] : [`On ${words}, by the slope at this point: ${up}.`]),
    'Escape ends it.',
  ].join(' ');
}
