import { composed, isolatedQuotes } from '../../core/problem/index.ts';
import { cellAnchor, definingCell } from '../../report/index.ts';
import type { Drawing, DrawingOptions, Frame, Handle, TypedFigure } from '../../figures/drawings/index.ts';
import type { Desk } from '../desk.ts';
import { veilDrawing } from '../lecture/veil.ts';
import { lightNames } from '../lighting.ts';
import { drawingOf } from '../markup.ts';
import { chooseByTap } from './choose.ts';
import { createDrag, type Drag } from './drag.ts';
import { followWidth, pictureLetters } from './follow-width.ts';
import { openFigureBlank } from './figure-blank.ts';
import { pressAtHandle } from './handle-keys.ts';
import { stepOfPlace, trialsOf } from './move.ts';
import { canMove, reachOf } from './reach.ts';

type Draw = (options: DrawingOptions) => Drawing;

interface LiveFigure {
  /** Draws the figure of a cell as it is now. */
  show(blockId: string, draw: Draw, desk: Desk): void;
  /** Draws it again for the width and the letters it has now. */
  redraw(): void;
}

const shown = new WeakMap<HTMLElement, LiveFigure>();

/** The live figure of an element, made at the first call. */
export function figureAt(element: HTMLElement): LiveFigure {
  let figure = shown.get(element);
  if (figure === undefined) {
    figure = createFigure(element);
    shown.set(element, figure);
  }
  return figure;
}

/** Draws the figure of an element again at once; nothing where it has none. */
export function redrawFigure(element: HTMLElement): void {
  shown.get(element)?.redraw();
}

const START_WIDTH = 640;

/**
 * Drawn for the width it has, again whenever that changes; handles and blanks lie over the drawing as HTML. An edit
 * is drawn in the frame that shows its results, once, however many edits came before it.
 */
function createFigure(element: HTMLElement): LiveFigure {
  let current: { blockId: string; draw: Draw; desk: Desk } | undefined;
  let width = 0;
  let held: Frame | undefined;
  let drag: Drag | undefined;
  const handles = new Map<string, HTMLElement>();
  const paper = document.createElement('div');
  paper.className = 'paper';
  const overlay = document.createElement('div');
  overlay.className = 'overlay';
  element.replaceChildren(paper, overlay);

  const draw = (): void => {
    if (current === undefined) return;
    const { blockId, desk } = current;
    const drawing = current.draw({
      width: width === 0 ? START_WIDTH : width,
      idPrefix: cellAnchor(blockId).replace(/[^A-Za-z0-9]+/g, '-'),
      ...pictureLetters(element),
      ...(held === undefined ? {} : { frame: held }),
    });
    paper.replaceChildren(drawingOf(drawing.svg));
    lightNames(paper, desk);
    veilDrawing(paper, blockId, desk);
    const sentence = element.parentElement?.querySelector('figcaption > .sentence');
    if (sentence) sentence.textContent = isolatedQuotes(drawing.sentence);
    placeHandles(drawing, desk, blockId);
    placeBlanks(drawing.figures, desk, blockId);
  };

  let frame = 0;
  const drawInFrame = (): void => {
    frame = 0;
    draw();
  };

  const placeHandles = (drawing: Drawing, desk: Desk, blockId: string): void => {
    const kept = new Set<string>();
    for (const handle of drawing.handles) {
      if (!canMove(handle, desk)) continue;
      kept.add(handle.name);
      let knob = handles.get(handle.name);
      if (knob === undefined) {
        knob = createKnob(handle);
        handles.set(handle.name, knob);
        overlay.append(knob);
      }
      describeKnob(knob, handle, drawing, desk);
      knob.onkeydown = (event) => pressAtHandle(event, handle, desk, blockId);
      knob.onpointerdown = (event) => {
        drag = createDrag(event, { knob, handle, drawing }, desk, blockId, {
          hold: (frame) => {
            held = frame;
          },
          release: () => {
            held = undefined;
            drag = undefined;
            draw();
          },
        });
      };
    }
    for (const [name, knob] of handles) {
      if (kept.has(name) || drag !== undefined) continue;
      knob.remove();
      handles.delete(name);
    }
  };

  const placeBlanks = (figures: readonly TypedFigure[], desk: Desk, blockId: string): void => {
    if (overlay.querySelector('input') !== null) return;
    for (const old of overlay.querySelectorAll('.typed-over')) old.remove();
    for (const figure of figures) {
      const button = document.createElement('button');
      button.type = 'button';
      button.className = 'typed-over';
      place(button, figure);
      const label = labelOf(figure.given, desk);
      button.setAttribute('aria-label', composed`Type over ${label}`);
      button.title = composed`Type over ${label}`;
      button.onclick = () => openFigureBlank(button, figure, desk, blockId, draw);
      overlay.append(button);
    }
  };

  followWidth(element, (next) => {
    width = next;
    draw();
  });

  return {
    redraw: () => {
      width = element.clientWidth;
      draw();
    },
    show: (blockId, drawIt, desk) => {
      if (current?.draw === drawIt) return;
      const first = current === undefined;
      current = { blockId, draw: drawIt, desk };
      // At first the element is not in the page yet; its width comes by the observer.
      if (!first) frame ||= requestAnimationFrame(drawInFrame);
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
  place(knob, handle);
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

function place(element: HTMLElement, area: { x: number; y: number; width: number; height: number }): void {
  element.style.left = `${area.x}px`;
  element.style.top = `${area.y}px`;
  element.style.width = `${area.width}px`;
  element.style.height = `${area.height}px`;
}

function labelOf(symbol: string, desk: Desk): string {
  return definingCell(symbol, desk.context())?.cell.label ?? symbol;
}
