import type { PresentedSection } from '../../report/index.ts';
import type { Desk } from '../desk.ts';

/** A heading in the page; its block where that is not drawn yet. */
export function headingOf(blockId: string, index: number, desk: Pick<Desk, 'element'>): HTMLElement | undefined {
  const there = desk.element(blockId);
  return there?.querySelectorAll<HTMLElement>('h2, h3, h4')[index] ?? there;
}

/** So far down the window a heading counts as read. */
const READ = 0.3;

/** Which of the sections is in view, by index: the last one whose heading has come up; -1 above the first. */
export function sectionInView(sections: readonly PresentedSection[], desk: Pick<Desk, 'element' | 'folds'>): number {
  const line = READ * innerHeight;
  const seen = sections.filter(({ blockId }) => !desk.folds.isAway(blockId));
  let [above, below] = [-1, seen.length];
  while (below - above > 1) {
    const middle = Math.floor((above + below) / 2);
    const section = seen[middle];
    const top = section && headingOf(section.blockId, section.index, desk)?.getBoundingClientRect().top;
    if (top !== undefined && top <= line) above = middle;
    else below = middle;
  }
  const last = seen[above];
  return last === undefined ? -1 : sections.indexOf(last);
}

/** Frames after which a place that was gone to has its height, and all above it too. */
const FRAMES = 8;

/** Brings a place to the top of the window at once, and keeps it there while lines about it get their height. */
export function showAtTop(place: () => HTMLElement | undefined): void {
  const watch = new AbortController();
  const hands = { capture: true, passive: true, signal: watch.signal };
  for (const name of ['wheel', 'touchstart', 'keydown', 'pointerdown']) window.addEventListener(name, () => watch.abort(), hands);
  const show = (left: number): void => {
    if (watch.signal.aborted) return;
    place()?.scrollIntoView({ block: 'start', behavior: 'instant' });
    if (left > 0) requestAnimationFrame(() => show(left - 1));
    else watch.abort();
  };
  show(FRAMES);
}

/** In a list of contents that is longer than its place the section in view is seen, unless somebody is at the list. */
export function keepInView(element: HTMLElement): void {
  const list = element.querySelector<HTMLElement>('.contents > ol');
  if (list === null || list.matches(':hover, :focus-within')) return;
  const current = list.querySelector<HTMLElement>('[aria-current]');
  if (current === null) {
    list.scrollTop = 0;
    return;
  }
  const [seen, there] = [list.getBoundingClientRect(), current.getBoundingClientRect()];
  if (there.bottom > seen.bottom) list.scrollTop += there.bottom - seen.bottom + there.height;
  else if (there.top < seen.top) list.scrollTop += there.top - seen.top - there.height;
}
