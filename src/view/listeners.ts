import type { Desk } from './desk.ts';
import { isFieldWithOwnUndo, keepOnTab } from './focus.ts';
import { actionOf, type KeyAction } from './keys.ts';
import { pressedSymbol } from './symbol-press.ts';

const ON_SHEET = new Set(['sheet'] as const);
const IN_CELL = new Set(['sheet', 'cell'] as const);

/** Keys and presses that belong to no control of their own. @param beforeGoing called before a key takes the focus further along the sheet */
export function listenForKeys(sheet: HTMLElement, desk: Desk, beforeGoing: () => void): () => void {
  const changed = new WeakSet<Element>();
  let isTab = false;
  const forget = (event: FocusEvent): void => {
    if (event.target instanceof Element) changed.delete(event.target);
    if (isTab && event.target instanceof Node && sheet.contains(event.target)) keepOnTab(event.target);
  };
  const hearKey = (event: KeyboardEvent): void => {
    isTab = event.key === 'Tab';
    if (isTab || event.key === 'Enter') beforeGoing();
  };
  const hearPress = (): void => void (isTab = false);
  const remember = (event: Event): void => {
    if (event.target instanceof Element) changed.add(event.target);
  };
  const press = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return;
    const target = event.target instanceof Element ? event.target : null;
    const cell = target?.closest<HTMLElement>('[data-cell]') ?? undefined;
    const action = actionOf(event, cell === undefined ? ON_SHEET : IN_CELL);
    if (action === undefined) return;
    const isHistory = action === 'undo' || action === 'redo';
    // In the head of the page only the history is the sheet's.
    if (!isHistory && target !== null && target !== document.body && !sheet.contains(target)) return;
    // A field that was just changed has an undo of its own, key by key; left or unchanged, the sheet's applies.
    if (isHistory && isFieldWithOwnUndo(target, changed)) return;
    if (actOn(action, cell, desk)) event.preventDefault();
  };
  const click = (event: MouseEvent): void => {
    if (!(event.target instanceof Element)) return;
    const cell = event.target.closest<HTMLElement>('[data-cell]');
    const blockId = cell?.dataset['cell'];
    if (blockId === undefined) return;
    const line = event.target.closest('.symbols');
    if (line !== null) {
      const { states } = desk.context();
      const symbol = pressedSymbol(event.target, line, states.cell(blockId)?.reads ?? []);
      const to = symbol === undefined ? undefined : states.definedBy(symbol);
      if (to !== undefined) desk.go(to, blockId);
    } else if (event.target.closest('.cell-remark .text') !== null && event.target.closest('a') === null) {
      cell?.querySelector<HTMLElement>('.writing textarea')?.focus();
    }
  };
  sheet.addEventListener('click', click);
  document.addEventListener('focusin', forget);
  document.addEventListener('input', remember);
  document.addEventListener('keydown', press);
  document.addEventListener('keydown', hearKey, true);
  document.addEventListener('pointerdown', hearPress, true);
  return () => {
    document.removeEventListener('focusin', forget);
    document.removeEventListener('input', remember);
    document.removeEventListener('keydown', press);
    document.removeEventListener('keydown', hearKey, true);
    document.removeEventListener('pointerdown', hearPress, true);
  };
}

/** Whether there was something to do. */
function actOn(action: KeyAction, cell: HTMLElement | undefined, desk: Desk): boolean {
  const blockId = cell?.dataset['cell'];
  switch (action) {
    case 'undo':
    case 'redo':
      desk.step(action);
      return true;
    case 'end the light':
      if (!desk.isLit()) return false;
      desk.light(undefined);
      return true;
    case 'lecture':
    case 'lecture, filling the screen':
      desk.enterLecture(action !== 'lecture');
      return true;
    default:
  }
  if (cell === undefined || blockId === undefined) return false;
  switch (action) {
    case 'menu':
      desk.openMenu(blockId, cell.querySelector('.menu-button') ?? cell);
      return true;
    case 'move up':
    case 'move down':
      desk.apply({ do: 'move', blockId, to: action === 'move up' ? 'up' : 'down' }, blockId);
      return true;
    case 'there and back':
      if (desk.ui(blockId).cameFrom === undefined) return false;
      desk.back(blockId);
      return true;
    default:
      return false;
  }
}
