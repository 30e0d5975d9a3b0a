/** Keys of the lecture view: the listener looks them up, and the help of the sheet lists them. */

export type LectureAction =
  | 'next' | 'back' | 'next section' | 'section before' | 'first' | 'last' | 'blank' | 'chain' | 'overview' | 'guess first' | 'full screen' | 'leave' | 'up' | 'down' | 'stays';

interface LectureKey {
  readonly action: LectureAction;
  readonly keys: readonly string[];
  /** Also while something is being typed, as a presenter's remote sends it. */
  readonly everywhere?: true;
}

const LECTURE_KEYS: readonly LectureKey[] = [
  { action: 'next', keys: ['PageDown'], everywhere: true },
  { action: 'back', keys: ['PageUp'], everywhere: true },
  { action: 'next', keys: ['ArrowRight', ' '] },
  { action: 'back', keys: ['ArrowLeft'] },
  { action: 'first', keys: ['Home'] },
  { action: 'last', keys: ['End'] },
  { action: 'blank', keys: ['.', 'B'] },
  { action: 'chain', keys: ['C'] },
  { action: 'overview', keys: ['L'] },
  // The button of a remote that begins a lecture; it would load the page anew.
  { action: 'overview', keys: ['F5'], everywhere: true },
  { action: 'guess first', keys: ['P'] },
  { action: 'up', keys: ['ArrowUp'] },
  { action: 'down', keys: ['ArrowDown'] },
  { action: 'stays', keys: ['=', '-'] },
  { action: 'full screen', keys: ['W'] },
  { action: 'leave', keys: ['Escape'] },
];

/** The same for the help of the sheet. */
export const LECTURE_HELP: readonly (readonly [keys: string, help: string])[] = [
  ['Page down, →, space', 'on: the equation, the numbers put in, the result, the next line; a remote sends the first'],
  ['Page up, ←', 'back: what was shown last is hidden again'],
  ['Home, End', 'to the beginning and to the end'],
  ['. or B', 'blank the screen; any key brings it back. While hands are up: most of them are'],
  ['held down', 'page down and page up: to the next section, and to the one before'],
  ['L, F5', 'the list of sections and lines: page down and page up go from section to section, the same key goes there'],
  ['C', 'the whole chain'],
  ['P', 'predict first: an edit then holds every result back until you have asked for hands, with page down, and gone on'],
  ['↑ ↓ =', 'note the guess: up, down, stays'],
  ['W', 'fill the whole screen'],
  ['Esc', 'leave a blank; leave the full screen; leave the lecture view, which keeps its place'],
];

interface Press {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

/**
 * What a key means in the lecture view; undefined where it is none of its keys.
 * @param isTyping the focus is in a field, a list or on a place of a drawing, which have keys of their own
 */
export function lectureActionOf(press: Press, isTyping: boolean): LectureAction | undefined {
  if (press.ctrlKey || press.metaKey || press.altKey) return undefined;
  const key = press.key.length === 1 ? press.key.toUpperCase() : press.key;
  return LECTURE_KEYS.find(({ keys, everywhere }) => keys.includes(key) && (!isTyping || everywhere === true))?.action;
}

/** What it means as it is held down: on and back go by sections, everything else is done once. */
export function whenHeld(action: LectureAction): LectureAction | undefined {
  return action === 'next' ? 'next section' : action === 'back' ? 'section before' : undefined;
}
