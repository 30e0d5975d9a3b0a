import { html, render } from 'lit-html';
import { cellAnchor, definingCell, isSymbolHidden, type PresentContext } from '../report/index.ts';
import type { SheetStates } from '../graph/index.ts';
import type { Block, EditCommand } from '../sheet/index.ts';
import { createAnnouncer, movedSentence } from './announce.ts';
import { drawBlock } from './cell.ts';
import { instrumentList } from './cells/measured.ts';
import { createCellUi, type CellUi, type Desk } from './desk.ts';
import { keepEquations, setWaitingEquations, unwatchCell, watchCell } from './equations.ts';
import { showCell } from './focus.ts';
import { helpSection } from './help.ts';
import { listenForKeys } from './listeners.ts';
import { createMenu } from './menu.ts';
import { movedSymbols, type Moved } from './moved.ts';
import type { SheetSession } from './session.ts';
import { sameSignature, signatureOf, type Signature } from './signature.ts';
import { titleBlock } from './title-block.ts';

/** At first the blocks that fill a tall window are drawn, with their equations; the others follow slice by slice, ms. */
const FIRST_BLOCKS = 16;
const FIRST_EQUATIONS = 40;
const SLICE = 12;
const CLOCK_PERIOD = 60_000;

interface ShownBlock {
  readonly element: HTMLElement;
  /** Id of the block that the element bears. */
  name: string;
  signature: Signature | undefined;
}

/**
 * Shows a sheet in `root` and keeps it up to date: each block in an element of its own, drawn again only when something
 * it shows has changed. The window hears `spanlife:settled` once the whole sheet is in the page, and after each edit as
 * soon as all its results are.
 */
