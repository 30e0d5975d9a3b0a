import { composed, isolatedQuotes } from '../../core/problem/index.ts';
import { cellAnchor, definingCell } from '../../report/index.ts';
import type { Drawing, DrawingOptions, TypedFigure } from '../../figures/drawings/index.ts';
import type { Desk } from '../desk.ts';
import { veilDrawing } from '../lecture/veil.ts';
import { lightNames } from '../lighting.ts';
import { drawingOf } from '../markup.ts';
import { followWidth, ON_PAPER, pictureLetters } from './follow-width.ts';
import { openFigureBlank } from './figure-blank.ts';
import { createKnobs, placeOver } from './knobs.ts';

type Draw = (options: DrawingOptions) => Drawing;

interface LiveFigure {
  /** Draws the figure of a cell as it is now. */
  show(blockId: string, draw: Draw, desk: Desk): void;
  /** Draws it again for the width and the letters it has now. */
  redraw(): void;
  /** Draws it at once for paper, and afterwards again for the page. */
  onPaper(isPrinting: boolean): void;
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
  let frame = 0;
  let isPrinting = false;
  const paper = document.createElement('div');
  paper.className = 'paper';
  const overlay = document.createElement('div');
  overlay.className = 'overlay';
  element.replaceChildren(paper, overlay);

  const draw = (): void => {
    if (current === undefined) return;
    const { blockId, desk } = current;
    const kept = knobs.frame();
    const drawing = current.draw({
      ...(isPrinting ? ON_PAPER : { width: width === 0 ? START_WIDTH : width, ...pictureLetters(element) }),
      idPrefix: cellAnchor(blockId).replace(/[^A-Za-z0-9]+/g, '-'),
      ...(kept === undefined ? {} : { frame: kept }),
    });
    paper.replaceChildren(drawingOf(drawing.svg));
    lightNames(paper, desk);
    const sentence = element.parentElement?.querySelector('figcaption > .sentence');
    if (sentence) sentence.textContent = isolatedQuotes(drawing.sentence);
    veilDrawing(element.parentElement ?? paper, blockId, desk);
    knobs.place(drawing, desk, blockId);
    placeBlanks(overlay, drawing.figures, desk, (button, figure) => openFigureBlank(button, figure, desk, blockId, draw));
  };
  const knobs = createKnobs(overlay, draw);
  const drawInFrame = (): void => {
    frame = 0;
    draw();
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
    onPaper: (now) => {
      isPrinting = now;
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

/** A press at every figure that can be typed over; none is made anew while one is being typed over. */
function placeBlanks(overlay: HTMLElement, figures: readonly TypedFigure[], desk: Desk, open: (button: HTMLButtonElement, figure: TypedFigure) => void): void {
  if (overlay.querySelector('input') !== null) return;
  for (const old of overlay.querySelectorAll('.typed-over')) old.remove();
  for (const figure of figures) {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'typed-over';
    placeOver(button, figure);
    const label = labelOf(figure.given, desk);
    button.setAttribute('aria-label', composed`Type over ${label}`);
    button.title = composed`Type over ${label}`;
    button.onclick = () => open(button, figure);
    overlay.append(button);
  }
}

function labelOf(symbol: string, desk: Desk): string {
  return definingCell(symbol, desk.context())?.cell.label ?? symbol;
}
