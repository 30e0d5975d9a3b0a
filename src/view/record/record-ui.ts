import type { RowsIn } from '../../graph/index.ts';
import type { TableCell } from '../../sheet/index.ts';
import type { SheetWithTables } from '../row-shelf.ts';

/** What is open at a record and what was done there: how the page looks at it, no part of the document. */
export interface RecordUi {
  /** Sheets to send the row to, once they were asked for. */
  sheets: readonly SheetWithTables[] | undefined;
  /** The table that was chosen, and the row on its way there: nothing is sent yet. */
  sending: { readonly sheetId: string; readonly title: string; readonly cell: TableCell; readonly rows: RowsIn } | undefined;
  /** What was said last of sending the row. */
  said: string;
  /** Takes the row back that was sent last. */
  takeBack: (() => Promise<boolean>) | undefined;
  /** The reading that was noted from the strip at the foot of the window, by its stamp, while its blanks stand there. */
  noting: { readonly at: string; readonly what: 'reading' | 'note' } | undefined;
  /** Somebody is about to leave the machine running alone. */
  isLeaving: boolean;
}

export function createRecordUi(): RecordUi {
  return { sheets: undefined, sending: undefined, said: '', takeBack: undefined, noting: undefined, isLeaving: false };
}