export function mountSheet(root: HTMLElement, session: SheetSession): { dispose(): void } {
  const sheet = element('article', 'sheet at-work');
  const head = element('header', 'title-block');
  const foot = element('footer', 'sheet-foot');
  const announcer = createAnnouncer();
  const shown = new Map<string, ShownBlock>();
  const uis = new Map<string, CellUi>();
  let blocks = new Map<string, Block>();
  let context = contextNow(session);
  let baseline: SheetStates = context.states;
  let moved: ReadonlyMap<string, Moved> = new Map();
  /** What the running burst of edits writes to; `own` while an edit of ours waits for its results. */
  let burst = '';
  let own = false;
  let afterUpdate: (() => void)[] = [];

  const ui = (blockId: string): CellUi => {
    let record = uis.get(blockId);
    if (record === undefined) {
      record = createCellUi();
      uis.set(blockId, record);
    }
    return record;
  };
  const desk: Desk = {
    session,
    context: () => context,
    ui,
    changeUi: (blockId, change) => {
      const record = ui(blockId);
      change(record);
      record.version++;
      const block = blocks.get(blockId);
      if (block !== undefined) drawIfChanged(block);
    },
    moved: (symbol) => (isSymbolHidden(symbol, context) ? undefined : moved.get(symbol)),
    apply: (command, at) => {
      const target = targetOf(command);
      if (target !== burst) baseline = session.states();
      const result = session.apply(command);
      if (!result.ok) {
        if (at === undefined) announcer.say(`${result.problem.what} ${result.problem.mend}`);
        else desk.changeUi(at, (record) => void (record.refused = result.problem));
        return false;
      }
      burst = target;
      own = true;
      if (at !== undefined) ui(at).refused = undefined;
      return true;
    },
    settle: () => {
      burst = '';
      session.settle();
    },
    go: (to, from) => {
      const there = shown.get(to)?.element;
      if (there === undefined) return;
      if (from !== '' && from !== to) desk.changeUi(to, (record) => void (record.cameFrom = from));
      showCell(there);
    },
    back: (blockId) => {
      const there = shown.get(ui(blockId).cameFrom ?? '')?.element;
      desk.changeUi(blockId, (record) => void (record.cameFrom = undefined));
      if (there !== undefined) showCell(there);
    },
    announce: (sentence) => announcer.say(sentence),
    afterUpdate: (action) => void afterUpdate.push(action),
    openMenu: (blockId, anchor) => menu.open(blockId, anchor),
    element: (blockId) => shown.get(blockId)?.element,
    block: (blockId) => blocks.get(blockId),
  };
  const menu = createMenu(desk);

  const drawIfChanged = (block: Block): void => {
    const place = shown.get(block.id);
    if (place === undefined) return;
    const signature = signatureOf(block, ui(block.id), desk);
    if (sameSignature(place.signature, signature)) return;
    place.signature = signature;
    const { state, template } = drawBlock(block, desk);
    place.element.className = `cell cell-${block.kind === 'prose' ? 'prose' : block.cell.kind} ${state}`.trim();
    render(template, place.element);
  };

  /** @param most blocks drawn now; the others get their places, and are drawn in the tasks that follow. */
  const update = (most = Number.POSITIVE_INFINITY): void => {
    context = contextNow(session);
    const list = context.document.blocks.filter((block) => isShown(block) || uis.get(block.id)?.editing !== undefined);
    blocks = new Map(list.map((block) => [block.id, block]));
    followRename(list, shown, uis);
    const focused = document.activeElement;
    let previous: Element = head;
    for (const [i, block] of list.entries()) {
      let place = shown.get(block.id);
      if (place === undefined) {
        place = { element: element('section', 'cell'), name: '', signature: undefined };
        place.element.tabIndex = -1;
        shown.set(block.id, place);
        watchCell(place.element);
      }
      if (place.name !== block.id) nameElement(place, block);
      if (previous.nextElementSibling !== place.element) previous.after(place.element);
      previous = place.element;
      if (i < most) drawIfChanged(block);
    }
    for (const [id, { element: old }] of shown) {
      if (blocks.has(id)) continue;
      shown.delete(id);
      uis.delete(id);
      unwatchCell(old);
      old.remove();
    }
    if (focused instanceof HTMLElement && focused !== document.activeElement && sheet.contains(focused)) focused.focus();
    headFrame ||= requestAnimationFrame(drawHead);
  };
  let restTask: ReturnType<typeof setTimeout> | undefined;
  /** Whether the window heard that the whole sheet is in the page. */
  let told = false;
  const drawRest = (milliseconds = Number.POSITIVE_INFINITY): void => {
    clearTimeout(restTask);
    const until = performance.now() + milliseconds;
    for (const block of blocks.values()) {
      if (shown.get(block.id)?.signature !== undefined) continue;
      drawIfChanged(block);
      if (performance.now() < until) continue;
      restTask = setTimeout(drawRest, 0, SLICE);
      return;
    }
    if (told) return;
    told = true;
    window.dispatchEvent(new CustomEvent('spanlife:settled'));
  };
  // The head counts and lists over the whole sheet; it follows the results within the same frame.
  let headFrame = 0;
  const drawHead = (): void => {
    headFrame = 0;
    render(titleBlock(desk), head);
  };

  const settle = (): void => {
    if (!begun) {
      begin();
      return;
    }
    if (!own) {
      baseline = context.states;
      burst = '';
      for (const record of uis.values()) forgetDrafts(record);
    }
    own = false;
    const before = context.states;
    const after = session.states();
    if (after !== before) moved = movedSymbols(baseline, after);
    update();
    window.dispatchEvent(new CustomEvent('spanlife:settled'));
    const actions = afterUpdate;
    afterUpdate = [];
    for (const action of actions) action();
    if (after === before) return;
    const read = new Set([...moved.keys()].flatMap((symbol) => after.cell(after.definedBy(symbol) ?? '')?.reads ?? []));
    const sentence = movedSentence(moved, (symbol) => {
      const name = nameOfSymbol(symbol);
      return name === undefined ? undefined : { name, isFinal: !read.has(symbol) };
    });
    if (sentence !== '') announcer.say(sentence);
  };
  const nameOfSymbol = (symbol: string): string | undefined => {
    if (isSymbolHidden(symbol, context)) return undefined;
    return definingCell(symbol, context)?.cell.label ?? symbol;
  };

  const stopKeys = listenForKeys(sheet, desk);
  const stopSession = session.subscribe(settle);
  const printing = (): void => {
    drawRest();
    setWaitingEquations();
  };
  window.addEventListener('beforeprint', printing);
  const clock = setInterval(() => {
    for (const block of blocks.values()) {
      if (block.kind === 'cell' && block.cell.kind === 'step' && block.cell.clock !== undefined) desk.changeUi(block.id, () => undefined);
    }
  }, CLOCK_PERIOD);
  render(html`${instrumentList()}${helpSection()}`, foot);
  sheet.append(head, foot);
  // What stood in the page stays until there are values to show in its place.
  let begun = false;
  const begin = (): void => {
    if (begun) return;
    begun = true;
    keepEquations(root);
    update(FIRST_BLOCKS);
    baseline = context.states;
    drawHead();
    setWaitingEquations(FIRST_EQUATIONS);
    root.replaceChildren(sheet, menu.element, announcer.element);
    restTask = setTimeout(drawRest, 0, SLICE);
  };
  // The values come in a microtask; where they were there before, nobody tells.
  restTask = setTimeout(begin, 0);
  return {
    dispose: () => {
      stopSession();
      stopKeys();
      clearInterval(clock);
      clearTimeout(restTask);
      cancelAnimationFrame(headFrame);
      announcer.dispose();
      window.removeEventListener('beforeprint', printing);
      for (const { element: old } of shown.values()) unwatchCell(old);
      root.replaceChildren();
    },
  };
}

