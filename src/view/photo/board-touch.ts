import type { WindowPlace } from './board-view.ts';

/** What fingers on a picture do, once it is known. */
export interface TouchedBoard {
  /** Whether something is marked by taps now. */
  isMarking(): boolean;
  /** Whether the finger came down on a point that it may drag at once. */
  isHeldAt(at: WindowPlace): boolean;
  /** The finger holds the place, and what it does from now on moves a point. */
  press(pointerId: number, at: WindowPlace): void;
  isDragging(): boolean;
  tap(at: WindowPlace): void;
  /** A point that was being dragged stays where it was. */
  letGo(): void;
  enlarge(times: number, at: WindowPlace): void;
}

/** A finger that is held still for so long means the place under it and no scrolling, ms. */
const HOLD = 350;
/** A finger that has moved so far does not tap, px. */
const STRAYED = 10;

/**
 * Tells what a finger means before anything is marked: a tap marks; a finger that goes off at once scrolls page or picture, which the browser does; one that
 * is held still, or came down on the point taken hold of, drags; two enlarge and move the picture.
 */
export function listenToFingers(element: HTMLElement, board: TouchedBoard): void {
  let waiting: { readonly pointerId: number; readonly at: WindowPlace; readonly timer: ReturnType<typeof setTimeout> } | undefined;
  const forget = (): void => {
    clearTimeout(waiting?.timer);
    waiting = undefined;
  };
  element.addEventListener('pointerdown', ({ pointerType, isPrimary, pointerId, clientX, clientY }) => {
    if (pointerType !== 'touch' || !isPrimary || !board.isMarking()) return;
    forget();
    const at = { clientX, clientY };
    if (board.isHeldAt(at)) return board.press(pointerId, at);
    const timer = setTimeout(() => {
      forget();
      board.press(pointerId, at);
    }, HOLD);
    waiting = { pointerId, at, timer };
  });
  element.addEventListener('pointermove', ({ pointerId, clientX, clientY }) => {
    if (waiting?.pointerId === pointerId && Math.hypot(clientX - waiting.at.clientX, clientY - waiting.at.clientY) > STRAYED) forget();
  });
  element.addEventListener('pointerup', ({ pointerId }) => {
    if (waiting?.pointerId !== pointerId) return;
    const { at } = waiting;
    forget();
    board.tap(at);
  });
  element.addEventListener('pointercancel', forget);
  // The menu of a picture that is held comes in between.
  element.addEventListener('contextmenu', (event) => {
    if (waiting !== undefined || board.isDragging()) event.preventDefault();
  });
  listenToPinch(element, board, forget);
}

function listenToPinch(element: HTMLElement, board: TouchedBoard, forget: () => void): void {
  let pinch: Pinch | undefined;
  const begin = ({ targetTouches }: TouchEvent): void => {
    pinch = pinchOf(targetTouches);
    if (pinch === undefined) return;
    forget();
    board.letGo();
  };
  const move = (event: TouchEvent): void => {
    // What is dragged, or between two fingers, scrolls nothing.
    if ((pinch !== undefined || board.isDragging()) && event.cancelable) event.preventDefault();
    const next = pinchOf(event.targetTouches);
    if (pinch === undefined || next === undefined) return;
    element.scrollLeft -= next.middle.clientX - pinch.middle.clientX;
    element.scrollTop -= next.middle.clientY - pinch.middle.clientY;
    board.enlarge(next.apart / pinch.apart, next.middle);
    pinch = next;
  };
  element.addEventListener('touchstart', begin, { passive: true });
  element.addEventListener('touchmove', move, { passive: false });
  element.addEventListener('touchend', begin);
  element.addEventListener('touchcancel', begin);
}

interface Pinch {
  readonly apart: number;
  readonly middle: WindowPlace;
}

function pinchOf(touches: TouchList): Pinch | undefined {
  const [one, other] = [touches[0], touches[1]];
  if (one === undefined || other === undefined) return undefined;
  return {
    apart: Math.max(1, Math.hypot(one.clientX - other.clientX, one.clientY - other.clientY)),
    middle: { clientX: (one.clientX + other.clientX) / 2, clientY: (one.clientY + other.clientY) / 2 },
  };
}
