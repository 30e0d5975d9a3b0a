import { isVisible } from '../visible.ts';

/* What is taller or wider than the wall goes on screen by screen. */

/** Of a screen, so that a line stays to go on from. */
const SCREEN = 0.85;

interface Turned {
  /** What scrolls. */
  readonly scrolls: HTMLElement;
  /** Where what is told ends in it, px. */
  readonly bottom: number;
}

/** How far down in the sheet there is something to be seen, px. What stands beside may reach further on a phone; it keeps nobody from going on. */
export function toldBottom(sheet: HTMLElement, told: readonly HTMLElement[]): number {
  if (sheet.scrollHeight <= sheet.clientHeight + 1) return sheet.clientHeight;
  const from = sheet.getBoundingClientRect().top - sheet.scrollTop;
  const bottoms = told.flatMap((cell) => [...cell.querySelectorAll('.line > *, .line .equation > *, .margin')].map((part) =>
    (isVisible(part, { andSeen: true }) ? part.getBoundingClientRect().bottom - from : 0)));
  const whole = told.filter((cell) => cell.querySelector(':scope > .line') === null).map((cell) => cell.offsetTop + cell.offsetHeight);
  return Math.min(sheet.scrollHeight, Math.max(0, ...bottoms, ...whole));
}

/** A screen on, downwards and then to the side, or back; whether there was more to see. */
export function turned({ scrolls, bottom }: Turned, way: 1 | -1): boolean {
  const most = bottom - scrolls.clientHeight;
  const to = Math.max(0, Math.min(most, scrolls.scrollTop + way * SCREEN * scrolls.clientHeight));
  if (most > 1 && Math.abs(to - scrolls.scrollTop) > 1) {
    scrolls.scrollTop = to;
    return true;
  }
  return [...scrolls.querySelectorAll<HTMLElement>('[data-lecture="stage"] :is(.ruled, .symbols, .numbers)')].some((line) => turnedAside(line, scrolls, way));
}

/** A table, or a line that can break nowhere. */
function turnedAside(line: HTMLElement, scrolls: HTMLElement, way: 1 | -1): boolean {
  if (!isVisible(line, { andSeen: true })) return false;
  const before = line.scrollLeft;
  line.scrollLeft += way * SCREEN * line.clientWidth;
  if (Math.abs(line.scrollLeft - before) <= 1) return false;
  scrolls.scrollTop = way === 1 ? 0 : scrolls.scrollHeight;
  return true;
}
