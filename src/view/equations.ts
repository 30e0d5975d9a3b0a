import { noChange, type ElementPart } from 'lit-html';
import { Directive, directive, PartType, type PartInfo } from 'lit-html/directive.js';
import { breakable, equation, inLineFractions, mayBeTooWide, plainEquation, TEX_ATTRIBUTE, typesetter } from '../report/index.ts';
import { fragmentOf } from './markup.ts';
import { whenStill } from './still.ts';

/**
 * Equations are set after the results are in the page: those that can be seen in the next frame. The others stand as MathML alone, made
 * when the browser has nothing better to do, until they come near: to who listens or searches they say the same, at a quarter of the
 * work. Until then a new equation's place holds the old one, or nothing. What sets them is a part of its own, brought once the sheet has been
 * painted: until it is there those that the page was delivered with stand as they were, and all wait.
 */
const waiting = new Map<Element, string>();
/** What stands as MathML alone, by its place: never asked for what is gone, so that it goes as well. */
const plain = new WeakMap<Element, string>();
const nearby = new WeakSet<Element>();
/** What stands in a place, and where its fractions are in line for want of room. */
const texAt = new WeakMap<Element, string>();
const inLine = new Set<Element>();
/** Where they are as large as what stands around them. */
const large = new Set<Element>();
/** Cells whose lines may have become too wide, or fit again. */
const toMeasure = new Set<Element>();
let inFrame = 0;
let idle = 0;

/** One slice of work, ms: short enough to keep typing smooth, wherever the browser does not say that it has longer. */
const SLICE = 8;

const watched = new Set<Element>();
let watcher: IntersectionObserver | undefined;

function beginWatching(): IntersectionObserver {
  // In another width other lines are too wide; cells out of view are measured when they come near.
  window.addEventListener('resize', () => {
    for (const cell of watched) if (nearby.has(cell)) toMeasure.add(cell);
    for (const place of inLine) setOne(place, texAt.get(place) ?? '');
    requestIdle();
  });
  return new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) {
      if (!isIntersecting) {
        nearby.delete(target);
        continue;
      }
      nearby.add(target);
      toMeasure.add(target);
      complete(target);
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

/** What stands as MathML alone waits to be set as it is seen. */
function complete(part: ParentNode): void {
  for (const { parentElement: place } of part.querySelectorAll('math')) {
    const tex = place === null ? undefined : plain.get(place);
    if (place !== null && tex !== undefined && !waiting.has(place)) waiting.set(place, tex);
  }
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
      if (!typesetter.isThere()) return standIn(performance.now() + SLICE);
      setSome(isNearby, performance.now() + SLICE);
      if (waiting.size + toMeasure.size > 0) requestIdle();
    });
  });
}

/** Nothing can be set yet: what the page was delivered with takes its place, and what sets the rest is brought after the next painting. */
function standIn(until: number): void {
  for (const [place, tex] of waiting) {
    const made = plain.get(place) === tex ? undefined : readyMade.get(tex);
    if (made === undefined) continue;
    place.replaceChildren(made.cloneNode(true));
    plain.set(place, tex);
    if (performance.now() > until) break;
  }
  bringSetter();
}

let isComing = false;

function bringSetter(): void {
  if (isComing) return;
  isComing = true;
  setTimeout(() => void typesetter.bring().then(requestFrame, (error: unknown) => {
    showAsWritten();
    tellFailure(error, requestFrame);
  }).finally(() => (isComing = false)));
}

/** What can't be set is shown as TeX, in which it can be read if need be. */
function showAsWritten(): void {
  for (const [place, tex] of waiting) if (plain.get(place) !== tex) place.textContent = tex;
}

let tellFailure: (error: unknown, again: () => void) => void = () => undefined;

/** @param tell says that what sets equations did not come, and may offer to try it again */
export function whenEquationsFail(tell: typeof tellFailure): void {
  tellFailure = tell;
}

function requestIdle(): void {
  if (idle !== 0) return;
  const work = (deadline?: IdleDeadline): void => whenStill(requestIdle, () => set(deadline?.timeRemaining() ?? 0));
  const set = (milliseconds: number): void => {
    idle = 0;
    if (!typesetter.isThere()) return requestFrame();
    // Before anything changes the page again: its layout is clean, and measuring costs next to nothing.
    forgetGone();
    measureNearby();
    setRest(performance.now() + Math.max(SLICE, milliseconds));
    if (waiting.size > 0) requestIdle();
    else readyMade.clear();
  };
  // Safari has no requestIdleCallback.
  idle = typeof requestIdleCallback === 'function' ? requestIdleCallback(work, { timeout: 400 }) : Number(setTimeout(() => work(), 40));
}

