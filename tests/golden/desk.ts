import { parseSheet } from '../../src/sheet/index.ts';
import { createCellUi, type CellUi, type Desk } from '../../src/view/desk.ts';
import { createFolds } from '../../src/view/folds.ts';
import { createSession } from '../../src/view/session.ts';

/** A winter's morning on the clock of the place, so that no test hangs on where it runs. */
const MORNING = new Date(2026, 0, 12, 9, 30);

/** The desk of a page on which nobody has pressed anything yet. */
export async function deskFor(text: string): Promise<{ readonly desk: Desk; readonly dispose: () => void }> {
  const session = createSession(parseSheet(text), { now: () => MORNING });
  await new Promise<void>((resolve) => {
    const stop = session.subscribe(() => {
      stop();
      resolve();
    });
  });
  const context = { document: session.document(), states: session.states(), system: session.system() };
  const uis = new Map<string, CellUi>();
  const pressed = (): never => {
    throw new Error('nobody presses anything here');
  };
  const desk: Desk = {
    session,
    context: () => context,
    ui: (blockId) => {
      const ui = uis.get(blockId) ?? createCellUi();
      uis.set(blockId, ui);
      return ui;
    },
    block: (blockId) => context.document.blocks.find(({ id }) => id === blockId),
    folds: createFolds(() => context.document, pressed),
    moved: () => undefined,
    edited: () => undefined,
    isLit: () => false,
    litAt: () => undefined,
    litNames: () => [],
    notYet: () => new Set(),
    element: () => undefined,
    changeUi: pressed, light: pressed, apply: pressed, step: pressed, offerUndo: pressed, go: pressed, back: pressed, announce: pressed,
    settle: pressed, afterUpdate: pressed, enterLecture: pressed, openMenu: pressed,
  };
  return { desk, dispose: () => session.dispose() };
}
