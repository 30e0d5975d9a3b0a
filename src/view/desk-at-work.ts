import { isSymbolHidden } from '../report/index.ts';
import { asItStands } from '../sheet/index.ts';
import { drawStrips, type AtWork } from './at-work.ts';
import { createCellUi, type CellUi, type Desk } from './desk.ts';
import { showCell } from './focus.ts';
import { panels, withPanels } from './panels-at-hand.ts';
import { withEdit, withRest } from './changes.ts';
import type { SheetSession } from './session.ts';
import { lightOf } from './lighting.ts';
import { whenStill } from './still.ts';

/** What the page keeps and has beside the sheet, and what is told where a part of it does not come. */
interface Given extends Pick<Desk, 'folds' | 'lines' | 'values' | 'rows' | 'sampler' | 'nothingToUndo'> {
  readonly partFailed: (error: unknown, again: () => void) => void;
}

/** @param at the sheet in the page, once it is made */
export function createDesk(session: SheetSession, at: () => AtWork, { partFailed, ...given }: Given): Desk {
  const ui = (blockId: string): CellUi => uiOf(blockId, at());
  const desk: Desk = {
    session,
    ...given,
    ui,
    changeUi: (blockId, change) => {
      const record = ui(blockId);
      change(record);
      record.version++;
      whenStill(blockId, () => {
        const { now, list } = at();
        const block = now.blocks.get(blockId);
        if (block !== undefined) list.drawIfChanged(block);
      });
    },
    context: () => at().now.context,
    edited: () => at().now.edited,
    moved: (symbol) => (isSymbolHidden(symbol, at().now.context) ? undefined : at().now.changes.moved.get(symbol)),
    ...lightOf(() => at().lighting.now()),
    notYet: () => at().lecture.notYet(),
    light: (symbol) => light(symbol, at()),
    lightChange: (share) => {
      const { lighting, announcer } = at();
      lighting.change(share);
      drawStrips(at());
      at().list.update(at().now.blocks);
      announcer.say(lighting.now()?.sentence ?? '');
    },
    apply: (command, cellId) => {
      const { now, steps, announcer } = at();
      const [before, document] = [session.states(), session.document()];
      const result = session.apply(asItStands(command, now.context.document, document));
      if (!result.ok) {
        if (cellId === undefined) announcer.say(`${result.problem.what} ${result.problem.mend}`);
        else desk.changeUi(cellId, (record) => void (record.refused = result.problem));
        return false;
      }
      now.changes = withEdit(now.changes, command, before);
      if ('cellId' in command) now.edited = command.cellId;
      steps.edited(result.value !== document);
      if (cellId !== undefined) ui(cellId).refused = undefined;
      return true;
    },
    settle: () => {
      const { now } = at();
      now.changes = withRest(now.changes);
      session.settle();
    },
    step: (way) => at().steps.step(way),
    offerUndo: (blockId, sentence) => at().steps.offer(blockId, sentence),
    go: (to, from) => go(to, from, at()),
    back: (blockId) => {
      const to = ui(blockId).cameFrom ?? '';
      desk.changeUi(blockId, (record) => void (record.cameFrom = undefined));
      go(to, '', at());
    },
    announce: (sentence) => at().announcer.say(sentence),
    afterUpdate: (action) => void (at().now.waiting = [...at().now.waiting, action]),
    openMenu: (blockId, anchor) => at().menu.open(blockId, anchor),
    withPanels: (open) => (panels.isThere() ? open() : void withPanels(open, partFailed)),
    enterLecture: (fillsScreen) => at().lecture.enter(fillsScreen),
    element: (blockId) => {
      const { list, now } = at();
      const block = now.isActing ? now.blocks.get(blockId) : undefined;
      if (block !== undefined) list.drawIfChanged(block);
      return list.element(blockId);
    },
    block: (blockId) => at().now.blocks.get(blockId),
  };
  return desk;
}

function uiOf(blockId: string, { uis }: AtWork): CellUi {
  const record = uis.get(blockId) ?? createCellUi();
  uis.set(blockId, record);
  return record;
}

function light(symbol: string | undefined, work: AtWork): void {
  const { lighting, announcer, frame: { sheet }, list, now } = work;
  const wasLit = lighting.now() !== undefined;
  lighting.choose(symbol);
  const lit = lighting.now();
  sheet.classList.toggle('lighting', lit !== undefined);
  drawStrips(work);
  list.update(now.blocks);
  if (lit !== undefined) announcer.say(lit.sentence);
  else if (wasLit) announcer.say('The lines stand as before.');
}

function go(to: string, from: string, { long, list, now, desk }: AtWork): void {
  desk.folds.reveal(to);
  long.reach(now.order.get(to) ?? 0);
  const there = list.element(to);
  if (there === undefined) return;
  if (from !== '' && from !== to) desk.changeUi(to, (record) => void (record.cameFrom = from));
  showCell(there);
}
