import { borderOf } from '../../core/mechanics/index.ts';
import { photoMarks, type PresentedPhoto } from '../../report/index.ts';
import { cellIn, readScaleMark, type MarkKey, type MarkPoint, type PhotoCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { drawingOf } from '../markup.ts';
import { partId } from '../parts.ts';
import { boardStep, EMPTY_BOARD, MANY, pointsSeen, type BoardEffect, type BoardEvent, type BoardSheet, type BoardState } from './board-step.ts';
import { listenToFingers, type TouchedBoard } from './board-touch.ts';
import { createBoardView, type BoardView, type PicturePlace, type WindowPlace } from './board-view.ts';
import { createLoupe } from './loupe.ts';
import { pointsOf, setPoints } from './mark-edit.ts';
import { MODES } from './photo-ui.ts';

interface Shown {
  readonly cell: PhotoCell;
  readonly photo: PresentedPhoto;
  readonly mode: MarkKey | undefined;
  readonly desk: Desk;
}

interface Board extends Pick<BoardView, 'enlarge' | 'whole'> {
  show(next: Shown): void;
}

/** What is in the element of a board. */
interface BoardParts {
  readonly element: HTMLElement;
  readonly image: HTMLImageElement;
  readonly paper: HTMLElement;
  readonly cross: HTMLElement;
}

const boards = new WeakMap<HTMLElement, Board>();

/** The board of an element, made at the first call. */
export function boardAt(element: HTMLElement): Board {
  const board = boards.get(element) ?? createBoard(element);
  boards.set(element, board);
  return board;
}

/** How near to a point a press takes hold of it, px: half a touch target. A tap is on the dot that is seen, since the next point of a small zone comes near the last one. */
const REACH = 22;
const TAP_REACH = 9;
/** How much a press of a key or a button enlarges. */
export const STEP_OF_ENLARGING = 1.5;

function createBoard(element: HTMLElement): Board {
  const view = createBoardView(element);
  const parts: BoardParts = { element, image: document.createElement('img'), paper: part('paper'), cross: part('cross') };
  const { image } = parts;
  const loupe = createLoupe();
  parts.cross.hidden = true;
  view.stage.replaceChildren(image, parts.paper, parts.cross);
  element.replaceChildren(view.stage, loupe.element);
  let shown: Shown | undefined;
  let state = EMPTY_BOARD;
  const draw = (): void => {
    if (shown === undefined) return;
    drawBoard(parts, shown, state);
    if (state.drag === undefined) loupe.hide();
    else loupe.show(image, state.at, element);
  };
  /** Whether a key was the board's. */
  const act = (event: BoardEvent): boolean => {
    if (shown === undefined) return false;
    const step = boardStep(state, event, sheetOf(shown));
    ({ state } = step);
    for (const effect of step.effects) carryOut(effect, shown);
    if (step.effects.some((effect) => 'points' in effect)) shown = latest(shown);
    draw();
    return step.isTaken === true;
  };
  const toDots = ({ clientX, clientY }: WindowPlace): MarkPoint => {
    const box = image.getBoundingClientRect();
    return { x: (clientX - box.left) * dotsPerPx(), y: (clientY - box.top) * dotsPerPx() };
  };
  const dotsPerPx = (): number => (shown?.photo.picture?.width ?? 1) / Math.max(1, image.clientWidth);
  const press = (pointerId: number, at: WindowPlace): void => {
    element.focus({ preventScroll: true });
    act({ on: 'press', pointerId, from: toDots(at), reach: REACH * dotsPerPx() });
    if (state.drag?.pointerId === pointerId) element.setPointerCapture(pointerId);
  };
  const [isMarking, isDragging] = [(): boolean => shown?.mode !== undefined, (): boolean => state.drag !== undefined];
  listenToPointer(element, { isMarking, isDragging, press, act, toDots });
  listenToFingers(element, {
    isMarking,
    isHeldAt: (at) => {
      const [place, { x, y }] = [toDots(at), state.at];
      return state.taken !== undefined && Math.hypot(place.x - x, place.y - y) <= REACH * dotsPerPx();
    },
    press,
    isDragging,
    tap: (at) => {
      element.focus({ preventScroll: true });
      act({ on: 'tap', at: toDots(at), reach: TAP_REACH * dotsPerPx() });
    },
    letGo: () => state.drag !== undefined && void act({ on: 'cancel', pointerId: state.drag.pointerId }),
    enlarge: view.enlarge,
  });
  listenToKeys(element, view, {
    isMarking, act,
    cross: () => ({ across: state.at.x / (shown?.photo.picture?.width ?? 1), down: state.at.y / (shown?.photo.picture?.height ?? 1) }),
  });
  element.addEventListener('focus', draw);
  element.addEventListener('blur', () => void act({ on: 'leave' }));
  return {
    enlarge: view.enlarge,
    whole: view.whole,
    show: (next) => {
      if (next.photo.picture?.address !== shown?.photo.picture?.address) view.whole();
      shown = next;
      if (next.photo.picture === undefined) return;
      describe(parts, next);
      act({ on: 'shown' });
    },
  };
}

interface PointedBoard extends Pick<TouchedBoard, 'isMarking' | 'isDragging' | 'press'> {
  act(event: BoardEvent): boolean;
  toDots(at: WindowPlace): MarkPoint;
}

/** Mouse and pen mean the place at which they are pressed; what a finger means, its own listener finds out. */
function listenToPointer(element: HTMLElement, { isMarking, isDragging, press, act, toDots }: PointedBoard): void {
  element.addEventListener('pointerdown', (event) => {
    if (!isMarking() || event.button !== 0 || !event.isPrimary) return;
    event.preventDefault();
    if (event.pointerType !== 'touch') press(event.pointerId, event);
  });
  element.addEventListener('pointermove', (event) => {
    if (isDragging()) act({ on: 'drag', pointerId: event.pointerId, to: toDots(event) });
  });
  element.addEventListener('pointerup', ({ pointerId }) => void act({ on: 'lift', pointerId }));
  element.addEventListener('pointercancel', ({ pointerId }) => void act({ on: 'cancel', pointerId }));
}

const ENLARGING: Readonly<Record<string, number>> = { '+': STEP_OF_ENLARGING, '=': STEP_OF_ENLARGING, '-': 1 / STEP_OF_ENLARGING };

interface KeyedBoard extends Pick<PointedBoard, 'isMarking' | 'act'> {
  /** Where the cross is, which stays in sight. */
  cross(): PicturePlace;
}

function listenToKeys(element: HTMLElement, view: BoardView, { isMarking, act, cross }: KeyedBoard): void {
  element.addEventListener('keydown', (event) => {
    const { key } = event;
    if (event.ctrlKey || event.metaKey || event.altKey || !isMarking()) return;
    const times = ENLARGING[key];
    if (times !== undefined) view.enlarge(times);
    else if (key === '0') view.whole();
    else if (!act({ on: 'key', key, isFar: event.shiftKey })) return;
    view.reveal(cross());
    event.preventDefault();
    event.stopPropagation();
  });
}

function sheetOf({ cell, photo, mode }: Shown): BoardSheet {
  return {
    picture: photo.picture?.address, mode, points: mode === undefined ? [] : pointsOf(cell, mode), width: photo.picture?.width ?? 0, height: photo.picture?.height ?? 0,
  };
}

/** With the cell as an edit has left it, before the page has followed: a key that is held down sets no point upon another. */
function latest(shown: Shown): Shown {
  const cell = cellIn(shown.desk.session.document().blocks.find(({ id }) => id === shown.cell.id), 'photo');
  return cell === undefined ? shown : { ...shown, cell };
}

function carryOut(effect: BoardEffect, { cell, mode, desk }: Shown): void {
  if (effect.do === 'announce') return desk.announce(effect.sentence);
  if (effect.do === 'settle') return desk.settle();
  if (mode === undefined) return;
  if (effect.do === 'put') desk.settle();
  desk.apply(setPoints(cell, mode, effect.points), cell.id);
  if (effect.do === 'move') return;
  desk.settle();
  desk.announce(effect.said);
}

function drawBoard({ element, paper, cross }: BoardParts, shown: Shown, state: BoardState): void {
  const { photo, cell, mode } = shown;
  if (photo.marks === undefined || photo.picture === undefined) return;
  const { points, taken } = pointsSeen(state, sheetOf(shown).points);
  const now = mode === undefined || state.drag === undefined ? {} : markOf(mode, points, cell);
  paper.replaceChildren(drawingOf(photoMarks({ ...photo.marks, ...now, idPrefix: partId(cell.id, 'marks').replace(/[^A-Za-z0-9-]+/g, '-') })));
  for (const [i, point] of points.entries()) {
    const dot = document.createElement('span');
    dot.className = `dot${i === taken ? ' held' : ''}${points.length > MANY ? ' small' : ''}`;
    place(dot, point, photo.picture);
    paper.append(dot);
  }
  place(cross, state.at, photo.picture);
  cross.hidden = mode === undefined || !element.matches(':focus-visible');
}

/** What the element is for those who read or hear it. */
function describe({ element, image }: BoardParts, { photo, mode, cell }: Shown): void {
  const { picture } = photo;
  if (picture === undefined) return;
  if (image.getAttribute('src') !== picture.address) {
    image.src = picture.address;
    image.width = picture.width;
    image.height = picture.height;
    element.style.setProperty('--across', String(picture.width));
    element.style.setProperty('--down', String(picture.height));
  }
  image.alt = photo.alternative;
  element.tabIndex = mode === undefined ? -1 : 0;
  element.classList.toggle('marking', mode !== undefined);
  if (mode === undefined) for (const name of ['role', 'aria-label', 'aria-describedby']) element.removeAttribute(name);
  else {
    element.setAttribute('role', 'application');
    element.setAttribute('aria-label', `Picture: ${MODES.find(({ key }) => key === mode)?.button ?? ''}`);
    element.setAttribute('aria-describedby', partId(cell.id, 'how'));
  }
}

function markOf(mode: MarkKey, points: readonly MarkPoint[], cell: PhotoCell): Partial<NonNullable<PresentedPhoto['marks']>> {
  if (mode === 'outline') return { section: borderOf({ points, shape: cell.outlineShape })?.corners ?? points };
  if (mode === 'final') return { final: borderOf({ points, shape: cell.finalShape })?.corners ?? points };
  if (mode === 'origins') return { origins: points };
  const read = readScaleMark(cell.scale ?? '');
  return { scale: { points, length: read.ok ? read.value.length : '' } };
}

function part(className: string): HTMLElement {
  const made = document.createElement('div');
  made.className = className;
  return made;
}

function place(element: HTMLElement, { x, y }: MarkPoint, { width, height }: { readonly width: number; readonly height: number }): void {
  element.style.left = `${(x / width) * 100}%`;
  element.style.top = `${(y / height) * 100}%`;
}
