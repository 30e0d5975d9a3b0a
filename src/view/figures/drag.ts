import { keptFrame, type Drawing, type Frame, type Handle } from '../../figures/drawings/index.ts';
import type { Desk } from '../desk.ts';
import { CHOSEN } from './choose.ts';
import { givensOf, shiftCommand, stepOfPlace } from './move.ts';
import { reachOf, within, type Reach } from './reach.ts';

interface Frames {
  /** Holds the scale of the drawing while a place is dragged. */
  keep(frame: Frame): void;
  release(): void;
}

/** What the pointer takes hold of. */
interface Gripped {
  readonly knob: HTMLElement;
  readonly handle: Handle;
  readonly drawing: Drawing;
}

export interface Drag {
  readonly pointerId: number;
}

/**
 * Follows the pointer from where it took hold of a place until it lets go. The values of the givens behind it are shifted from
 * what they were when the drag began, so that there and back is no change. One drag is one undo step; where the browser takes
 * the pointer away to scroll, there was no drag.
 */
export function createDrag(
  event: PointerEvent, { knob, handle, drawing }: Gripped, desk: Desk, blockId: string, frames: Frames,
): Drag | undefined {
  if (event.button !== 0 || (event.pointerType !== 'mouse' && !knob.classList.contains(CHOSEN))) return undefined;
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
  const reach = inDrawing(reachOf(handle, desk), handle, drawing, size * pxPerMetre);
  const to = (steps: number): void => {
    const by = steps * size;
    if (by === moved) return;
    const command = shiftCommand(givens, by);
    if (command === undefined) return;
    moved = by;
    frames.keep(keptFrame(drawing.frame, handle.name, by));
    desk.apply(command, blockId);
  };
  const move = (next: PointerEvent): void => {
    const way = upright === undefined ? next.clientX - startX : startY - next.clientY;
    if (next.pointerId === pointerId) to(within(reach, Math.round((way * scale) / pxPerMetre / size)));
  };
  const cancel = (): void => {
    to(0);
    end();
  };
  const cancelByKey = (key: KeyboardEvent): void => {
    if (key.key !== 'Escape') return;
    key.preventDefault();
    cancel();
  };
  const end = (): void => {
    knob.removeEventListener('pointermove', move);
    for (const name of ENDS) knob.removeEventListener(name, end);
    knob.removeEventListener('pointercancel', cancel);
    knob.removeEventListener('keydown', cancelByKey, true);
    knob.classList.remove('held');
    desk.settle();
    frames.release();
  };
  knob.addEventListener('pointermove', move);
  for (const name of ENDS) knob.addEventListener(name, end);
  knob.addEventListener('pointercancel', cancel);
  knob.addEventListener('keydown', cancelByKey, true);
  return { pointerId };
}

const ENDS = ['pointerup', 'lostpointercapture'] as const;

/** A place that is dragged stays in the drawing. @param stepPx of one step */
function inDrawing({ back, on }: Reach, { x, y, width, height, upright }: Handle, { viewBox }: Drawing, stepPx: number): Reach {
  const [before, behind] = upright === undefined
    ? [x + width / 2, viewBox.width - x - width / 2]
    : [viewBox.height - y - height / 2, y + height / 2];
  return { back: Math.max(back, Math.min(0, -Math.floor(before / stepPx))), on: Math.min(on, Math.max(0, Math.floor(behind / stepPx))) };
}
