import { problemSentence, type Problem } from '../core/problem/index.ts';
import { holdsSpecimens } from '../graph/index.ts';
import { poolInto, type Pool } from '../returns/index.ts';
import { applyEdit, cellsOf, parseSheet, serialiseSheet, type EditCommand, type SheetDocument, type TableCell } from '../sheet/index.ts';
import type { SheetSession } from '../view/index.ts';
import { titleOf } from './sheet-title.ts';
import { startingText } from './starts.ts';

/** A table of specimens, and the sheet that it stands in. */
interface OpenTable {
  readonly table: TableCell;
  readonly title: string;
}

/** Where the specimens of a class can be put. */
export interface PoolPlaces {
  /** A table whose columns are those of specimens, in the sheet that lies open. */
  readonly open: () => OpenTable | undefined;
  /** Makes an edit there; gives why it could not. */
  readonly applyToOpen: (command: EditCommand) => Problem | undefined;
  readonly openSheet: (text: string) => void;
}

export function poolPlaces(session: () => SheetSession | undefined, openSheet: (text: string) => void): PoolPlaces {
  return {
    open: () => {
      const document = session()?.document();
      const table = document === undefined ? undefined : specimensIn(document);
      return document === undefined || table === undefined ? undefined : { table, title: titleOf(document) };
    },
    applyToOpen: (command) => {
      const open = session();
      open?.settle();
      const result = open?.apply(command);
      open?.settle();
      return result?.ok === false ? result.problem : undefined;
    },
    openSheet,
  };
}

/** The first table of a sheet whose columns are those of specimens. */
function specimensIn(document: SheetDocument): TableCell | undefined {
  return cellsOf(document, 'table').find(holdsSpecimens);
}

/** Puts the specimens into a new S-N sheet or into the table of the sheet that lies open; gives what is to be said of it. */
export async function pooledWords(pool: Pool, where: 'new' | 'open', places: PoolPlaces): Promise<string> {
  const fresh = where === 'new' ? parseSheet(await startingText({ sheet: 'line', hasExample: false })) : undefined;
  const table = fresh === undefined ? places.open()?.table : specimensIn(fresh);
  if (table === undefined) return 'The sheet that lies open has no table of specimens.';
  const { questions, command, counts } = poolInto(pool, table);
  if (questions.length > 0) return 'Not all columns fit that table. Take the specimens away as CSV and bring them into the table, where each is asked about.';
  const kept = counts.same + counts.stay;
  const left = kept === 0 ? '' : kept === 1 ? ' One was there already and stays as it is.' : ` ${kept} were there already and stay as they are.`;
  if (command === undefined) return `No specimen was put in.${left}`;
  const refused = fresh === undefined ? places.applyToOpen(command) : openWith(fresh, command, places);
  return refused === undefined ? `${counts.added === 1 ? 'One specimen was' : `${counts.added} specimens were`} put in.${left}` : problemSentence(refused);
}

function openWith(fresh: SheetDocument, command: EditCommand, { openSheet }: PoolPlaces): Problem | undefined {
  const edited = applyEdit(fresh, command);
  if (!edited.ok) return edited.problem;
  openSheet(serialiseSheet(edited.value));
  return undefined;
}
