import { photoMarks, type PresentedPhoto } from '../../report/index.ts';
import { readScaleMark, type MarkKey, type MarkPoint, type PhotoCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { drawingOf } from '../markup.ts';
import { partId } from '../parts.ts';
import { createLoupe } from './loupe.ts';
import { pointsOf, setPoints } from './mark-edit.ts';
import { MODES } from './photo-ui.ts';

interface Shown {
  readonly cell: PhotoCell;
  readonly photo: PresentedPhoto;
  readonly mode: MarkKey | undefined;
  readonly desk: Desk;
}

interface Board {
  show(next: Shown): void;
}

const boards = new WeakMap<HTMLElement, Board>();

/** The board of an element, made at the first call. */
export function boardAt(element: HTMLElement): Board {
  const board = boards.get(element) ?? createBoard(element);
  boards.set(element, board);
  return board;
}

/** How near to a point a press takes hold of it: half a touch target. */
const REACH = 22;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/**
 * A picture to mark in. With the pointer: a press sets a point, or takes hold of one that is near. With keys: arrows move
 * a cross, Enter sets a point there, Page Up and Page Down take hold of a point, which the arrows then move; Delete takes
 * it out, or else the last one. One point, or one drag, is one step to undo.
 */
function createBoard(element: HTMLElement): Board {
  const image = document.createElement('img');
  const paper = document.createElement('div');
  const cross = document.createElement('div');
  const loupe = createLoupe();
  paper.className = 'paper';
  cross.className = 'cross';
  cross.hidden = true;
  element.replaceChildren(image, paper, cross, loupe.element);
  let shown: Shown | undefined;
  let at: MarkPoint = { x: 0, y: 0 };
  let held: number | undefined;
  /** The marks as they are while a point is dragged. */
  let draft: readonly MarkPoint[] | undefined;

  const points = (): readonly MarkPoint[] => (shown?.mode === undefined ? [] : (draft ?? pointsOf(shown.cell, shown.mode)));
  const inside = ({ x, y }: MarkPoint): MarkPoint => ({
    x: Math.round(Math.min(shown?.photo.picture?.width ?? 0, Math.max(0, x)) * 10) / 10,
    y: Math.round(Math.min(shown?.photo.picture?.height ?? 0, Math.max(0, y)) * 10) / 10,
  });
  const dotsPerPx = (): number => (shown?.photo.picture?.width ?? 1) / Math.max(1, image.clientWidth);

  const draw = (): void => {
    if (shown === undefined) return;
    const { photo, cell, mode } = shown;
    if (photo.marks === undefined || photo.picture === undefined) return;
    const now = mode === undefined || draft === undefined ? {} : markOf(mode, draft, cell);
    paper.replaceChildren(drawingOf(photoMarks({ ...photo.marks, ...now, idPrefix: partId(cell.id, 'marks').replace(/[^A-Za-z0-9-]+/g, '-') })));
    const many = points();
    for (const [i, point] of many.entries()) {
      const dot = document.createElement('span');
      dot.className = `dot${i === held ? ' held' : ''}${many.length > 24 ? ' small' : ''}`;
      place(dot, point, photo.picture);
      paper.append(dot);
    }
    place(cross, at, photo.picture);
    cross.hidden = mode === undefined || !element.matches(':focus-visible');
  };
  const put = (next: readonly MarkPoint[], said: string): void => {
    if (shown?.mode === undefined) return;
    const { desk, cell, mode } = shown;
    desk.settle();
    desk.apply(setPoints(cell, mode, next), cell.id);
    desk.settle();
    desk.announce(said);
  };
  const thing = (): string => MODES.find(({ key }) => key === shown?.mode)?.thing ?? '';
  const setPoint = (point: MarkPoint): void => {
    const before = points();
    if (shown?.mode === 'scale' && before.length >= 2) {
      shown.desk.announce('Both ends of the scale are set. Move one, or take one out first.');
      return;
    }
    put([...before, point], `${thing()} ${before.length + 1} set, ${where(point)}.`);
  };

  element.addEventListener('pointerdown', (event) => {
    if (shown?.mode === undefined || event.button !== 0 || !event.isPrimary) return;
    event.preventDefault();
    element.focus({ preventScroll: true });
    const toDots = (from: PointerEvent): MarkPoint => {
      const box = image.getBoundingClientRect();
      return inside({ x: (from.clientX - box.left) * dotsPerPx(), y: (from.clientY - box.top) * dotsPerPx() });
    };
    const before = points();
    const from = toDots(event);
    const reach = REACH * dotsPerPx() * (before.length > 24 ? 0.3 : 1);
    const near = nearest(before, from);
    const index = near !== undefined && near.distance <= reach ? near.index : before.length;
    if (index === before.length && shown.mode === 'scale' && index >= 2) {
      setPoint(from);
      return;
    }
    const grip = before[index] ?? from;
    const { pointerId } = event;
    element.setPointerCapture(pointerId);
    const follow = (to: MarkPoint): void => {
      at = inside({ x: grip.x + to.x - from.x, y: grip.y + to.y - from.y });
      draft = index === before.length ? [...before, at] : before.with(index, at);
      held = index;
      draw();
      loupe.show(image, at);
    };
    follow(from);
    const move = (next: PointerEvent): void => {
      if (next.pointerId === pointerId) follow(toDots(next));
    };
    const end = (next: PointerEvent): void => {
      if (next.pointerId !== pointerId) return;
      element.removeEventListener('pointermove', move);
      for (const name of ['pointerup', 'pointercancel'] as const) element.removeEventListener(name, end);
      loupe.hide();
      const after = draft;
      draft = undefined;
      held = undefined;
      if (next.type === 'pointerup' && after !== undefined) put(after, `${thing()} ${index + 1} ${index === before.length ? 'set' : 'moved'}, ${where(at)}.`);
      draw();
    };
    element.addEventListener('pointermove', move);
    for (const name of ['pointerup', 'pointercancel'] as const) element.addEventListener(name, end);
  });

  const choose = (by: number): void => {
    const all = points();
    if (all.length === 0) return;
    held = held === undefined ? (by > 0 ? 0 : all.length - 1) : (held + by + all.length) % all.length;
    at = all[held] ?? at;
    shown?.desk.announce(`${thing()} ${held + 1} of ${all.length} taken, ${where(at)}. Arrows move it.`);
    draw();
  };
  const arrow = ([x, y]: readonly [number, number], isFar: boolean): void => {
    const step = isFar ? 20 : 2;
    at = inside({ x: at.x + x * step, y: at.y + y * step });
    const all = points();
    if (held === undefined || shown?.mode === undefined || held >= all.length) shown?.desk.announce(where(at));
    else shown.desk.apply(setPoints(shown.cell, shown.mode, all.with(held, at)), shown.cell.id);
    draw();
  };
  element.addEventListener('keydown', (event) => {
    if (shown?.mode === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    const direction = ARROWS[event.key];
    const all = points();
    if (direction !== undefined) arrow(direction, event.shiftKey);
    else if (event.key === 'Enter' || event.key === ' ') {
      if (held === undefined) setPoint(at);
      release();
    } else if (event.key === 'PageDown' || event.key === 'PageUp') choose(event.key === 'PageDown' ? 1 : -1);
    else if ((event.key === 'Delete' || event.key === 'Backspace') && all.length > 0) {
      const gone = held ?? all.length - 1;
      held = undefined;
      put(all.filter((_, i) => i !== gone), `${thing()} ${gone + 1} taken out.`);
    } else if (event.key === 'Escape' && held !== undefined) release();
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
  const release = (): void => {
    held = undefined;
    shown?.desk.settle();
    draw();
  };
  element.addEventListener('focus', draw);
  element.addEventListener('blur', release);

  return {
    show: (next) => {
      const { photo, mode, cell } = next;
      const isOther = shown?.photo.picture?.address !== photo.picture?.address;
      if (shown?.mode !== mode) held = undefined;
      shown = next;
      if (photo.picture === undefined) return;
      if (isOther) {
        image.src = photo.picture.address;
        image.width = photo.picture.width;
        image.height = photo.picture.height;
        at = { x: Math.round(photo.picture.width / 2), y: Math.round(photo.picture.height / 2) };
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
      draw();
    },
  };
}

function markOf(mode: MarkKey, points: readonly MarkPoint[], cell: PhotoCell): Partial<NonNullable<PresentedPhoto['marks']>> {
  if (mode === 'outline') return { section: points };
  if (mode !== 'scale') return { [mode]: points };
  const read = readScaleMark(cell.scale ?? '');
  return { scale: { points, length: read.ok ? read.value.length : '' } };
}

function nearest(points: readonly MarkPoint[], to: MarkPoint): { readonly index: number; readonly distance: number } | undefined {
  const all = points.map(({ x, y }, index) => ({ index, distance: Math.hypot(x - to.x, y - to.y) }));
  return all.toSorted((a, b) => a.distance - b.distance)[0];
}

function where({ x, y }: MarkPoint): string {
  return `${Math.round(x)} to the right, ${Math.round(y)} down`;
}

function place(element: HTMLElement, { x, y }: MarkPoint, { width, height }: { readonly width: number; readonly height: number }): void {
  element.style.left = `${(x / width) * 100}%`;
  element.style.top = `${(y / height) * 100}%`;
}
