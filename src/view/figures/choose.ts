/** Stands at a handle that was tapped: only then a finger drags it, and does not scroll. */
export const CHOSEN = 'chosen';

/** Further than this, px, a finger has not tapped. */
const TAP = 12;

/**
 * A finger that only scrolls over a drawing changes nothing: it takes a tap to choose a handle, and then a drag. The tap is taken as
 * the finger lifts, since the click that follows may go to whatever the browser thinks was meant beside it.
 */
export function chooseByTap(knob: HTMLElement): void {
  let down: PointerEvent | undefined;
  const choose = (): void => {
    knob.focus({ preventScroll: true });
    knob.classList.add(CHOSEN);
  };
  knob.addEventListener('pointerdown', (event) => {
    down = event.pointerType === 'mouse' ? undefined : event;
  });
  knob.addEventListener('pointerup', (event) => {
    if (down?.pointerId === event.pointerId && Math.hypot(event.clientX - down.clientX, event.clientY - down.clientY) <= TAP) choose();
    down = undefined;
  });
  knob.addEventListener('pointercancel', () => {
    down = undefined;
  });
  knob.addEventListener('touchend', (event) => {
    if (event.cancelable) event.preventDefault();
  });
  // A screen reader's own gesture is a click alone.
  knob.addEventListener('click', (event) => {
    if (event.detail === 0) choose();
  });
  knob.addEventListener('blur', () => knob.classList.remove(CHOSEN));
}
