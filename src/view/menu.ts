import { cellIn, LECTURE, symbolsGiven, withLectureMark, type CellBlock, type LectureMark } from '../sheet/index.ts';
import { nothing, render, type TemplateResult } from 'lit-html';
import { headingsOf, isSymbolHidden, stepTex } from '../report/index.ts';
import { isShown, ownText } from './commands.ts';
import { copyText } from './copy-text.ts';
import type { Desk } from './desk.ts';
import { isApple, keysText } from './keys.ts';
import { symbolsOfState } from './lighting.ts';
import { addBlock, NEW_BLOCKS } from './new-blocks.ts';
import { popping } from './popping.ts';
import { nameOf } from './step-told.ts';
import { html } from './template.ts';

interface MenuItem {
  /** Pressed while the menu is open. */
  readonly letter: string;
  readonly words: string;
  /** Keys that do the same without the menu. */
  readonly keys?: string;
  readonly choose: () => void;
  /** Goes on to a second list in place of closing. */
  readonly stays?: true;
}

/** The ways to open it. */
export interface MenuHand {
  readonly open: (blockId: string, anchor: Element) => void;
  /** What can be added below a block, or on a sheet that has nothing on it. */
  readonly openAdd: (after: string | undefined, anchor: Element) => void;
}

/** The one menu of the sheet: it opens at a line and says what can be done with it, each with its letter. */
export function createMenu(element: HTMLElement, desk: Desk): MenuHand {
  element.hidden = false;
  let items: readonly MenuItem[] = [];
  let from: HTMLElement | undefined;

  const show = (list: readonly MenuItem[], label: string): void => {
    items = list;
    element.setAttribute('aria-label', label);
    render(list.map((item) => itemTemplate(item, choose)), element);
    buttons()[0]?.focus();
  };
  const buttons = (): readonly HTMLElement[] => [...element.querySelectorAll('button')];
  const { unfold: pop, close } = popping(element, () => {
    // Where the focus was comes back when nothing else has taken it.
    if (document.activeElement === document.body || element.contains(document.activeElement)) from?.focus();
  });
  const choose = (item: MenuItem): void => {
    if (item.stays !== true) close();
    item.choose();
  };
  element.addEventListener('keydown', (event) => {
    if (!pressed(event, { buttons: buttons(), items, choose, close })) return;
    event.preventDefault();
    event.stopPropagation();
  });
  // Not every browser on a telephone closes it there, and there is no Escape.
  document.addEventListener('pointerdown', ({ target }) => {
    if (target instanceof Node && !element.contains(target)) close();
  }, { capture: true, passive: true });

  const unfold = (): void => {
    from = document.activeElement instanceof HTMLElement && document.activeElement !== document.body ? document.activeElement : undefined;
    pop();
  };

  return {
    openAdd: (after, anchor) => {
      unfold();
      show(addItems(after, desk), 'Add');
      placeBeside(element, anchor);
    },
    open: (blockId, anchor) => {
      unfold();
      // Another list may need another place.
      const showBeside = (list: readonly MenuItem[], label: string): void => {
        show(list, label);
        placeBeside(element, anchor);
      };
      showBeside(cellItems(blockId, desk, {
        add: () => showBeside(addItems(blockId, desk), 'Add below'),
        lights: () => showBeside(lightItems(blockId, desk), 'Light up what 1 % does'),
        lecture: () => showBeside(lectureItems(blockId, desk), 'In the lecture'),
      }), 'What can be done with this line');
    },
  };
}

interface OpenMenu {
  readonly buttons: readonly HTMLElement[];
  readonly items: readonly MenuItem[];
  readonly choose: (item: MenuItem) => void;
  readonly close: () => void;
}

/** Arrows go about in the menu, a letter chooses, Tab leaves. Whether that was all that the key is for. */
function pressed(event: KeyboardEvent, { buttons, items, choose, close }: OpenMenu): boolean {
  const at = buttons.indexOf(document.activeElement as HTMLElement);
  const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: buttons.length - 1 }[event.key];
  if (to !== undefined) {
    buttons[(to + buttons.length) % buttons.length]?.focus();
    return true;
  }
  if (event.key === 'Tab') close();
  if (event.key === 'Tab' || event.ctrlKey || event.metaKey || event.altKey) return false;
  const item = items.find(({ letter }) => letter === event.key.toUpperCase());
  if (item !== undefined) choose(item);
  return item !== undefined;
}

