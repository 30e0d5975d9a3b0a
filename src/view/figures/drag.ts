import { heldFrame, type Drawing, type Frame, type Handle } from '../../figures/drawings/index.ts';
import type { Desk } from '../desk.ts';
import { snap } from '../shift.ts';
import { givensOf, shiftCommand, stepOfPlace } from './move.ts';

interface Holding {
  /** Holds the scale of the drawing while a place is dragged. */
  hold(frame: Frame): void;
  release(): void;
}

export interface Drag {
  readonly pointerId: number;
}

/**
 * Follows the pointer from where it took hold of a place until it lets go. Every reading of the givens behind it is
 * shifted from what was typed when the drag began, so that there and back is no change. One drag is one undo step.
 */
export function createDrag(
  event: PointerEvent, knob: HTMLElement, handle: Handle, drawing: Drawing, desk: Desk, blockId: string, holding: Holding,
): Drag | undefined {
  if (event.button !== 0) return undefined;
  const givens = givensOf(handle, desk);
  if (givens.length === 0) return undefined;
  event.preventDefault();
  knob.focus({ preventScroll: true });
  knob.setPointerCapture(event.pointerId);
  knob.classList.add('held');
  desk.settle();
  const { size } = stepOfPlace(handle, desk);
  const { pointerId, clientX: startX, clientY: startY } = event;
  const { upright } = handle;
  const pxPerMetre = upright?.pxPerMetre ?? drawing.pxPerMetre;
  // The drawing may be shown smaller than it is laid out.
  const scale = drawing.viewBox.width / (knob.parentElement?.clientWidth ?? drawing.viewBox.width);
  let moved = 0;
  const to = (by: number): void => {
    if (by === moved) return;
    const command = shiftCommand(givens, by);
    if (command === undefined) return;
    moved = by;
    holding.hold(heldFrame(drawing.frame, handle.name, by));
    desk.apply(command, blockId);
  };
  const move = (next: PointerEvent): void => {
    const way = upright === undefined ? next.clientX - startX : startY - next.clientY;
    if (next.pointerId === pointerId) to(snap((way * scale) / pxPerMetre, size));
  };
  const cancelByKey = (key: KeyboardEvent): void => {
    if (key.key !== 'Escape') return;
    key.preventDefault();
    to(0);
    end();
  };
  const end = (): void => {
    knob.removeEventListener('pointermove', move);
    for (const name of ['pointerup', 'pointercancel', 'lostpointercapture'] as const) knob.removeEventListener(name, end);
    knob.removeEventListener('keydown', cancelByKey, true);
    knob.classList.remove('held');
    desk.settle();
    holding.release();
  };
  knob.addEventListener('pointermove', move);
  for (const name of ['pointerup', 'pointercancel', 'lostpointercapture'] as const) knob.addEventListener(name, end);
  knob.addEventListener('keydown', cancelByKey, true);
  return { pointerId };
}
