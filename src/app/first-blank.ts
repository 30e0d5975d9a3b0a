import { cellIn, type SheetDocument } from '../sheet/index.ts';
import { isVisible } from '../view/index.ts';

/** The first blank that waits for something of the reader's: no assumed value, and a table's field as well as a quantity's; else whatever can be typed in. */
export function goToFirstBlank(root: HTMLElement, sheet: SheetDocument | undefined): void {
  const waiting = (sheet?.blocks ?? []).flatMap((block) => {
    const [given, table] = [cellIn(block, 'given'), cellIn(block, 'table')];
    if (given === undefined && table === undefined) return [];
    const field = given?.origin === 'assumed' ? null : root.querySelector<HTMLElement>(`#${CSS.escape(`cell-${block.id}`)} :is(input[data-measured]:not(:disabled), .ruled input.field)`);
    return field && isVisible(field) ? [field] : [];
  });
  (waiting[0] ?? root.querySelector<HTMLElement>('input[data-measured]:not(:disabled)') ?? root.querySelector<HTMLElement>('.cell input, .cell textarea'))?.focus();
}

/**
 * A sheet that was just started is begun at its first blank, which is in its title block. Not where a keyboard would come up on the screen and cover the
 * sheet, nor where the focus is somewhere already.
 */
export function beginAtTitle(root: HTMLElement): void {
  const { activeElement } = document;
  const isFree = activeElement === null || activeElement === document.body || activeElement.classList.contains('unfolder');
  if (!isFree || matchMedia('(hover: none)').matches) return;
  [...root.querySelectorAll<HTMLTextAreaElement>('.title-fields textarea')].find(({ value }) => value === '')?.focus({ preventScroll: true });
}
