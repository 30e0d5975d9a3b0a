import type { Desk } from './desk.ts';
import type { MenuHand } from './menu.ts';
import { panels } from './panels-at-hand.ts';

export interface CellMenu extends MenuHand {
  readonly element: HTMLElement;
}

/** The menu of the sheet, which comes with what opens at a line: until it is opened first it is an empty place. */
export function menuLater(desk: Desk): CellMenu {
  const element = document.createElement('div');
  element.className = 'cell-menu';
  element.setAttribute('role', 'menu');
  element.hidden = true;
  let made: MenuHand | undefined;
  const menu = (): MenuHand => (made ??= panels.use().createMenu(element, desk));
  return {
    element,
    open: (blockId, anchor) => desk.withPanels(() => menu().open(blockId, anchor)),
    openAdd: (after, anchor) => desk.withPanels(() => menu().openAdd(after, anchor)),
  };
}
