/** So far the click of a tap may lie from where the finger was lifted, px. */
const SAME_PLACE = 24;

interface Tap {
  readonly button: HTMLButtonElement;
  readonly x: number;
  readonly y: number;
}

/**
 * A tap counts for the button that was under the finger. A touch is made a click only after it has ended, by what lies there
 * then; where something above has grown meanwhile, that is another button or none.
 */
export function listenForTaps(root: HTMLElement): () => void {
  let down: HTMLButtonElement | undefined;
  let tap: Tap | undefined;
  const touch = (event: PointerEvent): void => {
    down = event.pointerType === 'touch' ? buttonOf(event) : undefined;
    tap = undefined;
  };
  const lift = (event: PointerEvent): void => {
    tap = down !== undefined && buttonOf(event) === down ? { button: down, x: event.clientX, y: event.clientY } : undefined;
    down = undefined;
  };
  const click = (event: MouseEvent): void => {
    const meant = tap;
    tap = undefined;
    if (meant === undefined || !event.isTrusted || event.detail === 0 || !meant.button.isConnected) return;
    if (Math.hypot(event.clientX - meant.x, event.clientY - meant.y) > SAME_PLACE || buttonOf(event) === meant.button) return;
    event.preventDefault();
    event.stopPropagation();
    meant.button.click();
  };
  root.addEventListener('pointerdown', touch, true);
  root.addEventListener('pointerup', lift, true);
  root.addEventListener('click', click, true);
  return () => {
    root.removeEventListener('pointerdown', touch, true);
    root.removeEventListener('pointerup', lift, true);
    root.removeEventListener('click', click, true);
  };
}

function buttonOf(event: Event): HTMLButtonElement | undefined {
  return event.target instanceof Element ? (event.target.closest('button') ?? undefined) : undefined;
}