function itemTemplate(item: MenuItem, choose: (item: MenuItem) => void): TemplateResult {
  return html`<button type="button" role="menuitem" tabindex="-1" aria-keyshortcuts=${item.letter} @click=${() => choose(item)}>
    <span class="words">${item.words}</span>${item.keys === undefined ? nothing : html`<kbd class="keys">${item.keys}</kbd>`}<kbd>${item.letter}</kbd></button>`;
}

/** What can be done with any line, in words; the letter is one of them, and the same wherever the menu opens. */
export const LINE_ACTIONS = {
  edit: { letter: 'T', words: 'edit its own text' },
  form: { letter: 'O', words: 'edit it as a form' },
  add: { letter: 'W', words: 'add below …' },
  up: { letter: 'U', words: 'move up' },
  down: { letter: 'N', words: 'move down' },
  duplicate: { letter: 'P', words: 'duplicate' },
  rename: { letter: 'R', words: 'rename its symbol everywhere …' },
  tex: { letter: 'L', words: 'copy as LaTeX' },
  light: { letter: 'G', words: 'light up what 1 % of it does' },
  lights: { letter: 'G', words: 'light up what 1 % does …' },
  lecture: { letter: 'C', words: 'in the lecture …' },
  delete: { letter: 'E', words: 'delete' },
} as const;

/** Lists that an item of the first one goes on to. */
interface FurtherMenus {
  readonly add: () => void;
  readonly lights: () => void;
  readonly lecture: () => void;
}

function cellItems(blockId: string, desk: Desk, menus: FurtherMenus): readonly MenuItem[] {
  const block = desk.block(blockId);
  const apple = isApple();
  const arrange = (to: 'up' | 'down') => () => void desk.apply({ do: 'move', blockId, to }, blockId);
  const items: MenuItem[] = [
    { ...LINE_ACTIONS.edit, choose: () => editText(blockId, desk) },
    ...(block?.kind === 'cell' ? [{ ...LINE_ACTIONS.form, choose: () => editAsForm(blockId, desk) }] : []),
    { ...LINE_ACTIONS.add, stays: true, choose: menus.add },
    { ...LINE_ACTIONS.up, keys: keysText('move up', apple), choose: arrange('up') },
    { ...LINE_ACTIONS.down, keys: keysText('move down', apple), choose: arrange('down') },
    { ...LINE_ACTIONS.duplicate, choose: () => duplicate(blockId, desk) },
  ];
  if (block?.kind === 'cell' && symbolsGiven(block.cell).some((symbol) => symbol !== '')) items.push({ ...LINE_ACTIONS.rename, choose: () => openRename(block, desk) });
  if (cellIn(block, 'step') !== undefined) items.push({ ...LINE_ACTIONS.tex, choose: () => copyTex(blockId, desk) });
  const [first, ...others] = lightItems(blockId, desk);
  if (first !== undefined) items.push(others.length === 0 ? { ...LINE_ACTIONS.light, choose: first.choose } : { ...LINE_ACTIONS.lights, stays: true, choose: menus.lights });
  if (lectureItems(blockId, desk).length > 0) items.push({ ...LINE_ACTIONS.lecture, stays: true, choose: menus.lecture });
  items.push({ ...LINE_ACTIONS.delete, choose: () => remove(blockId, desk) });
  return items;
}

/** How the lecture tells a line, or the section that a text begins. */
function lectureItems(blockId: string, desk: Desk): readonly MenuItem[] {
  const block = desk.block(blockId);
  const section = block?.kind === 'prose' ? headingsOf(block.source).find(({ level }) => level <= 2)?.words : undefined;
  const name = section ?? blockId;
  const marking = (letter: string, words: string, mark: LectureMark | undefined): MenuItem => ({
    letter,
    words,
    choose: () => {
      if (desk.apply({ do: 'set front matter', key: LECTURE, value: withLectureMark(desk.context().document, name, mark) }, blockId)) desk.announce(`In the lecture: ${words}.`);
    },
  });
  if (section !== undefined) return [marking('T', 'the section is told', undefined), marking('O', 'the section is left out', 'left out')];
  if (block?.kind !== 'cell') return [];
  return [marking('L', 'line by line', undefined), marking('A', 'all at once', 'at once'), marking('O', 'left out', 'left out')];
}

