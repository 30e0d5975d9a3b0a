import { remembered } from '../../core/remembered/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { Block, Cell } from '../../sheet/types.ts';
import { headingsOf, wordsOfProse } from '../prose.ts';
import { liveText } from './live.ts';
import { equationNumber, numberSheet } from './numbering.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext, WholeContext } from './types.ts';

/** A place of the sheet where something that was looked for stands. */
export interface FoundPlace {
  readonly blockId: string;
  /** The symbol that the place defines; absent for words. */
  readonly symbolTex?: string;
  /** Label of the cell, or the heading. */
  readonly title: string;
  /** The words about it, in three parts: before, what was looked for, behind; absent where the title says it. */
  readonly around?: readonly [before: string, found: string, behind: string];
  /** Section or equation number: `2.1`, `(7)`; '' for none. */
  readonly number: string;
}

export interface Found {
  readonly places: readonly FoundPlace[];
  /** How many there are, listed or not. */
  readonly count: number;
}

/** What a block can be found by. The words are those of the document: values of the sheet are never among them. */
interface Findable {
  readonly symbols: readonly string[];
  readonly titles: readonly string[];
  readonly texts: readonly string[];
}

/** Words kept around what was looked for, in characters. */
const AROUND = 36;

/**
 * Looks through the whole document, whatever of it is drawn or folded: symbols first, then labels and headings, then all other words.
 * @param most how many places are listed
 */
export function findInSheet(query: string, context: WholeContext, most: number): Found {
  const text = plainLetters(query).trim();
  if (text === '') return { places: [], count: 0 };
  const wanted: Wanted = { text, name: withNamedLetters(text).replaceAll(/[\s_]/g, '') };
  const ranked = context.document.blocks.flatMap((block) => {
    const rank = rankOf(findableOf(block), wanted, context);
    return rank === undefined ? [] : [{ block, rank }];
  }).toSorted((a, b) => a.rank - b.rank);
  return { places: ranked.slice(0, most).map(({ block, rank }) => placeOf(block, rank, { wanted, context })), count: ranked.length };
}

/** What is looked for in texts, and as the name of a symbol. */
interface Wanted {
  readonly text: string;
  readonly name: string;
}

const [SAME_SYMBOL, SYMBOL, TITLE, TEXT] = [0, 1, 2, 3] as const;

function rankOf({ symbols, titles, texts }: Findable, { text, name }: Wanted, context: PresentContext): number | undefined {
  const names = symbols.map((symbol) => plainLetters(symbol).replaceAll('_', ''));
  if (names.includes(name)) return SAME_SYMBOL;
  if (name !== '' && names.some((one) => one.startsWith(name))) return SYMBOL;
  if (titles.some((title) => plainLetters(title).includes(text))) return TITLE;
  return texts.some((one) => plainLetters(asShown(one, context)).includes(text)) ? TEXT : undefined;
}

/** With live values put in: what the sheet withholds is withheld here too. */
function asShown(text: string, context: PresentContext): string {
  return text.includes('{=') ? liveText(text, context) : text;
}

function placeOf(block: Block, rank: number, { wanted, context }: { readonly wanted: Wanted; readonly context: PresentContext }): FoundPlace {
  const { symbols: [symbol], titles, texts } = findableOf(block);
  const has = (text: string): boolean => plainLetters(text).includes(wanted.text);
  const text = rank === TEXT ? texts.map((one) => asShown(one, context)).find(has) : undefined;
  return {
    blockId: block.id,
    title: titles.find(has) ?? titles[0] ?? '',
    number: numberOf(block, context),
    ...(symbol === undefined ? {} : { symbolTex: symbolOf(symbol) }),
    ...(text === undefined ? {} : { around: aroundIn(text, wanted.text) }),
  };
}

function numberOf(block: Block, context: PresentContext): string {
  if (block.kind === 'prose') return numberSheet(context.document).sections.get(block.id)?.[0] ?? '';
  const number = equationNumber(block.id, context);
  return number === '' ? '' : `(${number})`;
}

function aroundIn(text: string, wanted: string): readonly [string, string, string] {
  const at = plainLetters(text).indexOf(wanted);
  const end = at + wanted.length;
  const from = at <= AROUND ? 0 : Math.min(at, text.indexOf(' ', at - AROUND) + 1);
  const to = text.length - end <= AROUND ? text.length : Math.max(end, text.lastIndexOf(' ', end + AROUND));
  return [(from > 0 ? '… ' : '') + text.slice(from, at), text.slice(at, end), text.slice(end, to) + (to < text.length ? ' …' : '')];
}

/** Small letters, where these are as many as the text has: a place in the one is a place in the other. */
function plainLetters(text: string): string {
  const small = text.toLowerCase();
  return small.length === text.length ? small : text;
}

/** What was typed with Greek letters, by the names that symbols have here: `σ_a` as `sigma_a`. */
function withNamedLetters(query: string): string {
  return query.replaceAll(/[α-ωϵϑϕΑ-Ω]/gu, (letter) => GREEK[letter.toLowerCase()] ?? letter);
}

const GREEK: Readonly<Record<string, string>> = {
  α: 'alpha', β: 'beta', γ: 'gamma', δ: 'delta', ε: 'epsilon', ϵ: 'epsilon', ζ: 'zeta', η: 'eta', θ: 'theta', ϑ: 'theta', ι: 'iota', κ: 'kappa', λ: 'lambda', μ: 'mu', ν: 'nu',
  ξ: 'xi', ο: 'omicron', π: 'pi', ρ: 'rho', σ: 'sigma', ς: 'sigma', τ: 'tau', υ: 'upsilon', φ: 'phi', ϕ: 'phi', χ: 'chi', ψ: 'psi', ω: 'omega',
};

/** Kept by block, which an edit elsewhere leaves the same object. */
const findableOf = remembered((block: Block): Findable => {
  if (block.kind === 'prose') {
    const titles = headingsOf(block.source).map(({ words }) => words);
    return { symbols: [], titles, texts: wordsOfProse(block.source) };
  }
  const { cell } = block;
  const remark = cellIn(block, 'remark');
  return {
    symbols: symbolsIn(cell),
    titles: filled([cell.label, remark?.heading]),
    texts: filled([...textsIn(block), cell.note]),
  };
});

function filled(texts: readonly (string | undefined)[]): readonly string[] {
  return texts.flatMap((text) => (text === undefined || text === '' ? [] : [text]));
}

function symbolsIn(cell: Cell): readonly string[] {
  if ('symbol' in cell) return cell.symbol === '' ? [] : [cell.symbol];
  if (!('symbols' in cell)) return [];
  return Array.isArray(cell.symbols) ? cell.symbols.map(({ symbol }: { readonly symbol: string }) => symbol) : [...(cell.symbols as ReadonlyMap<string, string>).values()];
}

/** Other words of a cell that stand on the page. */
function textsIn(block: Block): readonly string[] {
  const [choice, check, list, remark, table] = [cellIn(block, 'choice'), cellIn(block, 'check'), cellIn(block, 'checklist'), cellIn(block, 'remark'), cellIn(block, 'table')];
  return [
    ...(cellIn(block, 'question')?.options?.values() ?? []),
    ...(choice?.options ?? []).map(({ label }) => label),
    ...(check === undefined ? [] : [check.holds, check.otherwise]),
    ...(list?.items ?? []).map(({ text }) => text),
    ...wordsOfProse(remark?.text ?? ''),
    ...(table?.columns ?? []).map(({ label }) => label),
  ];
}