/** Places that are no longer in the page would be held for good: a line that is drawn in another form gets new ones. */
function forgetGone(): void {
  for (const places of [inLine, large]) for (const place of places) if (!place.isConnected) places.delete(place);
}

/** Whether an element's cell is in view or near it. */
function isNearby(element: Element): boolean {
  const cell = element.closest('[data-cell]');
  return cell !== null && isCellNearby(cell);
}

/** The same of a cell's own element. */
export function isCellNearby(cell: Element): boolean {
  return nearby.has(cell);
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
  if (lines.filter((line, i) => scrolls[i] === true && putInLine(line)).length > 0) return requestIdle();
  lines.forEach((line, i) => {
    line.classList.toggle('too-wide', scrolls[i]);
    if (scrolls[i] === (line.tabIndex === 0)) return;
    if (scrolls[i] === true) line.tabIndex = 0;
    else if (line !== document.activeElement) line.removeAttribute('tabindex');
  });
}

/** A piece that is too wide gets its fractions in line, so that it breaks. Whether anything changed by that. */
export function putInLine(line: HTMLElement): boolean {
  const place = line.querySelector(':scope > span');
  const tex = place === null ? undefined : texAt.get(place);
  if (place === null || tex === undefined || inLine.has(place) || !tex.includes('\\frac')) return false;
  inLine.add(place);
  place.replaceChildren(fragmentOf(equation(breakable(inLineFractions(tex)))));
  const cell = place.closest('[data-cell]');
  if (cell !== null) toMeasure.add(cell);
  return true;
}

const WIDE_LINES = '.symbols, .numbers, .settings > li';

/** Equations as MathML alone that stood in the page before it came to life, by their TeX. */
const readyMade = new Map<string, Element>();

/** Keeps those of the page that the sheet takes the place of: they are copied where they stand again, out of view. */
export function keepEquations(page: Element): void {
  for (const made of page.querySelectorAll(`math[${TEX_ATTRIBUTE}]`)) {
    readyMade.set(made.getAttribute(TEX_ATTRIBUTE) ?? '', made);
    made.removeAttribute(TEX_ATTRIBUTE);
  }
}

function setSome(which: (element: Element) => boolean, until: number): void {
  if (!typesetter.isThere()) return standIn(until);
  for (const [element, tex] of waiting) {
    if (!which(element)) continue;
    setOne(element, tex);
    if (performance.now() > until) return;
  }
}

function setOne(place: Element, tex: string): void {
  waiting.delete(place);
  plain.delete(place);
  inLine.delete(place);
  large.delete(place);
  texAt.set(place, tex);
  place.replaceChildren(fragmentOf(equation(tex)));
  // Until it can be measured, a line that may scroll is within the keyboard's reach.
  if (mayBeTooWide(tex)) place.closest(WIDE_LINES)?.setAttribute('tabindex', '0');
  const cell = place.closest('[data-cell]');
  if (cell !== null) toMeasure.add(cell);
}

/** In a cell out of view: as MathML alone, until it comes near. */
function setPlain(place: Element, tex: string): void {
  waiting.delete(place);
  if (plain.get(place) === tex) return;
  place.replaceChildren(readyMade.get(tex)?.cloneNode(true) ?? fragmentOf(plainEquation(tex)));
  plain.set(place, tex);
}

/** What still waits: near ones as they are seen, those of cells out of view plain. */
function setRest(until: number): void {
  for (const [element, tex] of waiting) {
    const cell = element.closest('[data-cell]');
    if (cell === null || nearby.has(cell)) setOne(element, tex);
    else setPlain(element, tex);
    if (performance.now() > until) return;
  }
}

/** Fractions inside an element as large as the letters around them, which the last row can read, or again as lines of text have them. */
export function enlargeFractions(part: ParentNode, isLarge: boolean): void {
  for (const { parentElement: place } of part.querySelectorAll('.katex')) {
    const tex = place === null ? undefined : texAt.get(place);
    if (place === null || tex === undefined || !tex.includes('\\frac')) continue;
    if (!isLarge && large.has(place)) setOne(place, tex);
    if (!isLarge || large.has(place) || inLine.has(place)) continue;
    large.add(place);
    place.replaceChildren(fragmentOf(equation(tex.replaceAll('\\frac', '\\dfrac'))));
  }
}

/** Sets what waits inside an element, before it is measured. */
export function setEquationsIn(place: Element): void {
  complete(place);
  setSome((element) => place.contains(element), Number.POSITIVE_INFINITY);
}

/** Sets what waits, at most for so long. */
export function setWaitingEquations(milliseconds: number): void {
  setSome(() => true, performance.now() + milliseconds);
}

/** Sets all of them, before printing. What can not be set yet is printed as it is. */
export function setAllEquations(): void {
  complete(document);
  setWaitingEquations(Number.POSITIVE_INFINITY);
  showAsWritten();
}
