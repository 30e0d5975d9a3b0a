import type { SheetWithTables } from '../row-shelf.ts';

/** What is open at a record and what was done there: how the page looks at it, no part of the document. */
export interface RecordUi {
  /** Sheets to send the row to, once they were asked for. */
  sheets: readonly SheetWithTables[] | undefined;
  /** What was said last of sending the row. */
  said: string;
  /** Takes the row back that was sent last. */
  takeBack: (() => Promise<boolean>) | undefined;
}

export function createRecordUi(): RecordUi {
  return { sheets: undefined, said: '', takeBack: undefined };
}
