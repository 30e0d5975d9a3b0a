import { columnMeaning, type TableCell } from '../../sheet/index.ts';

/** Whether the rows of a table are specimens: each with a name, the stress at which it was tested, its life and what became of it. */
export function holdsSpecimens({ columns }: TableCell): boolean {
  const typed = columns.filter(({ type }) => type !== 'derived');
  return ['specimen', 'S', 'N', 'outcome'].every((meaning) =>
    typed.some(({ key, label }) => columnMeaning(key) === meaning || columnMeaning(label) === meaning));
}
