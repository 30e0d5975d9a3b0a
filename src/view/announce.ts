import { composed, isolatedQuotes } from '../core/problem/index.ts';
import type { Moved } from './moved.ts';

/** Long enough for a reader to finish typing before the page speaks. */
const PAUSE = 700;
const MOST_NAMED = 3;

interface Announcer {
  readonly element: HTMLElement;
  /** Says a sentence once the page has been still for a moment; a later one takes its place. */
  say(sentence: string): void;
  dispose(): void;
}

/** A polite live region: what moved with an edit, for those who do not see it. */
export function createAnnouncer(): Announcer {
  const element = document.createElement('p');
  element.className = 'visually-hidden';
  element.setAttribute('role', 'status');
  element.setAttribute('aria-live', 'polite');
  let timer: ReturnType<typeof setTimeout> | undefined;
  return {
    element,
    say: (sentence) => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        element.textContent = isolatedQuotes(sentence);
      }, PAUSE);
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
