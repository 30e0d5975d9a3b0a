import { render } from 'lit-html';
import { isolated } from '../core/problem/index.ts';
import { definingCell, isSymbolHidden, type DrawnSteps, type WholeContext } from '../report/index.ts';
import type { SheetStates } from '../graph/index.ts';
import { cellIn, type Block, type EditCommand } from '../sheet/index.ts';
import { createAnnouncer, movedSentence } from './announce.ts';
import { createBlockList } from './block-list.ts';
import { isShown } from './commands.ts';
import { cancelDrawing } from './draws/draws-ui.ts';
import type { Drawer } from './draws/drawer.ts';
import { finishedDraws } from './draws/keep-drawn.ts';
import { createCellUi, forgetDrafts, type CellUi, type Desk } from './desk.ts';
import { keepEquations, setWaitingEquations } from './equations.ts';
import { renderSafely } from './fault.ts';
import { showCell } from './focus.ts';
import { sheetFoot } from './help.ts';
import { createLecture } from './lecture/lecture.ts';
import type { LectureMemory } from './lecture/memory.ts';
import type { LineShelf } from './line-shelf.ts';
import { watchLines } from './line-watch.ts';
import { createLongSheet } from './long-sheet.ts';
import { listenForKeys } from './listeners.ts';
import { createLighting, lightOf, lightStrip } from './lighting.ts';
import { createMenu } from './menu.ts';
import { movedSymbols, type Moved } from './moved.ts';
import { tickRecords } from './record/running-clock.ts';
import { completeForPrint } from './printing.ts';
import type { RowShelf } from './row-shelf.ts';
import type { SheetSession } from './session.ts';
import { createSteps } from './steps.ts';
import { holdStillUnderPresses, whenStill } from './still.ts';
import { titleBlock } from './title-block.ts';
import { watchStrip } from './watch-strip.ts';

/** Equations set before the sheet first shows, ms; the others follow. */
const FIRST_EQUATIONS = 40;
const CLOCK_PERIOD = 60_000;
const SECOND = 1000;

interface MountOptions {
  readonly lines?: LineShelf;
  readonly rows?: RowShelf;
  readonly drawer?: Drawer;
  /** Where the lecture view remembers its place; absent where nothing is kept. */
  readonly lecturePlace?: LectureMemory;
  /** Said where there is nothing to undo, though there was before the sheet was opened. */
  readonly nothingToUndo?: string;
}

export interface MountedSheet {
  enterLecture(): void;
  /** Draws that lie open and are those of the sheet as it stands. */
  drawn(): DrawnSteps;
  dispose(): void;
}

/**
 * Shows a sheet in `root` and keeps it up to date: each block in an element of its own, drawn again only when something
 * it shows has changed. The window hears `spanlife:settled` once the whole sheet is in the page, and after each edit as
 * soon as all its results are.
 */
