import * as v from 'valibot';
import { count, long, sheetId } from './kept-sheet.ts';

/** A sheet as it once stood. */
export interface EarlierState {
  /** When it was kept, ms since 1970, for people and for thinning; the order of states is that of keeping. */
  readonly at: number;
  readonly revision: number;
  readonly text: string;
}

/** A state by what it has in place of a part of its stretch's base, counted in characters: `text` from `start` to `end`. */
interface Splice extends EarlierState {
  readonly start: number;
  readonly end: number;
}

/**
 * Successive states of one sheet as one record: the whole text once, and of each state what differs from it. Typing makes a state every
 * second of a text that may hold photographs. No state hangs on another, so any can be left out.
 */
export interface Stretch {
  /** Sheet and number: see `stretchKey`. */
  readonly id: string;
  readonly base: string;
  /** In the order of keeping. */
  readonly states: readonly Splice[];
}

/** A stretch takes in states of so long a time, ms, so that thinning leaves few texts behind; so many; and so much beside its base, in characters. */
const LONGEST_TIME = 10 * 60_000;
const MOST_STATES = 2000;
const ROOM = 64_000;

/** The last time that a date can be. */
const LAST_TIME = 8.64e15;

const schema = v.pipe(
  v.object({
    id: v.pipe(v.string(), v.regex(/^[0-9a-z-]{1,64}\/\d{10}$/i)),
    base: long,
    states: v.pipe(v.array(v.object({ at: v.pipe(count, v.maxValue(LAST_TIME)), revision: count, text: long, start: count, end: count })), v.maxLength(MOST_STATES)),
  }),
  v.check(({ base, states }) => states.every(({ start, end }) => start <= end && end <= base.length)),
);

/** Whatever stands in the browser's storage as a stretch; undefined where it is none. */
export function readStretch(value: unknown): Stretch | undefined {
  const read = v.safeParse(schema, value);
  return read.success ? read.output : undefined;
}

/** Keys of one sheet's stretches follow one another in the order of keeping. */
export function stretchKey(sheet: string, number: number): string {
  return `${sheet}/${String(number).padStart(10, '0')}`;
}

/** The sheet and the number that a key names; undefined where it names none. */
export function readStretchKey(key: string): { readonly sheet: string; readonly number: number } | undefined {
  const [sheet = '', digits = ''] = key.split('/');
  return v.is(sheetId, sheet) && /^\d{10}$/.test(digits) ? { sheet, number: Number(digits) } : undefined;
}

export function beginStretch(id: string, state: EarlierState): Stretch {
  return { id, base: state.text, states: [spliceOf(state.text, state)] };
}

/** The stretch with one state more; undefined where that one had better begin a stretch of its own. */
export function withState(stretch: Stretch, state: EarlierState): Stretch | undefined {
  const { base, states } = stretch;
  const began = states[0]?.at ?? state.at;
  if (states.length >= MOST_STATES || Math.abs(state.at - began) > LONGEST_TIME) return undefined;
  const splice = spliceOf(base, state);
  const beside = sizeOf(stretch) - base.length + splice.text.length;
  return beside > ROOM + base.length / 2 ? undefined : { ...stretch, states: [...states, splice] };
}

/** The states of a stretch with their texts, in the order of keeping. */
export function statesOf({ base, states }: Stretch): readonly EarlierState[] {
  return states.map(({ at, revision, text, start, end }) => ({ at, revision, text: base.slice(0, start) + text + base.slice(end) }));
}

/** What a stretch takes of the browser's room, in characters. */
export function sizeOf({ base, states }: Stretch): number {
  return states.reduce((sum, { text }) => sum + text.length, base.length);
}

/** What both have at their beginning and at their end is left out. */
function spliceOf(base: string, { at, revision, text }: EarlierState): Splice {
  const most = Math.min(base.length, text.length);
  let start = 0;
  while (start < most && base[start] === text[start]) start += 1;
  let tail = 0;
  while (tail < most - start && base[base.length - 1 - tail] === text[text.length - 1 - tail]) tail += 1;
  return { at, revision, text: text.slice(start, text.length - tail), start, end: base.length - tail };
}
