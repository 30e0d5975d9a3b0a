import type { MarkKey, MarkPoint } from '../../sheet/index.ts';
import { MODES } from './photo-ui.ts';

/** A picture that is marked, as it stands in the page: no part of the document. Points are in dots of the picture. */
export interface BoardState {
  /** Address of the picture, and what is marked in it. */
  readonly picture: string | undefined;
  readonly mode: MarkKey | undefined;
  /** Where the cross is that keys move, or the point that is moved. */
  readonly at: MarkPoint;
  /** Number of the point that keys have taken. */
  readonly taken: number | undefined;
  readonly drag: Drag | undefined;
}

interface Drag {
  readonly pointerId: number;
  /** Number of the point that is dragged; one more than there are where it is a new one. */
  readonly index: number;
  /** The points before, and where of them and of the pointer the drag began. */
  readonly before: readonly MarkPoint[];
  readonly grip: MarkPoint;
  readonly from: MarkPoint;
}

/** What the sheet says of the picture: its marks of the kind that is set now, and its size in dots. */
export interface BoardSheet {
  readonly picture: string | undefined;
  readonly mode: MarkKey | undefined;
  readonly points: readonly MarkPoint[];
  readonly width: number;
  readonly height: number;
}

interface BoardEvents {
  /** The sheet shows the picture as it is now. */
  shown: object;
  /** @param reach how near to a point a press takes hold of it, dots */
  press: { readonly pointerId: number; readonly from: MarkPoint; readonly reach: number };
  /** A finger came and went: it marks a place, or takes hold of the point there, which it may drag then. */
  tap: { readonly at: MarkPoint; readonly reach: number };
  drag: { readonly pointerId: number; readonly to: MarkPoint };
  lift: { readonly pointerId: number };
  cancel: { readonly pointerId: number };
  key: { readonly key: string; readonly isFar: boolean };
  /** The focus has gone elsewhere. */
  leave: object;
}

export type BoardEvent<On extends keyof BoardEvents = keyof BoardEvents> = { [One in On]: { readonly on: One } & BoardEvents[One] }[On];

export type BoardEffect =
  /** The points are written down, as one step to undo and with what is said of it. */
  | { readonly do: 'put'; readonly points: readonly MarkPoint[]; readonly said: string }
  /** The same as part of a step that goes on until it is settled. */
  | { readonly do: 'move'; readonly points: readonly MarkPoint[] }
  | { readonly do: 'settle' }
  | { readonly do: 'announce'; readonly sentence: string };

interface BoardStep {
  readonly state: BoardState;
  readonly effects: readonly BoardEffect[];
  /** A key that is the board's. */
  readonly isTaken?: true;
}

export const EMPTY_BOARD: BoardState = { picture: undefined, mode: undefined, at: { x: 0, y: 0 }, taken: undefined, drag: undefined };

/** More points than these are small, and taken hold of only from near. */
export const MANY = 24;
const MANY_REACH = 0.3;
const STEP = 2;
const FAR_STEP = 20;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/**
 * The board after an event, and what else is to be done. With mouse or pen: a press sets a point, or takes hold of one that
 * is near. With a finger a tap does. With keys: arrows move a cross, Enter sets a point there, Page Up and Page Down take hold of a point, which the
 * arrows then move; Delete takes it out, or else the last one. One point, or one drag, is one step to undo.
 */
export function boardStep<On extends keyof BoardEvents>(state: BoardState, event: BoardEvent<On>, sheet: BoardSheet): BoardStep {
  return STEPS[event.on](state, event, sheet);
}

const STEPS: { readonly [On in keyof BoardEvents]: (state: BoardState, event: BoardEvent<On>, sheet: BoardSheet) => BoardStep } = {
  shown: (state, _, sheet) => only(shown(state, sheet)),
  press: (state, event, sheet) => (sheet.mode === undefined || state.drag !== undefined ? only(state) : pressed(state, event, sheet)),
  tap: (state, event, sheet) => (sheet.mode === undefined || state.drag !== undefined ? only(state) : tapped(state, event, sheet)),
  drag: (state, { pointerId, to }, sheet) => {
    const { drag } = state;
    if (drag?.pointerId !== pointerId) return only(state);
    const { grip, from } = drag;
    return only({ ...state, at: inside({ x: grip.x + to.x - from.x, y: grip.y + to.y - from.y }, sheet) });
  },
  lift: (state, { pointerId }) => {
    const { drag, at } = state;
    if (drag?.pointerId !== pointerId) return only(state);
    const { index, before } = drag;
    const said = `${thing(state)} ${index + 1} ${index === before.length ? 'set' : 'moved'}, ${where(at)}.`;
    return { state: { ...state, drag: undefined }, effects: [{ do: 'put', points: dragged(drag, at), said }] };
  },
  cancel: (state, { pointerId }) => only(state.drag?.pointerId === pointerId ? { ...state, drag: undefined } : state),
  key: (state, event, sheet) => (sheet.mode === undefined ? only(state) : pressedKey(state, event, sheet)),
  leave: (state) => ({ state: { ...state, taken: undefined }, effects: [{ do: 'settle' }] }),
};

/** The points as they are seen, and which of them is moved. */
export function pointsSeen({ drag, at, taken }: BoardState, points: readonly MarkPoint[]): { readonly points: readonly MarkPoint[]; readonly taken: number | undefined } {
  return drag === undefined ? { points, taken } : { points: dragged(drag, at), taken: drag.index };
}

function only(state: BoardState): BoardStep {
  return { state, effects: [] };
}