export function mountSheet(
  root: HTMLElement, session: SheetSession, { lines, rows, drawer, lecturePlace, nothingToUndo }: MountOptions = {},
): MountedSheet {
  const sheet = element('article', 'sheet at-work');
  const head = element('header', 'title-block');
  const foot = element('footer', 'sheet-foot');
  const strip = element('div', 'strip-place');
  const announcer = createAnnouncer();
  const uis = new Map<string, CellUi>();
  let blocks = new Map<string, Block>();
  /** Places of all blocks, drawn or not. */
  let order = new Map<string, number>();
  let context: WholeContext = contextNow(session);
  const lighting = createLighting(context);
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
    ...(rows === undefined ? {} : { rows }),
    ...(drawer === undefined ? {} : { drawer }),
    context: () => context,
    ...(lines === undefined ? {} : { lines }),
    ...(nothingToUndo === undefined ? {} : { nothingToUndo }),
    ui,
    changeUi: (blockId, change) => {
      const record = ui(blockId);
      change(record);
      record.version++;
      whenStill(blockId, () => {
        const block = blocks.get(blockId);
        if (block !== undefined) list.drawIfChanged(block);
      });
    },
    moved: (symbol) => (isSymbolHidden(symbol, context) ? undefined : moved.get(symbol)),
    ...lightOf(lighting),
    notYet: () => lecture.notYet(),
    light: (symbol) => {
      const wasLit = lighting.now() !== undefined;
      lighting.choose(symbol);
      const lit = lighting.now();
      sheet.classList.toggle('lighting', lit !== undefined);
      drawStrips();
      list.update(blocks);
      if (lit !== undefined) announcer.say(lit.sentence);
      else if (wasLit) announcer.say('The lines stand as before.');
    },
    apply: (command, at) => {
      const target = targetOf(command);
      if (target !== burst) baseline = session.states();
      const before = session.document();
      const result = session.apply(command);
      if (!result.ok) {
        if (at === undefined) announcer.say(`${result.problem.what} ${result.problem.mend}`);
        else desk.changeUi(at, (record) => void (record.refused = result.problem));
        return false;
      }
      burst = target;
      own = true;
      steps.edited(result.value !== before);
      if (at !== undefined) ui(at).refused = undefined;
      return true;
    },
    settle: () => {
      burst = '';
      session.settle();
    },
    step: (way) => steps.step(way),
    offerUndo: (blockId, sentence) => steps.offer(blockId, sentence),
    go: (to, from) => {
      long.reach(order.get(to) ?? 0);
      const there = list.element(to);
      if (there === undefined) return;
      if (from !== '' && from !== to) desk.changeUi(to, (record) => void (record.cameFrom = from));
      showCell(there);
    },
    back: (blockId) => {
      const there = list.element(ui(blockId).cameFrom ?? '');
      desk.changeUi(blockId, (record) => void (record.cameFrom = undefined));
      if (there !== undefined) showCell(there);
    },
    announce: (sentence) => announcer.say(sentence),
    afterUpdate: (action) => void afterUpdate.push(action),
    openMenu: (blockId, anchor) => menu.open(blockId, anchor),
    enterLecture: () => lecture.enter(),
    element: (blockId) => list.element(blockId),
    block: (blockId) => blocks.get(blockId),
  };
  const drawStrips = (): void => renderSafely(() => [watchStrip(desk), lightStrip(lighting.now(), desk), steps.strip()], strip);
  const steps = createSteps(session, () => desk, () => drawStrips());
  const menu = createMenu(desk);
  const lineWatch = watchLines(desk);

  const list = createBlockList(head, uis, desk, () => window.dispatchEvent(new CustomEvent('spanlife:settled')));

  const long = createLongSheet(() => {
    update();
    drawHead();
  });
  const lecture = createLecture({
    root, sheet, desk,
    complete: () => void long.all(),
    draw: (block) => list.drawIfChanged(block),
    refresh: () => update(),
    ...(lecturePlace === undefined ? {} : { memory: lecturePlace }),
  });
  const update = (): void => {
    context = { ...contextNow(session), ...lecture.heldBack() };
    lighting.follow(context);
    const all = context.document.blocks.filter((block) => isShown(block) || uis.get(block.id)?.editing !== undefined);
    order = new Map(all.map(({ id }, index) => [id, index]));
    blocks = new Map(long.pick(all).map((block) => [block.id, block]));
    list.update(blocks);
    lecture.follow();
    lineWatch.look();
    headFrame ||= requestAnimationFrame(() => whenStill(drawHead, drawHead));
  };
  // The head counts and lists over the whole sheet; it follows the results within the same frame.
  let headFrame = 0;
  const drawHead = (): void => {
    headFrame = 0;
    renderSafely(() => titleBlock(desk), head);
    sheet.classList.toggle('lighting', lighting.now() !== undefined);
    drawStrips();
    render([long.foot(), sheetFoot(blocks.size > 0 ? undefined : (anchor) => menu.openEmpty(anchor))], foot);
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
    if (after !== before) {
      baseline = lecture.edited(before) ?? baseline;
      moved = movedSymbols(baseline, after);
    }
    update();
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
    return isolated(definingCell(symbol, context)?.cell.label ?? symbol);
  };

  const stopKeys = listenForKeys(sheet, desk, () => list.drawUndrawn());
  const stopPresses = holdStillUnderPresses();
  const stopSession = session.subscribe(() => whenStill(settle, settle));
  const stopPrinting = completeForPrint({ blocks: () => blocks.values(), desk, list, long });
  const clock = setInterval(() => {
    for (const block of blocks.values()) {
      if (cellIn(block, 'step')?.clock !== undefined) desk.changeUi(block.id, () => undefined);
    }
  }, CLOCK_PERIOD);
  const ticking = setInterval(() => tickRecords(blocks.values(), desk), SECOND);
  sheet.append(head, foot, strip);
  // What stood in the page stays until there are values to show in its place.
  let begun = false;
  const begin = (): void => {
    if (begun) return;
    begun = true;
    keepEquations(root);
    update();
    baseline = context.states;
    drawHead();
    setWaitingEquations(FIRST_EQUATIONS);
    root.replaceChildren(sheet, menu.element, announcer.element);
    lecture.begin();
  };
  // The values come in a microtask; where they were there before, nobody tells.
  const beginning = setTimeout(begin, 0);
  return {
    enterLecture: () => lecture.enter(),
    drawn: () => finishedDraws(uis, session.states()),
    dispose: () => {
      for (const record of uis.values()) cancelDrawing(record.draws);
      lecture.dispose();
      stopSession();
      stopKeys();
      stopPresses();
      lineWatch.dispose();
      clearInterval(clock);
      clearInterval(ticking);
      clearTimeout(beginning);
      cancelAnimationFrame(headFrame);
      announcer.dispose();
      stopPrinting();
      list.dispose();
      root.replaceChildren();
    },
  };
}

function contextNow(session: SheetSession): WholeContext {
  return { document: session.document(), states: session.states(), system: session.system() };
}

function element(name: string, className: string): HTMLElement {
  const made = document.createElement(name);
  made.className = className;
  return made;
}

/** What a command writes to, without what it writes: edits of the same target are marked as one. */
function targetOf(command: EditCommand): string {
  return JSON.stringify(command, (key: string, value: unknown) => (['value', 'values', 'body', 'source', 'text', 'order', 'time', 'option'].includes(key) ? undefined : value));
}
