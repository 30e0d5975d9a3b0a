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
        element.textContent = sentence;
      }, PAUSE);
    },
    dispose: () => clearTimeout(timer),
  };
}

/**
 * What moved, in one sentence; the last results of the sheet are named, since they are what one looks for.
 * @param names label of a symbol; undefined where its value is hidden
 */
export function movedSentence(moved: ReadonlyMap<string, Moved>, names: (symbol: string) => string | undefined): string {
  const told = [...moved].flatMap(([symbol, change]) => {
    const name = names(symbol);
    return name === undefined ? [] : [`${name} ${change.spoken}`];
  });
  if (told.length === 0) return '';
  const last = told.slice(-MOST_NAMED);
  const rest = told.length - last.length;
  return `${last.join('; ')}${rest === 0 ? '' : `; and ${rest} more moved`}.`;
}
