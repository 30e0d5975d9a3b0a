import { noChange, type ElementPart } from 'lit-html';
import { Directive, directive, PartType, type PartInfo } from 'lit-html/directive.js';
import { equation, equationSource, mayBeTooWide } from '../report/index.ts';
import { fragmentOf } from './markup.ts';
import { whenStill } from './still.ts';

/**
 * Equations are set after the results are in the page: those that can be seen in the next frame, the others when the
 * browser has nothing better to do. Until then a new equation's place holds the old one, or nothing.
 */
const waiting = new Map<Element, string>();
const nearby = new WeakSet<Element>();
/** Cells whose lines may have become too wide, or fit again. */
const toMeasure = new Set<Element>();
let inFrame = 0;
let idle = 0;

/** One slice of work, ms: short enough to keep typing smooth. */
const SLICE = 8;

const watched = new Set<Element>();
let watcher: IntersectionObserver | undefined;

function beginWatching(): IntersectionObserver {
  // In another width other lines are too wide; cells out of view are measured when they come near.
  window.addEventListener('resize', () => {
    for (const cell of watched) if (nearby.has(cell)) toMeasure.add(cell);
    requestIdle();
  });
  return new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) {
      if (isIntersecting) nearby.add(target);
      else nearby.delete(target);
      if (isIntersecting) toMeasure.add(target);
    }
    if (toMeasure.size > 0) requestFrame();
  }, { rootMargin: '600px' });
}

/** Equations inside this cell are set first while it is in view or near it. */
export function watchCell(cell: Element): void {
  watched.add(cell);
  watcher ??= beginWatching();
  watcher.observe(cell);
}

export function unwatchCell(cell: Element): void {
  watched.delete(cell);
  watcher?.unobserve(cell);
}

class SetEquation extends Directive {
  private tex: string | undefined;

  constructor(info: PartInfo) {
    super(info);
    if (info.type !== PartType.ELEMENT) throw new Error('an equation is set into an element');
  }

  render(_tex: string): unknown {
    return noChange;
  }

  override update({ element }: ElementPart, [tex]: [string]): unknown {
    if (tex !== this.tex) {
      this.tex = tex;
      schedule(element, tex);
    }
    return noChange;
  }
}

/** `<span ${setEquation(tex)}></span>`: the element's content is the equation. It must hold nothing else. */
export const setEquation = directive(SetEquation);

function schedule(element: Element, tex: string): void {
  waiting.set(element, tex);
  requestFrame();
}

function requestFrame(): void {
  if (inFrame !== 0) return;
  inFrame = requestAnimationFrame(() => {
    whenStill(requestFrame, () => {
      inFrame = 0;
      setSome(isNearby, performance.now() + SLICE);
      if (waiting.size + toMeasure.size > 0) requestIdle();
    });
  });
}

function requestIdle(): void {
  if (idle !== 0) return;
  const work = (): void => whenStill(requestIdle, set);
  const set = (): void => {
    idle = 0;
    // Before anything changes the page again: its layout is clean, and measuring costs next to nothing.
    measureNearby();
    setSome(() => true, performance.now() + SLICE);
    if (waiting.size > 0) requestIdle();
    else readyMade.clear();
  };
  // Safari has no requestIdleCallback.
  idle = typeof requestIdleCallback === 'function' ? requestIdleCallback(work, { timeout: 400 }) : Number(setTimeout(work, 40));
}

/** Whether an element's cell is in view or near it. */
export function isNearby(element: Element): boolean {
  const cell = element.closest('[data-cell]');
  return cell !== null && nearby.has(cell);
}

/**
 * A line that is too wide for the page scrolls on its own; the keyboard reaches it as long as it does. Only cells in view
 * or near it are measured, since the others have no layout; the watcher brings each one here as it comes near.
 */
function measureNearby(): void {
  const lines = [...toMeasure].filter((cell) => nearby.has(cell)).flatMap((cell) => [...cell.querySelectorAll<HTMLElement>(WIDE_LINES)]);
  toMeasure.clear();
  for (const line of lines) line.classList.remove('too-wide');
  const scrolls = lines.map((line) => line.scrollWidth > line.clientWidth + 1);
  lines.forEach((line, i) => {
    line.classList.toggle('too-wide', scrolls[i]);
    if (scrolls[i] === (line.tabIndex === 0)) return;
    if (scrolls[i] === true) line.tabIndex = 0;
    else if (line !== document.activeElement) line.removeAttribute('tabindex');
  });
}

const WIDE_LINES = '.symbols, .numbers, .settings > li';

/** Equations that stood in the page before it came to life, by their TeX: each is used once in place of a new one. */
const readyMade = new Map<string, Element>();

/** Keeps the equations of the report that the sheet takes the place of. */
export function keepEquations(report: Element): void {
  for (const note of report.querySelectorAll('.katex annotation')) {
    const made = note.closest('.katex');
    if (made !== null) readyMade.set(note.textContent, made);
  }
}

function equationNodes(tex: string): Node {
  const written = equationSource(tex);
  const made = readyMade.get(written);
  if (made === undefined) return fragmentOf(equation(tex));
  readyMade.delete(written);
  return made;
}

function setSome(which: (element: Element) => boolean, until: number): void {
  for (const [element, tex] of waiting) {
    if (!which(element)) continue;
    waiting.delete(element);
    element.replaceChildren(equationNodes(tex));
    // Until it can be measured, a line that may scroll is within the keyboard's reach.
    if (mayBeTooWide(tex)) element.closest(WIDE_LINES)?.setAttribute('tabindex', '0');
    const cell = element.closest('[data-cell]');
    if (cell !== null) toMeasure.add(cell);
    if (performance.now() > until) return;
  }
}

/** Sets what waits inside an element, before it is measured. */
export function setEquationsIn(place: Element): void {
  setSome((element) => place.contains(element), Number.POSITIVE_INFINITY);
}

/** Sets what waits, at most for so long; without a limit before printing and before the page is taken away. */
export function setWaitingEquations(milliseconds = Number.POSITIVE_INFINITY): void {
  setSome(() => true, performance.now() + milliseconds);
}