/** What one percent does, for each symbol that the line gives the sheet; a fit gives the most. */
function lightItems(blockId: string, desk: Desk): readonly MenuItem[] {
  const context = desk.context();
  const symbols = symbolsOfState(context.states.cell(blockId)).filter((symbol) =>
    context.states.symbol(symbol)?.status === 'value' && !isSymbolHidden(symbol, context));
  return symbols.slice(0, 9).map((symbol, i) => ({ letter: String(i + 1), words: symbol, choose: () => desk.light(symbol) }));
}

function addItems(blockId: string | undefined, desk: Desk): readonly MenuItem[] {
  return NEW_BLOCKS.map(({ letter, what, words }) => ({
    letter,
    words,
    choose: () => {
      const joins = what === 'prose' && blockId !== undefined && desk.block(blockId)?.kind === 'prose';
      if (!desk.apply(addBlock(desk.context().document, what, blockId), blockId)) return;
      // Text joins the text it comes to stand beside.
      const shown = desk.session.document().blocks.filter(isShown);
      const added = joins ? blockId : shown[shown.findIndex(({ id }) => id === blockId) + 1]?.id;
      if (added !== undefined) desk.afterUpdate(() => (what === 'remark' ? writeIn(added, desk) : editText(added, desk)));
    },
  }));
}

/** Opens the form in which a symbol of a cell gets another name everywhere, and goes there. */
function openRename(block: CellBlock, desk: Desk): void {
  const [symbol = ''] = symbolsGiven(block.cell).filter((one) => one !== '');
  desk.withPanels(() => {
    desk.settle();
    desk.changeUi(block.id, (ui) => void (ui.renaming = { symbol, typed: symbol }));
    const field = desk.element(block.id)?.querySelector<HTMLInputElement>('.rename input');
    field?.focus();
    field?.select();
  });
}

/** Goes to the place where a remark is written. */
function writeIn(blockId: string, desk: Desk): void {
  desk.element(blockId)?.querySelector<HTMLElement>('.writing textarea')?.focus();
}

/** Opens the editor of a block's own text and goes there. */
function editText(blockId: string, desk: Desk, field = '.source-editor textarea'): void {
  desk.withPanels(() => {
    const block = desk.block(blockId);
    if (block === undefined) return;
    desk.settle();
    desk.changeUi(blockId, (ui) => void (ui.editing = { before: ownText(block), draft: undefined }));
    desk.element(blockId)?.querySelector<HTMLElement>(field)?.focus();
  });
}

/** The same with the form open, and goes to its first field. */
function editAsForm(blockId: string, desk: Desk): void {
  desk.ui(blockId).open.add('form');
  editText(blockId, desk, '.line-form :is(input, select, textarea)');
}

/** The focus goes on to the copy. */
function duplicate(blockId: string, desk: Desk): void {
  const before = new Set(desk.context().document.blocks.map(({ id }) => id));
  if (!desk.apply({ do: 'duplicate', blockId }, blockId)) return;
  const copy = desk.session.document().blocks.find(({ id }) => !before.has(id));
  if (copy !== undefined) desk.afterUpdate(() => desk.go(copy.id, ''));
}

function remove(blockId: string, desk: Desk): void {
  const block = desk.block(blockId);
  const place = desk.element(blockId);
  const [above, below] = [place?.previousElementSibling, place?.nextElementSibling].map((beside) => (beside instanceof HTMLElement && 'cell' in beside.dataset ? beside : undefined));
  const stays = (above ?? below)?.dataset['cell'];
  if (block === undefined || !desk.apply({ do: 'delete', blockId })) return;
  if (stays === undefined) desk.announce(`Deleted. ${keysText('undo', isApple())} brings it back.`);
  else desk.offerUndo(stays, `${nameOf(block)} is deleted.`);
  desk.afterUpdate(() => (below ?? above)?.focus());
}

function copyTex(blockId: string, desk: Desk): void {
  const step = cellIn(desk.block(blockId), 'step');
  if (step === undefined) return;
  void copyText(stepTex(step, desk.context())).then((done) =>
    desk.announce(done ? 'Copied as LaTeX.' : 'The browser did not let the page copy. Take the LaTeX of the whole sheet away instead.'));
}

/** Below the anchor where there is room, else above; never past the edges of the window. */
function placeBeside(element: HTMLElement, anchor: Element): void {
  const at = anchor.getBoundingClientRect();
  const { width, height } = element.getBoundingClientRect();
  const below = at.bottom + 4 + height <= innerHeight;
  element.style.left = `${Math.max(8, Math.min(at.left, innerWidth - width - 8))}px`;
  element.style.top = `${Math.max(8, below ? at.bottom + 4 : at.top - height - 4)}px`;
}
