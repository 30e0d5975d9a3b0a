import { plainSymbols } from '../core/formula/index.ts';
import { composed, isolated, isolatedQuotes } from '../core/problem/index.ts';
import type { SheetStates } from '../graph/index.ts';
import { definingCell, isSymbolHidden, type PresentContext } from '../report/index.ts';
import type { Moved } from './moved.ts';

/** Long enough for a reader to finish typing before the page speaks. */
const PAUSE = 700;
const MOST_NAMED = 3;

export interface Announcer {
  /** Says a sentence once the page has been still for a moment; a later one takes its place. */
  say(sentence: string): void;
  /** Says what moved, after what was said of the edit itself; what moved later takes its place. */
  sayMoved(sentence: string): void;
  dispose(): void;
}

/** A polite live region, for those who do not see what an edit did. */
export function liveRegion(): HTMLElement {
  const element = document.createElement('p');
  element.className = 'visually-hidden';
  element.setAttribute('role', 'status');
  element.setAttribute('aria-live', 'polite');
  return element;
}

export function createAnnouncer(region: { textContent: string | null }): Announcer {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let told = '';
  let moved = '';
  const speak = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      region.textContent = isolatedQuotes(plainSymbols([told, moved].filter((sentence) => sentence !== '').join(' ')));
      told = '';
      moved = '';
    }, PAUSE);
  };
  return {
    say: (sentence) => {
      told = sentence;
      moved = '';
      speak();
    },
    sayMoved: (sentence) => {
      moved = sentence;
      speak();
    },
    dispose: () => clearTimeout(timer),
  };
}

/** What the sentence needs to know of a symbol that moved. */
interface Told {
  readonly name: string;
  /** Nothing that moved reads it: one of the ends that the sheet was made for. */
  readonly isFinal: boolean;
}

/**
 * What moved, in one sentence. Named first are the results at the end of the derivation, those that moved most before
 * the others; then, where there is room, what moved most on the way there.
 * @param tell undefined for a symbol whose value is hidden
 */
export function movedSentence(moved: ReadonlyMap<string, Moved>, tell: (symbol: string) => Told | undefined): string {
  const told = [...moved].flatMap(([symbol, change]) => {
    const known = tell(symbol);
    return known === undefined ? [] : [{ ...known, ...change }];
  });
  if (told.length === 0) return '';
  const ranked = told.toSorted((a, b) => Number(b.isFinal) - Number(a.isFinal) || b.size - a.size);
  const named = ranked.slice(0, MOST_NAMED).map(({ name, spoken }) => composed`${name} ${spoken}`);
  const rest = told.length - named.length;
  return `${named.join('; ')}${rest === 0 ? '' : `; and ${rest} more moved`}.`;
}

/** What moved with an edit, as the sheet names it. @param states the results that it left */
export function movedWords(moved: ReadonlyMap<string, Moved>, states: SheetStates, context: PresentContext): string {
  const read = new Set([...moved.keys()].flatMap((symbol) => states.cell(states.definedBy(symbol) ?? '')?.reads ?? []));
  return movedSentence(moved, (symbol) => {
    if (isSymbolHidden(symbol, context)) return undefined;
    return { name: isolated(definingCell(symbol, context)?.cell.label ?? symbol), isFinal: !read.has(symbol) };
  });
}
