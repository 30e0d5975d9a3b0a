/** A sheet at work as the page has it, without a page: edits reach it, records of cells are kept, nothing is drawn. */
import { unitSystemOf, type PresentContext } from '../../src/report/index.ts';
import { parseSheet, serialiseSheet, type Block } from '../../src/sheet/index.ts';
import { createCellUi, forgetDrafts, type CellUi, type Desk } from '../../src/view/desk.ts';
import { createFolds } from '../../src/view/folds.ts';
import { createSession, type SheetSession } from '../../src/view/session.ts';

export interface BenchDesk {
  readonly desk: Desk;
  readonly session: SheetSession;
  /** What was announced, and at which blocks an undo was offered in which words. */
  readonly said: string[];
  readonly offered: string[];
  /** Ids of blocks that were drawn anew, in order. */
  readonly drawn: string[];
  ui(id: string): CellUi;
  text(): string;
  /** Waits until the edits that were made are computed and what waits for them is done. */
  settled(): Promise<void>;
  undo(): Promise<void>;
  dispose(): void;
}

export async function benchDesk(text: string): Promise<BenchDesk> {
  const session = createSession(parseSheet(text), { now: () => new Date(0) });
  const uis = new Map<string, CellUi>();
  const said: string[] = [];
  const offered: string[] = [];
  const drawn: string[] = [];
  let waiting: (() => void)[] = [];
  let isOurs = false;
  const ui = (id: string): CellUi => {
    const record = uis.get(id) ?? createCellUi();
    uis.set(id, record);
    return record;
  };
  session.subscribe(() => {
    if (!isOurs) for (const record of uis.values()) forgetDrafts(record);
    isOurs = false;
    const actions = waiting;
    waiting = [];
    for (const action of actions) action();
  });
  const context = (): PresentContext => ({ document: session.document(), states: session.states(), system: unitSystemOf(session.document()) });
  const block = (id: string): Block | undefined => session.document().blocks.find((one) => one.id === id);
  const desk = {
    session, context, ui, block,
    folds: createFolds(() => session.document(), () => undefined),
    changeUi: (id, change) => {
      change(ui(id));
      drawn.push(id);
    },
    apply: (command, at) => {
      const result = session.apply(command);
      if (result.ok) isOurs = true;
      if (at !== undefined) ui(at).refused = result.ok ? undefined : result.problem;
      return result.ok;
    },
    settle: () => session.settle(),
    announce: (sentence) => void said.push(sentence),
    afterUpdate: (action) => void waiting.push(action),
    offerUndo: (id, sentence) => void offered.push(`${id}: ${sentence}`),
    element: () => undefined,
  } satisfies Partial<Desk> as unknown as Desk;
  const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));
  await settled();
  return {
    desk, session, said, offered, drawn, ui, settled,
    text: () => serialiseSheet(session.document()),
    undo: async () => {
      session.undo();
      await settled();
    },
    dispose: () => session.dispose(),
  };
}
