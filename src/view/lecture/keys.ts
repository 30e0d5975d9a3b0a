/** Keys of the lecture view, in one table: its bar shows them, the help lists them, the listener looks them up. */

export type LectureAction =
  | 'next' | 'back' | 'first' | 'last' | 'blank' | 'chain' | 'overview' | 'guess first' | 'full screen' | 'leave' | 'up' | 'down' | 'stays';

interface LectureKey {
  readonly action: LectureAction;
  readonly keys: readonly string[];
  readonly help: string;
  /** Also while something is being typed, as a presenter's remote sends it. */
  readonly everywhere?: true;
}

export const LECTURE_KEYS: readonly LectureKey[] = [
  { action: 'next', keys: ['PageDown'], help: '', everywhere: true },
  { action: 'back', keys: ['PageUp'], help: '', everywhere: true },
  { action: 'next', keys: ['ArrowRight', ' '], help: 'Page down, →, space: on' },
  { action: 'back', keys: ['ArrowLeft'], help: 'Page up, ←: back' },
  { action: 'first', keys: ['Home'], help: 'Home: to the beginning' },
  { action: 'last', keys: ['End'], help: 'End: to the end' },
  { action: 'blank', keys: ['.', 'B'], help: '. or B: blank the screen' },
  { action: 'chain', keys: ['C'], help: 'C: the whole chain' },
  { action: 'overview', keys: ['O'], help: 'O: overview' },
  { action: 'guess first', keys: ['P'], help: 'P: predict first' },
  { action: 'up', keys: ['ArrowUp'], help: '↑: guessed up' },
  { action: 'down', keys: ['ArrowDown'], help: '↓: guessed down' },
  { action: 'stays', keys: ['=', '-'], help: '= or −: guessed that it stays' },
  { action: 'full screen', keys: ['F'], help: 'F: full screen' },
  { action: 'leave', keys: ['Escape'], help: 'Esc: leave' },
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
