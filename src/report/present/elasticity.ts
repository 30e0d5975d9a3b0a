import { elasticityBetween, slopesAround } from '../../graph/index.ts';
import { wholeOf } from './asked.ts';
import { isSymbolHidden, withheldWords } from './hidden.ts';
import { calledIn } from './lookup.ts';
import { plainFigures } from './number.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext } from './types.ts';

/** What one percent does along the chain, about one chosen symbol. */
export interface PresentedElasticities {
  readonly symbol: string;
  readonly symbolTex: string;
  readonly words: string;
  /** By symbol: those that move the chosen one, and those it moves. The chosen one is not among them. */
  readonly marks: ReadonlyMap<string, ElasticityMark>;
  /** All of it in one sentence or two, for those who do not see the marks. */
  readonly sentence: string;
}

/** 1 % on `of` is so many percent on `on`. */
export interface ElasticityMark {
  readonly side: 'upstream' | 'downstream';
  readonly ofTex: string;
  readonly onTex: string;
  /** `−3 %`, `+25 %`, `0 %`. Absent while one of the two is still asked of the reader, and where there is no percentage of zero. */
  readonly percent?: string;
  /** Why there is no percentage; '' where there is one. */
  readonly why: string;
}

/** Below this nobody tells it from nothing, % per 1 %. */
const NOTHING = 5e-4;
const MOST_NAMED = 4;

/** Elasticities of everything up- and downstream of a symbol; undefined where it has no value. */
export function presentElasticities(symbol: string, context: PresentContext): PresentedElasticities | undefined {
  const { states } = wholeOf(context);
  if (states.symbol(symbol)?.status !== 'value') return undefined;
  const { upstream, downstream } = slopesAround(symbol, states);
  const marks = new Map<string, ElasticityMark>();
  const ranked: { readonly name: string; readonly size: number; readonly percent: string; readonly side: ElasticityMark['side'] }[] = [];
  const withheld = (name: string): string | undefined =>
    (isSymbolHidden(name, context) ? withheldWords(states.definedBy(name) ?? '', context) : undefined);
  const mark = (side: ElasticityMark['side'], other: string, slope: number): void => {
    const [of, on] = side === 'upstream' ? [other, symbol] : [symbol, other];
    const { percent, why, size } = told(elasticityBetween(slope, of, on, states), withheld(of) ?? withheld(on));
    marks.set(other, { side, ofTex: symbolOf(of), onTex: symbolOf(on), ...(percent === undefined ? {} : { percent }), why });
    if (percent !== undefined) ranked.push({ name: wordsOf(other, context), size, percent, side });
  };
  for (const [other, slope] of upstream) mark('upstream', other, slope);
  for (const [other, slope] of downstream) mark('downstream', other, slope);
  const words = wordsOf(symbol, context);
  return { symbol, symbolTex: symbolOf(symbol), words, marks, sentence: sentenceOf(words, marks.size, ranked) };
}

function told(elasticity: number | undefined, withheld: string | undefined): { readonly percent?: string; readonly why: string; readonly size: number } {
  if (withheld !== undefined) return { why: withheld, size: 0 };
  if (elasticity === undefined) return { why: 'one of the two is zero, and there is no percentage of zero', size: 0 };
  const size = Math.abs(elasticity);
  if (size < NOTHING) return { percent: elasticity === 0 ? '0 %' : '≈ 0 %', why: '', size };
  return { percent: `${elasticity > 0 ? '+' : ''}${plainFigures(elasticity, 2)} %`, why: '', size };
}

function wordsOf(symbol: string, context: PresentContext): string {
  return calledIn(context, symbol);
}

function sentenceOf(
  words: string, count: number,
  ranked: readonly { readonly name: string; readonly size: number; readonly percent: string; readonly side: ElasticityMark['side'] }[],
): string {
  if (count === 0) return `Nothing on this sheet moves with ${words}.`;
  const named = (side: ElasticityMark['side'], of: (name: string, percent: string) => string): string => {
    const most = ranked.filter((one) => one.side === side && one.size >= NOTHING).toSorted((a, b) => b.size - a.size).slice(0, MOST_NAMED);
    return most.map(({ name, percent }) => of(name, percent)).join('; ');
  };
  const down = named('downstream', (name, percent) => `${percent} on ${name}`);
  const up = named('upstream', (name, percent) => `1 % on ${name}: ${percent}`);
  return [
    `${count} ${count === 1 ? 'line lights' : 'lines light'} up.`,
    ...(down === '' ? [] : [`1 % on ${words}: ${down}.`]),
    ...(up === '' ? [] : [`On ${words}: ${up}.`]),
    'Escape ends it.',
  ].join(' ');
}
