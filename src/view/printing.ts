import { cellIn, type Block } from '../sheet/index.ts';
import type { BlockList } from './block-list.ts';
import type { Desk } from './desk.ts';
import { setAllEquations } from './equations.ts';
import type { LongSheet } from './long-sheet.ts';

interface Printed {
  readonly blocks: () => Iterable<Block>;
  readonly desk: Desk;
  readonly list: BlockList;
  readonly long: LongSheet;
}

/** Before printing the sheet is made complete, whatever was scrolled to; after it, it is as it was. Gives the way to stop. */
export function completeForPrint({ blocks, desk, list, long }: Printed): () => void {
  const showTables = (isPrinting: boolean): void => {
    for (const block of blocks()) {
      if (cellIn(block, 'table') !== undefined) desk.changeUi(block.id, (ui) => void (ui.table = { ...ui.table, isPrinting }));
    }
  };
  let asBefore = (): void => undefined;
  const before = (): void => {
    const [shorten, fold] = [long.all(), desk.folds.showAll()];
    asBefore = () => {
      fold();
      shorten();
    };
    showTables(true);
    list.finish();
    setAllEquations();
  };
  const after = (): void => {
    showTables(false);
    asBefore();
  };
  window.addEventListener('beforeprint', before);
  window.addEventListener('afterprint', after);
  return () => {
    window.removeEventListener('beforeprint', before);
    window.removeEventListener('afterprint', after);
  };
}
