import { actionOf } from '../keys.ts';
import { isTextField } from '../focus.ts';

interface SideEars {
  /** The window is scrolled, or has another size. */
  readonly scrolled: () => void;
  /** The focus has come into a cell. */
  readonly entered: (cellId: string) => void;
  /** Escape was pressed in what is unfolded. */
  readonly fold: () => void;
  /** The key that goes to the blank in which a symbol or word is looked for. */
  readonly find: () => void;
}

const ANYWHERE = new Set(['page'] as const);
/** A window so much lower than it was, while something is typed, has a keyboard over its foot. */
const UNDER_A_KEYBOARD = 0.75;

/** What it hears of the page around it. Gives the way to stop. */
export function listenBeside(element: HTMLElement, sheet: HTMLElement, { scrolled, entered, fold, find }: SideEars): () => void {
  const watch = new AbortController();
  const { signal } = watch;
  let frame = 0;
  const inFrame = (): void => {
    frame ||= requestAnimationFrame(() => {
      frame = 0;
      scrolled();
    });
  };
  window.addEventListener('scroll', inFrame, { passive: true, signal });
  window.addEventListener('resize', inFrame, { signal });
  sheet.addEventListener('focusin', ({ target }) => {
    const cellId = target instanceof Element ? target.closest<HTMLElement>('[data-cell]')?.dataset['cell'] : undefined;
    if (cellId !== undefined) entered(cellId);
  }, { signal });
  // Safari gives a button no focus when it is pressed: with the focus nowhere Escape is heard as from within.
  document.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || event.defaultPrevented || !element.classList.contains('unfolded') || document.documentElement.classList.contains('in-lecture')) return;
    if (event.target !== document.body && !(event.target instanceof Node && element.contains(event.target))) return;
    event.preventDefault();
    fold();
    element.querySelector<HTMLElement>('.unfold')?.focus();
  }, { signal });
  document.addEventListener('keydown', (event) => {
    if (event.defaultPrevented || actionOf(event, ANYWHERE) !== 'find' || document.documentElement.classList.contains('in-lecture')) return;
    event.preventDefault();
    find();
  }, { signal });
  giveWayToKeyboard(element, signal);
  return () => {
    watch.abort();
    cancelAnimationFrame(frame);
  };
}

/** On a small window a keyboard leaves no room for another line. */
function giveWayToKeyboard(element: HTMLElement, signal: AbortSignal): void {
  const height = (): number => (visualViewport === null ? innerHeight : visualViewport.height * visualViewport.scale);
  let [width, tallest] = [innerWidth, height()];
  const look = (): void => {
    tallest = width === innerWidth ? Math.max(tallest, height()) : height();
    width = innerWidth;
    element.classList.toggle('under-keyboard', isTextField(document.activeElement) && !element.contains(document.activeElement) && height() < UNDER_A_KEYBOARD * tallest);
  };
  (visualViewport ?? window).addEventListener('resize', look, { signal });
  document.addEventListener('focusin', look, { signal });
  document.addEventListener('focusout', () => setTimeout(look), { signal });
}
