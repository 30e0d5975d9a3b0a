import { noChange, type ElementPart } from 'lit-html';
import { Directive, directive, PartType, type PartInfo } from 'lit-html/directive.js';
import { equation } from '../report/index.ts';
import { fragmentOf } from './markup.ts';

/**
 * Equations are set after the results are in the page: those that can be seen in the next frame, the others when the
 * browser has nothing better to do. Until then a new equation's place holds the old one, or nothing.
 */
const waiting = new Map<Element, string>();
const nearby = new WeakSet<Element>();
let inFrame = 0;
let idle = 0;

/** One slice of work, ms: short enough to keep typing smooth. */
const SLICE = 8;

const watcher = new IntersectionObserver((entries) => {
  let came = false;
  for (const { target, isIntersecting } of entries) {
    if (isIntersecting) nearby.add(target);
    else nearby.delete(target);
    came ||= isIntersecting;
  }
  if (came && waiting.size > 0) requestFrame();
}, { rootMargin: '600px' });

/** Equations inside this cell are set first while it is in view or near it. */
export function watchCell(cell: Element): void {
  watcher.observe(cell);
}

export function unwatchCell(cell: Element): void {
  watcher.unobserve(cell);
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
    inFrame = 0;
    setSome((element) => isNearby(element), performance.now() + SLICE);
    if (waiting.size > 0) requestIdle();
  });
}

function requestIdle(): void {
  if (idle !== 0) return;
  const work = (): void => {
    idle = 0;
    setSome(() => true, performance.now() + SLICE);
    if (waiting.size > 0) requestIdle();
  };
  // Safari has no requestIdleCallback.
  idle = typeof requestIdleCallback === 'function' ? requestIdleCallback(work, { timeout: 400 }) : Number(setTimeout(work, 40));
}

function isNearby(element: Element): boolean {
  const cell = element.closest('[data-cell]');
  return cell !== null && nearby.has(cell);
}

function setSome(which: (element: Element) => boolean, until: number): void {
  for (const [element, tex] of waiting) {
    if (!which(element)) continue;
    waiting.delete(element);
    element.replaceChildren(fragmentOf(equation(tex)));
    if (performance.now() > until) return;
  }
}

/** Sets what waits, at most for so long; without a limit before printing and before the page is taken away. */
export function setWaitingEquations(milliseconds = Number.POSITIVE_INFINITY): void {
  setSome(() => true, performance.now() + milliseconds);
}
