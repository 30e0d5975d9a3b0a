import { elasticityBetween, slopesAround } from '../../graph/index.ts';
import { cellIn, cellsOf } from '../../sheet/index.ts';
import { asked, sameWords } from './asked.ts';
import { chiefResults } from './chief-results.ts';
import { isSymbolHidden, withheldWords } from './hidden.ts';
import { definingCell } from './lookup.ts';
import { presentSymbol } from './result.ts';
import { isMovedBySlips } from './slips.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext, PresentedResult, WholeContext } from './types.ts';

/** One line of what follows: a symbol of the sheet with its value, and the cell that it comes from. */
export interface PresentedFollowing {
  readonly symbol: string;
  readonly symbolTex: string;
  readonly cellId: string;
  readonly label: string;
  /** Absent where it is withheld, or no cell defines it. */
  readonly result?: PresentedResult;
  /** What stands in the place of a hidden result. */
  readonly withheld?: string;
  readonly isSlipped: boolean;
}

/** More than these do not stay in view beside the sheet. */
const MOST = 4;

/** The results that the sheet is made for, as they stand beside it. */
export function presentChief(context: PresentContext): readonly PresentedFollowing[] {
  return asked(context, chiefIn, undefined, sameWords).map((symbol) => presentFollowing(symbol, context));
}

/** What the sheet is made for, and how long the test lasts where it works that out. */
const chiefIn = ({ document, states }: WholeContext): readonly string[] => {
  const lasting = cellsOf(document, 'step').filter(({ clock }) => clock !== undefined).map(({ symbol }) => symbol).slice(0, 1);
  return [...new Set([...chiefResults(document, states, MOST - lasting.length), ...lasting])];
};

function presentFollowing(symbol: string, context: PresentContext): PresentedFollowing {
  const cellId = context.states.definedBy(symbol) ?? '';
  const about = { symbol, symbolTex: symbolOf(symbol), cellId, label: definingCell(symbol, context)?.cell.label ?? symbol };
  if (isSymbolHidden(symbol, context)) return { ...about, withheld: withheldWords(cellId, context), isSlipped: false };
  const result = presentSymbol(symbol, context);
  return { ...about, ...(result === undefined ? {} : { result }), isSlipped: isMovedBySlips(symbol, context) };
}

/**
 * What lies between a cell and the chief results, in the order of the sheet, these among it: every result on a way from one to the other. Empty where no
 * chief result rests on it.
 */
export function presentChain(fromCellId: string, context: PresentContext): readonly PresentedFollowing[] {
  return asked(context, chainFrom, fromCellId, sameWords).map((symbol) => presentFollowing(symbol, context));
}

/** The cell of the given that moves the first chief result most, by the slopes here. */
export function tellingGiven({ document, states }: WholeContext): string | undefined {
  const [chief] = chiefResults(document, states, 1);
  if (chief === undefined || states.symbol(chief)?.status !== 'value') return undefined;
  const { upstream } = slopesAround(chief, states);
  const sizes = cellsOf(document, 'given').map(({ id, symbol }) => {
    const slope = upstream.get(symbol);
    return { id, size: slope === undefined ? 0 : Math.abs(elasticityBetween(slope, symbol, chief, states) ?? 0) };
  });
  return sizes.filter(({ size }) => size > 0).toSorted((a, b) => b.size - a.size)[0]?.id;
}

function chainFrom(whole: WholeContext, cellId: string): readonly string[] {
  const { document, states } = whole;
  const choice = cellIn(document.blocks.find(({ id }) => id === cellId), 'choice');
  const set = new Set((choice?.options ?? []).flatMap(({ sets }) => [...sets.keys()]));
  return symbolsBetween(chiefIn(whole), (symbol) => set.has(symbol) || states.definedBy(symbol) === cellId, { document, states });
}

/** Symbols that rest on one of the sources and that one of the ends rests on, the sources' own left out. */
function symbolsBetween(ends: readonly string[], isSource: (symbol: string) => boolean, { document, states }: Pick<WholeContext, 'document' | 'states'>): readonly string[] {
  const readers = new Map<string, string[]>();
  const behind = reached(ends, (symbol) => {
    const reads = isSource(symbol) ? [] : (states.cell(states.definedBy(symbol) ?? '')?.reads ?? []);
    for (const read of reads) readers.set(read, [...(readers.get(read) ?? []), symbol]);
    return reads;
  });
  const between = reached([...behind].filter(isSource), (symbol) => readers.get(symbol) ?? []);
  const order = new Map(document.blocks.map(({ id }, index) => [id, index]));
  const placeOf = (symbol: string): number => order.get(states.definedBy(symbol) ?? '') ?? -1;
  return [...between].filter((symbol) => !isSource(symbol)).toSorted((a, b) => placeOf(a) - placeOf(b));
}

/** All that is come to from somewhere, step by step. */
function reached(from: readonly string[], next: (symbol: string) => readonly string[]): ReadonlySet<string> {
  const there = new Set(from);
  // What is added while a set is gone through is come to as well.
  for (const symbol of there) for (const one of next(symbol)) there.add(one);
  return there;
}
