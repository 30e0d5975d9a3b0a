/** Every key the sheet listens to, in one table: the help shows it, the listeners look it up. */

export type KeyAction =
  | 'undo' | 'redo' | 'find' | 'menu' | 'move up' | 'move down' | 'next blank' | 'give back' | 'add reading' | 'there and back' | 'end the light' | 'lecture' | 'lecture, filling the screen';

/** What a key event is matched by. */
export interface KeyPress {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

interface KeyEntry {
  readonly action: KeyAction;
  /** `Mod` is Ctrl, or ⌘ where there is one. */
  readonly keys: readonly string[];
  /** `blank`: only in a blank of a given or an answer. `cell`: anywhere in a cell. `sheet`: everywhere on the sheet. `page`: everywhere on the page. */
  readonly where: 'blank' | 'cell' | 'sheet' | 'page';
  readonly help: string;
}

export const KEYS: readonly KeyEntry[] = [
  { action: 'next blank', keys: ['Enter'], where: 'blank', help: 'go to the next blank for a measured value' },
  { action: 'give back', keys: ['Escape'], where: 'blank', help: 'give back what stood in the blank before' },
  { action: 'add reading', keys: ['Mod+Enter'], where: 'blank', help: 'add a reading of the same quantity' },
  { action: 'menu', keys: ['Mod+.', 'ContextMenu', 'Shift+F10'], where: 'cell', help: 'what can be done with this line' },
  { action: 'move up', keys: ['Alt+ArrowUp'], where: 'cell', help: 'move this line up' },
  { action: 'move down', keys: ['Alt+ArrowDown'], where: 'cell', help: 'move this line down' },
  { action: 'there and back', keys: ['Mod+B'], where: 'cell', help: 'go back to the line you came from' },
  { action: 'end the light', keys: ['Escape'], where: 'sheet', help: 'end the elasticities: all lines stand as before' },
  { action: 'undo', keys: ['Mod+Z'], where: 'sheet', help: 'undo the last change of the sheet' },
  { action: 'redo', keys: ['Mod+Shift+Z', 'Mod+Y'], where: 'sheet', help: 'do it again' },
  { action: 'find', keys: ['F9'], where: 'page', help: 'to the contents: find a symbol or word, go to a section' },
  { action: 'lecture', keys: ['F8'], where: 'sheet', help: 'lecture view: the sheet step by step, in large letters' },
  { action: 'lecture, filling the screen', keys: ['F5'], where: 'sheet', help: 'the same on the whole screen, as a presenter’s remote asks for it' },
];

/** Keys that need no listener of their own in the table, for the help. */
export const MORE_KEYS: readonly (readonly [keys: string, help: string])[] = [
  ['Tab, Shift+Tab', 'to the next and the previous control'],
  ['← →', 'on a place in a drawing: move it by the resolution of the instrument'],
  ['Shift+← →', 'the same by ten times as much'],
  ['↑ ↓ ← →', 'in a table: to the next field; left and right from the ends of the text'],
  ['Enter, Shift+Enter', 'in a table: along the row and back, then to the next row; to a new one from a row that holds something'],
  ['Tab', 'in a table: out of it'],
  ['↑ ↓, Enter', 'among the places found: go along them, go to one; Enter in the blank goes to the first'],
  ['↑ ↓, then Enter', 'in a menu: choose; or press the letter that stands beside the words'],
];

/** What a key press means at a place; undefined where it is none of the sheet's. */
export function actionOf(press: KeyPress, where: ReadonlySet<KeyEntry['where']>): KeyAction | undefined {
  return KEYS.find((entry) => where.has(entry.where) && entry.keys.some((keys) => matches(press, keys)))?.action;
}

function matches(press: KeyPress, keys: string): boolean {
  const parts = keys.split('+');
  const key = parts.at(-1) ?? '';
  const pressed = press.key.length === 1 ? press.key.toUpperCase() : press.key;
  return pressed === key
    && (press.ctrlKey || press.metaKey) === parts.includes('Mod')
    && press.altKey === parts.includes('Alt')
    && press.shiftKey === parts.includes('Shift');
}

/** The keys as the help shows them. */
export function keysText(action: KeyAction, apple: boolean): string {
  const entry = KEYS.find((one) => one.action === action);
  const shown = entry?.keys[0] ?? '';
  const words: Readonly<Record<string, string>> = {
    Mod: apple ? '⌘' : 'Ctrl', ArrowUp: '↑', ArrowDown: '↓', Escape: 'Esc', Alt: apple ? '⌥' : 'Alt',
  };
  return shown.split('+').map((part) => words[part] ?? part).join('+');
}

export function isApple(): boolean {
  return /Mac|iPhone|iPad/.test(navigator.userAgent);
}
