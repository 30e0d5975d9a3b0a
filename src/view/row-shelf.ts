import type { Result } from '../core/problem/index.ts';
import type { EditCommand, TableCell } from '../sheet/index.ts';

/** Another sheet, with the tables of specimens in it. */
export interface SheetWithTables {
  readonly id: string;
  readonly title: string;
  /** What tells it apart from others of its title. */
  readonly detail: string;
  /** The team whose sheet it is; '' where it says none. */
  readonly team: string;
  readonly tables: readonly { readonly cell: TableCell; readonly label: string }[];
}

/** Where a finished specimen can be sent. Calls may reject where the browser refuses; whoever calls says so. */
export interface RowShelf {
  /** Sheets kept in this browser that have a table of specimens, the one that lies open left out, latest change first. */
  kept(): Promise<readonly SheetWithTables[]>;
  /**
   * Makes the edit that was planned for a table as it stood then; gives how to take it back, which says false where the
   * sheet was changed since. Problems: `row-sheet-gone`, `row-sheet-busy`, `row-table-changed`, those of the edit.
   */
  bring(sheetId: string, table: TableCell, command: EditCommand): Promise<Result<() => Promise<boolean>>>;
}
