import type { Result } from '../core/problem/index.ts';

/** Another sheet, with the tables in it. */
export interface SheetWithTables {
  readonly id: string;
  readonly title: string;
  /** What tells it apart from others of its title. */
  readonly detail: string;
  readonly tables: readonly { readonly id: string; readonly label: string }[];
}

/** Where a finished specimen can be sent. Calls may reject where the browser refuses; whoever calls says so. */
export interface RowShelf {
  /** Sheets kept in this browser that have a table, the one that lies open left out, latest change first. */
  kept(): Promise<readonly SheetWithTables[]>;
  /** Adds the row at the end of a table; gives how to take it back, which says false where the sheet was changed since. */
  add(sheetId: string, tableId: string, row: ReadonlyMap<string, string>): Promise<Result<() => Promise<boolean>>>;
}
