import { observe, observedContext, sameWords, wholeOf } from '../report/index.ts';
import type { CellUi, Desk } from './desk.ts';
import { isSameMove } from './moved.ts';

/** The desk as it is handed to what draws a block: whatever is asked of it is noted, so that the block is drawn anew once an answer is another. */
export interface ObservedDesk {
  readonly desk: Desk;
  isStillTrue(): boolean;
}

export function observeDesk(desk: Desk): ObservedDesk {
  const atDesk = observe(() => desk);
  const inSheet = observe(() => wholeOf(desk.context()));
  const context = observedContext(inSheet);
  const { ask } = atDesk;
  const { session } = desk;
  return {
    isStillTrue: () => atDesk.isStillTrue() && inSheet.isStillTrue(),
    desk: {
      ...desk,
      context: () => context,
      ui: (blockId) => {
        ask(versionAt, blockId);
        ask(refusedAt, blockId);
        return ask(uiAt, blockId);
      },
      block: (blockId) => ask(blockAt, blockId),
      moved: (symbol) => ask(movedAt, symbol, isSameMove),
      edited: () => ask(edited, undefined),
      notYet: () => ask(notYet, undefined, (a, b) => sameWords([...a], [...b])),
      folds: { ...desk.folds, isOpen: (blockId) => ask(isOpenAt, blockId), isAway: (blockId) => ask(isAwayAt, blockId), away: () => ask(awayOf, undefined) },
      isLit: () => ask(isLit, undefined),
      litAt: (symbol) => ask(litAt, symbol, (a, b) => JSON.stringify(a) === JSON.stringify(b)),
      litNames: () => ask(litNames, undefined, sameWords),
      session: {
        ...session,
        document: () => ask(documentOf, undefined), states: () => ask(statesOf, undefined), compiled: () => ask(compiledOf, undefined),
        system: () => ask(systemOf, undefined), canUndo: () => ask(canUndo, undefined), canRedo: () => ask(canRedo, undefined),
      },
    },
  };
}

const uiAt = (desk: Desk, blockId: string): CellUi => desk.ui(blockId);
const versionAt = (desk: Desk, blockId: string) => desk.ui(blockId).version;
const refusedAt = (desk: Desk, blockId: string) => desk.ui(blockId).refused;
const blockAt = (desk: Desk, blockId: string) => desk.block(blockId);
const movedAt = (desk: Desk, symbol: string) => desk.moved(symbol);
const edited = (desk: Desk) => desk.edited();
const notYet = (desk: Desk) => desk.notYet();
const isOpenAt = ({ folds }: Desk, blockId: string) => folds.isOpen(blockId);
const isAwayAt = ({ folds }: Desk, blockId: string) => folds.isAway(blockId);
const awayOf = ({ folds }: Desk) => folds.away();
const isLit = (desk: Desk) => desk.isLit();
const litAt = (desk: Desk, symbol: string) => desk.litAt(symbol);
const litNames = (desk: Desk) => desk.litNames();
const documentOf = ({ session }: Desk) => session.document();
const statesOf = ({ session }: Desk) => session.states();
const compiledOf = ({ session }: Desk) => session.compiled();
const systemOf = ({ session }: Desk) => session.system();
const canUndo = ({ session }: Desk) => session.canUndo();
const canRedo = ({ session }: Desk) => session.canRedo();
