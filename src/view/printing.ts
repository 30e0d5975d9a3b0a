import { printFoot } from '../report/index.ts';
import { cellIn, type Block } from '../sheet/index.ts';
import type { BlockList } from './block-list.ts';
import type { Desk } from './desk.ts';
import { setAllEquations } from './equations.ts';
import { drawForPaper } from './figures/on-paper.ts';
import type { LongSheet } from './long-sheet.ts';

interface Printed {
  readonly sheet: HTMLElement;
  readonly blocks: () => Iterable<Block>;
  readonly desk: Desk;
  readonly list: BlockList;
  readonly long: LongSheet;
}

/** Before printing the sheet is made complete, whatever was scrolled to; after it, it is as it was. Gives the way to stop. */
export function completeForPrint({ sheet, blocks, desk, list, long }: Printed): () => void {
  const showTables = (isPrinting: boolean): void => {
    for (const block of blocks()) {
      if (cellIn(block, 'table') !== undefined) desk.changeUi(block.id, (ui) => void (ui.table = { ...ui.table, isPrinting }));
    }
  };
  const foot = document.createElement('style');
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
    drawForPaper(sheet, true);
    foot.textContent = printFoot(desk.context().document);
    document.head.append(foot);
  };
  const after = (): void => {
    foot.remove();
    drawForPaper(sheet, false);
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
