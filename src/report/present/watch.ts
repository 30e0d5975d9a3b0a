import { readRecord } from '../../graph/index.ts';
import { cellsOf } from '../../sheet/index.ts';
import type { RecordCell, SheetDocument } from '../../sheet/types.ts';
import { decimalText } from './number.ts';
import { presentTrials } from './trials.ts';
import type { PresentContext } from './types.ts';

/** Something that a reader has to know of wherever on the sheet they are, and the cell that it is about. */
export interface PresentedWatch {
  readonly cellId: string;
  readonly words: string;
}

/** The records of tests that have begun and not ended. */
export function runningTests(document: SheetDocument): readonly RecordCell[] {
  return cellsOf(document, 'record').filter((cell) => ['running', 'paused'].includes(readRecord(cell).phase));
}

/** Trial values, rows of a table that do not count since they can't be read, symbols that stand in several cells. */
export function presentWatch(context: PresentContext): readonly PresentedWatch[] {
  const { document, states } = context;
  const trials = presentTrials(context);
  const rows: PresentedWatch[] = [];
  const twice = new Map<string, PresentedWatch>();
  for (const block of document.blocks) {
    if (block.kind !== 'cell') continue;
    const { id: cellId, cell } = block;
    const state = states.cell(cellId);
    const leftOut = state?.table?.leftOut ?? 0;
    if (leftOut > 0) rows.push({ cellId, words: `${decimalText(String(leftOut), 0)} ${leftOut === 1 ? 'row' : 'rows'} left out of “${cell.label ?? cellId}”` });
    if (!state?.problems.some(({ code }) => code === 'symbol-twice')) continue;
    const name = 'symbol' in cell ? cell.symbol : (cell.label ?? cellId);
    if (!twice.has(name)) twice.set(name, { cellId, words: 'symbol' in cell ? `${name} stands in more than one cell` : `A symbol of “${name}” stands in another cell too` });
  }
  const trial = trials.slice(0, 1).map(({ cellId }) => ({ cellId, words: trials.length === 1 ? 'A trial value stands' : `${trials.length} trial values stand` }));
  return [...trial, ...rows, ...twice.values()];
}
