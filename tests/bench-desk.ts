/** A sheet at work as the page has it, without a page: edits reach it, records of cells are kept, nothing is drawn. */
import { unitSystemOf, type WholeContext } from '../src/report/index.ts';
import { parseSheet, serialiseSheet, type Block, type EditCommand } from '../src/sheet/index.ts';
import { createCellUi, forgetDrafts, type CellUi, type Desk } from '../src/view/desk.ts';
import { createFolds } from '../src/view/folds.ts';
import { movedSymbols, type Moved } from '../src/view/moved.ts';
import * as everyPanel from '../src/view/panels.ts';
import { panels } from '../src/view/panels-at-hand.ts';
import { createSession, type SheetSession } from '../src/view/session.ts';

panels.give(everyPanel);

/** A winter's morning on the clock of the place, so that no test hangs on where it runs. */
const MORNING = new Date(2026, 0, 12, 9, 30);

export interface BenchDesk {
  readonly desk: Desk;
  readonly session: SheetSession;
  /** The sheet as it was when its last edit had been computed. */
  context(): WholeContext;
  /** What was announced, and at which blocks an undo was offered in which words. */
  readonly said: string[];
  readonly offered: string[];
  /** Ids of blocks that were drawn anew, in order. */
  readonly drawn: string[];
  blocks(): readonly Block[];
  ui(id: string): CellUi;
  text(): string;
  /** Makes an edit as the page does, and waits for it. */
  edit(command: EditCommand): Promise<void>;
  undo(): Promise<void>;
  /** Waits until the edits that were made are computed and what waits for them is done. */
  settled(): Promise<void>;
  dispose(): void;
}

export async function benchDesk(text: string): Promise<BenchDesk> {
  const session = createSession(parseSheet(text), { now: () => MORNING });
  const uis = new Map<string, CellUi>();
  const [said, offered, drawn]: [string[], string[], string[]] = [[], [], []];
  let waiting: (() => void)[] = [];
  let isOurs = false;
  let moved: ReadonlyMap<string, Moved> = new Map();
  const contextNow = (): WholeContext => ({ document: session.document(), states: session.states(), system: unitSystemOf(session.document()) });
  let context = contextNow();
  const ui = (id: string): CellUi => {
    const record = uis.get(id) ?? createCellUi();
    uis.set(id, record);
    return record;
  };
  let computed = nextOf(session);
  session.subscribe(() => {
    if (!isOurs) for (const record of uis.values()) forgetDrafts(record);
    isOurs = false;
    moved = movedSymbols(context.states, session.states());
    context = contextNow();
    const actions = waiting;
    waiting = [];
    for (const action of actions) action();
  });
  /** What is computed after a change of the document; nothing is where it stays the same. */
  const changed = (change: () => void): void => {
    const before = session.document();
    const after = nextOf(session);
    change();
    if (session.document() !== before) computed = after;
  };
  const pressed = (): never => {
    throw new Error('nobody presses this here');
  };
  const desk: Desk = {
    session, ui,
    context: () => context,
    block: (id) => session.document().blocks.find((one) => one.id === id),
    folds: createFolds(() => session.document(), () => undefined),
    changeUi: (id, change) => {
      change(ui(id));
      drawn.push(id);
    },
    apply: (command, at) => {
      let isDone = false;
      changed(() => {
        const result = session.apply(command);
        isDone = result.ok;
        if (at !== undefined) ui(at).refused = result.ok ? undefined : result.problem;
      });
      if (isDone) isOurs = true;
      return isDone;
    },
    settle: () => session.settle(),
    announce: (sentence) => void said.push(sentence),
    afterUpdate: (action) => void waiting.push(action),
    offerUndo: (id, sentence) => void offered.push(`${id}: ${sentence}`),
    moved: (symbol) => moved.get(symbol),
    edited: () => undefined, element: () => undefined, isLit: () => false, litAt: () => undefined, litNames: () => [], notYet: () => new Set(),
    withPanels: (open) => open(),
    light: pressed, lightChange: pressed, step: pressed, go: pressed, back: pressed, enterLecture: pressed, openMenu: pressed,
  };
  const settled = async (): Promise<void> => {
    await computed;
    await new Promise<void>((resolve) => setTimeout(resolve));
  };
  await settled();
  moved = new Map();
  return {
    desk, session, said, offered, drawn, ui, settled,
    context: () => context,
    blocks: () => context.document.blocks,
    text: () => serialiseSheet(session.document()),
    edit: async (command) => {
      desk.apply(command);
      await settled();
    },
    undo: async () => {
      changed(() => session.undo());
      await settled();
    },
    dispose: () => session.dispose(),
  };
}

/** The next time that the sheet is computed. */
function nextOf(session: SheetSession): Promise<void> {
  return new Promise((resolve) => {
    const stop = session.subscribe(() => {
      stop();
      resolve();
    });
  });
}