/** An undo may have moved the taken point, or deleted it, and another picture has marks of its own. */
function shown(state: BoardState, { picture, mode, points, width, height }: BoardSheet): BoardState {
  const isOther = picture !== state.picture || mode !== state.mode;
  const taken = isOther || state.taken === undefined || state.taken >= points.length ? undefined : state.taken;
  const drag = isOther || state.drag === undefined || !areSame(state.drag.before, points) ? undefined : state.drag;
  const middle = { x: Math.round(width / 2), y: Math.round(height / 2) };
  const at = picture === state.picture ? ((taken === undefined ? undefined : points[taken]) ?? state.at) : middle;
  return { picture, mode, at, taken, drag };
}

function pressed(state: BoardState, { pointerId, from, reach }: BoardEvent<'press'>, sheet: BoardSheet): BoardStep {
  const { points } = sheet;
  const index = indexAt(points, from, reach) ?? points.length;
  if (index === points.length && isFull(sheet)) return { state, effects: [FULL] };
  const at = points[index] ?? inside(from, sheet);
  return only({ ...state, at, taken: undefined, drag: { pointerId, index, before: points, grip: at, from } });
}

function tapped(state: BoardState, { at, reach }: BoardEvent<'tap'>, sheet: BoardSheet): BoardStep {
  const index = indexAt(sheet.points, at, reach);
  if (index === state.taken && index !== undefined) return { state: { ...state, taken: undefined }, effects: [{ do: 'settle' }] };
  if (index !== undefined) return taking({ ...state, taken: index - 1 }, 1, sheet);
  const there = { ...state, at: inside(at, sheet), taken: undefined };
  return { state: there, effects: [...set(there, sheet), { do: 'settle' }] };
}

function pressedKey(state: BoardState, { key, isFar }: BoardEvent<'key'>, sheet: BoardSheet): BoardStep {
  const { taken } = state;
  const { points } = sheet;
  const direction = ARROWS[key];
  if (direction !== undefined) return { ...moved(state, direction, { sheet, isFar }), isTaken: true };
  switch (key) {
    case 'Enter':
    case ' ': return { state: { ...state, taken: undefined }, effects: [...(taken === undefined ? set(state, sheet) : []), { do: 'settle' }], isTaken: true };
    case 'PageDown': return { ...taking(state, 1, sheet), isTaken: true };
    case 'PageUp': return { ...taking(state, -1, sheet), isTaken: true };
    case 'Delete':
    case 'Backspace': {
      if (points.length === 0) return only(state);
      const gone = taken ?? points.length - 1;
      const put = { do: 'put', points: points.filter((_, i) => i !== gone), said: `${thing(state)} ${gone + 1} taken out.` } as const;
      return { state: { ...state, taken: undefined }, effects: [put], isTaken: true };
    }
    case 'Escape': return taken === undefined ? only(state) : { ...STEPS.leave(state, { on: 'leave' }, sheet), isTaken: true };
    default: return only(state);
  }
}

function moved(state: BoardState, [x, y]: readonly [number, number], { sheet, isFar }: { readonly sheet: BoardSheet; readonly isFar: boolean }): BoardStep {
  const step = isFar ? FAR_STEP : STEP;
  const at = inside({ x: state.at.x + x * step, y: state.at.y + y * step }, sheet);
  const { taken } = state;
  return { state: { ...state, at }, effects: [taken === undefined ? { do: 'announce', sentence: where(at) } : { do: 'move', points: sheet.points.with(taken, at) }] };
}

function taking(state: BoardState, by: 1 | -1, { points }: BoardSheet): BoardStep {
  const last = points.length - 1;
  const taken = state.taken === undefined ? (by > 0 ? 0 : last) : (state.taken + by + points.length) % points.length;
  const at = points[taken];
  if (at === undefined) return only(state);
  const sentence = `${thing(state)} ${taken + 1} of ${points.length} taken, ${where(at)}. Arrows move it.`;
  return { state: { ...state, taken, at }, effects: [{ do: 'announce', sentence }] };
}

function set(state: BoardState, sheet: BoardSheet): readonly BoardEffect[] {
  const { points } = sheet;
  if (isFull(sheet)) return [FULL];
  return [{ do: 'put', points: [...points, state.at], said: `${thing(state)} ${points.length + 1} set, ${where(state.at)}.` }];
}

const FULL: BoardEffect = { do: 'announce', sentence: 'Both ends of the scale are set. Move one, or take one out first.' };

function isFull({ mode, points }: BoardSheet): boolean {
  return mode === 'scale' && points.length >= 2;
}

function dragged({ index, before }: Drag, at: MarkPoint): readonly MarkPoint[] {
  return index === before.length ? [...before, at] : before.with(index, at);
}

function inside({ x, y }: MarkPoint, { width, height }: BoardSheet): MarkPoint {
  const toTenths = (value: number, most: number): number => Math.round(Math.min(most, Math.max(0, value)) * 10) / 10;
  return { x: toTenths(x, width), y: toTenths(y, height) };
}

/** The nearest point within reach. */
function indexAt(points: readonly MarkPoint[], to: MarkPoint, reach: number): number | undefined {
  const all = points.map(({ x, y }, index) => ({ index, distance: Math.hypot(x - to.x, y - to.y) }));
  const near = all.toSorted((a, b) => a.distance - b.distance)[0];
  return near !== undefined && near.distance <= reach * (points.length > MANY ? MANY_REACH : 1) ? near.index : undefined;
}

function areSame(some: readonly MarkPoint[], others: readonly MarkPoint[]): boolean {
  return some.length === others.length && some.every(({ x, y }, i) => x === others[i]?.x && y === others[i].y);
}

function thing({ mode }: BoardState): string {
  return MODES.find(({ key }) => key === mode)?.thing ?? '';
}

function where({ x, y }: MarkPoint): string {
  return `${Math.round(x)} to the right, ${Math.round(y)} down`;
}