/** What is being typed gives way to what the sheet says, after an undo for instance. */
function forgetDrafts(record: CellUi): void {
  if (record.drafts === undefined && record.writing === undefined && record.editing?.draft === undefined) return;
  record.drafts = undefined;
  record.before = undefined;
  record.writing = undefined;
  if (record.editing !== undefined) record.editing = { ...record.editing, draft: undefined };
  record.version++;
}

function contextNow(session: SheetSession): PresentContext {
  return { document: session.document(), states: session.states(), system: session.system() };
}

/** Blank lines between two cells are no line of the page. */
function isShown(block: Block): boolean {
  return block.kind === 'cell' || block.source.trim() !== '';
}

function element(name: string, className: string): HTMLElement {
  const made = document.createElement(name);
  made.className = className;
  return made;
}

function nameElement(place: ShownBlock, block: Block): void {
  place.name = block.id;
  place.element.dataset['cell'] = block.id;
  place.element.id = cellAnchor(block.id);
  if (block.kind === 'cell' && 'symbol' in block.cell) place.element.dataset['symbol'] = block.cell.symbol;
}

/** Where the only change of ids is one that took the place of another, the block was renamed in its own text: it keeps its element. */
function followRename(list: readonly Block[], shown: Map<string, ShownBlock>, uis: Map<string, CellUi>): void {
  const ids = new Set(list.map(({ id }) => id));
  const gone = [...shown.keys()].filter((id) => !ids.has(id));
  const come = list.filter(({ id }) => !shown.has(id));
  const [from, to] = [gone[0], come[0]?.id];
  if (gone.length !== 1 || come.length !== 1 || from === undefined || to === undefined) return;
  const place = shown.get(from);
  const record = uis.get(from);
  shown.delete(from);
  uis.delete(from);
  if (place !== undefined) shown.set(to, { element: place.element, name: '', signature: undefined });
  if (record !== undefined) uis.set(to, record);
}

/** What a command writes to, without what it writes: edits of the same target are marked as one. */
function targetOf(command: EditCommand): string {
  return JSON.stringify(command, (key: string, value: unknown) => (['value', 'values', 'body', 'source', 'time', 'option'].includes(key) ? undefined : value));
}
