import type { Drawing, Frame, Handle } from '../../figures/drawings/index.ts';
import type { Desk } from '../desk.ts';
import { chooseByTap } from './choose.ts';
import { createDrag, type Drag } from './drag.ts';
import { pressAtHandle } from './handle-keys.ts';
import { stepOfPlace, trialsOf } from './move.ts';
import { canMove, reachOf } from './reach.ts';

/** The knobs that lie over a drawing, one for each handle that can be moved. */
interface Knobs {
  place(drawing: Drawing, desk: Desk, blockId: string): void;
  /** While one is dragged the drawing keeps this frame. */
  frame(): Frame | undefined;
}

/** @param draw called when a drag has ended, and the drawing may take another frame */
export function createKnobs(overlay: HTMLElement, draw: () => void): Knobs {
  let kept: Frame | undefined;
  let drag: Drag | undefined;
  const knobs = new Map<string, HTMLElement>();
  const keep = (frame: Frame): void => void (kept = frame);
  const release = (): void => {
    kept = undefined;
    drag = undefined;
    draw();
  };
  const knobOf = (handle: Handle): HTMLElement => {
    const old = knobs.get(handle.name);
    if (old !== undefined) return old;
    const knob = createKnob(handle);
    knobs.set(handle.name, knob);
    overlay.append(knob);
    return knob;
  };
  return {
    frame: () => kept,
    place: (drawing, desk, blockId) => {
      const kept = new Set<string>();
      for (const handle of drawing.handles) {
        if (!canMove(handle, desk)) continue;
        kept.add(handle.name);
        const knob = knobOf(handle);
        describeKnob(knob, handle, drawing, desk);
        knob.onkeydown = (event) => pressAtHandle(event, handle, desk, blockId);
        knob.onpointerdown = (event) => void (drag = createDrag(event, { knob, handle, drawing }, desk, blockId, { keep, release }));
      }
      for (const [name, knob] of knobs) {
        if (kept.has(name) || drag !== undefined) continue;
        knob.remove();
        knobs.delete(name);
      }
    },
  };
}

function createKnob(handle: Handle): HTMLElement {
  const knob = document.createElement('div');
  knob.className = `knob ${handle.name.replaceAll(' ', '-')}`;
  knob.tabIndex = 0;
  knob.setAttribute('role', 'slider');
  chooseByTap(knob);
  return knob;
}

/** Values in millimetres for those who ask the slider; the words are the drawing's own. */
function describeKnob(knob: HTMLElement, handle: Handle, drawing: Drawing, desk: Desk): void {
  placeOver(knob, handle);
  knob.classList.toggle('upright', handle.upright !== undefined);
  knob.setAttribute('aria-orientation', handle.upright === undefined ? 'horizontal' : 'vertical');
  const millimetres = (metres: number): string => String(Number((metres * 1000).toPrecision(7)));
  const [name = handle.name, ...rest] = handle.label.split(', ');
  knob.setAttribute('aria-label', name);
  const tried = trialsOf(handle, desk).length > 0 ? '; on trial, Escape puts back what was measured' : '';
  knob.setAttribute('aria-valuetext', `${rest.join(', ') || handle.label}${tried}`);
  knob.setAttribute('aria-valuenow', millimetres(handle.position));
  const step = stepOfPlace(handle, desk);
  const reach = reachOf(handle, desk);
  const end = (steps: number, shown: number): number => (Number.isFinite(steps) ? handle.position + steps * step.size : shown);
  knob.setAttribute('aria-valuemin', millimetres(end(reach.back, Math.min(drawing.frame.from, handle.position))));
  knob.setAttribute('aria-valuemax', millimetres(end(reach.on, Math.max(drawing.frame.to, handle.position))));
  knob.title = `${handle.label}. Drag it (with a finger tap it first), or use the arrow keys: ${step.words} at a time, with Shift ten times as much.`;
}

/** Lays an element over a place of the drawing, px. */
export function placeOver(element: HTMLElement, area: { x: number; y: number; width: number; height: number }): void {
  element.style.left = `${area.x}px`;
  element.style.top = `${area.y}px`;
  element.style.width = `${area.width}px`;
  element.style.height = `${area.height}px`;
}
