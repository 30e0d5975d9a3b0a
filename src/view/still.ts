/**
 * The page holds still under a press: what is to be drawn between the touch and its click waits for the click, so that
 * the click goes to what was under the finger. Leaving a blank draws, for one, and a blank is left by pressing on another.
 */

/** So far a press may wander, px; beyond it, it is a drag or a scroll. */
const WANDER = 10;
/** After the lifting of a finger a click comes at once or not at all, ms. */
const NO_CLICK = 400;
/** Longer than this, ms, nothing waits for a press: it may have ended where nobody told, in a list that the browser shows for one. */
const LONGEST = 1000;

interface Press {
  readonly x: number;
  readonly y: number;
  end: ReturnType<typeof setTimeout>;
}

let press: Press | undefined;
/** What waits, by what it draws: the last word of each. */
const waiting = new Map<unknown, () => void>();

/** Draws now, or at the end of the press that is under way; once for each `what`. */
export function whenStill(what: unknown, draw: () => void): void {
  if (press === undefined) draw();
  else waiting.set(what, draw);
}

/** Watches for presses, anywhere in the window: the head of the page is pressed too. */
export function holdStillUnderPresses(): () => void {
  const watch = new AbortController();
  const listen = <K extends keyof WindowEventMap>(name: K, hear: (event: WindowEventMap[K]) => void): void =>
    window.addEventListener(name, hear, { capture: true, passive: true, signal: watch.signal });
  listen('pointerdown', ({ clientX: x, clientY: y }) => {
    end();
    press = { x, y, end: setTimeout(end, LONGEST) };
  });
  listen('pointermove', ({ clientX, clientY }) => {
    if (press !== undefined && Math.hypot(clientX - press.x, clientY - press.y) > WANDER) end();
  });
  listen('pointerup', () => {
    if (press === undefined) return;
    clearTimeout(press.end);
    press.end = setTimeout(end, NO_CLICK);
  });
  listen('pointercancel', end);
  // A list that the browser shows takes the lifting of the finger for itself.
  listen('change', ({ target }) => {
    if (target instanceof HTMLSelectElement) end();
  });
  listen('click', ({ target }) => {
    // A box that is pressed has changed already, and to draw it now would set it back before it tells.
    if (target instanceof HTMLInputElement && (target.type === 'checkbox' || target.type === 'radio')) setTimeout(end);
    else end();
  });
  return () => {
    watch.abort();
    end();
  };
}

function end(): void {
  clearTimeout(press?.end);
  press = undefined;
  const drawn = [...waiting.values()];
  waiting.clear();
  for (const draw of drawn) draw();
}
