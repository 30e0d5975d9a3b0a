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

/**
 * What is longer than its field would end at the field's edge: on paper its words stand in place of the field, in as many lines as they need. Nothing where all is seen.
 * Gives the way back.
 */
function writeOutLongFields(sheet: HTMLElement): () => void {
  const cut = [...sheet.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>(':is(input, textarea):is(.blank, .field)')]
    .filter((field) => field.value !== '' && (field.scrollWidth > field.clientWidth + 1 || field.scrollHeight > field.clientHeight + 1));
  const written = cut.map((field) => {
    const words = document.createElement('span');
    words.className = 'whole-on-paper';
    words.textContent = field.value;
    return { field, words };
  });
  for (const { field, words } of written) field.after(words);
  return () => {
    for (const { words } of written) words.remove();
  };
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
    showTables(true);
    list.finish();
    const unwrite = writeOutLongFields(sheet);
    asBefore = () => {
      unwrite();
      fold();
      shorten();
    };
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
