import { readFileSync } from 'node:fs';
import { problemSentence, type Result } from '../core/problem/index.ts';
import { acceptText, applyEdit, cellsOf, enterText, parseSheet, switchSlip, withExample, type SheetDocument } from '../sheet/index.ts';
import { UsageError, type Options } from './options.ts';

/** The worksheet of the file with an example's entries, rows, values and slips as asked for. */
export function openSheet({ file, with: example, set, rows, slip }: Options): SheetDocument {
  const text = acceptText(contentOf(file));
  if (!text.ok) throw new UsageError(problemSentence(text.problem));
  let document = parseSheet(text.value);
  const take = (edited: Result<SheetDocument>): void => {
    if (!edited.ok) throw new UsageError(problemSentence(edited.problem));
    document = edited.value;
  };
  if (example !== undefined) take(withExample(document, contentOf(example)));
  for (const assignment of rows) {
    const [table, source] = partsOf(assignment, '--rows takes TABLE=FILE.csv');
    const known = cellsOf(document, 'table').map(({ id }) => id);
    if (!known.includes(table)) {
      throw new UsageError(`This sheet has no table called ${table}.${known.length > 0 ? ` It has: ${known.join(', ')}.` : ''}`);
    }
    const csv = acceptText(contentOf(source));
    if (!csv.ok) throw new UsageError(problemSentence(csv.problem));
    take(applyEdit(document, { do: 'replace rows', cellId: table, text: csv.value }));
  }
  // After the rows, since a choice may name a group that only they have.
  for (const assignment of set) {
    const [target, value] = partsOf(assignment, '--set takes SYMBOL=VALUE');
    take(enterText(document, target, value.trim()));
  }
  for (const id of slip) take(applyEdit(document, switchSlip(document, id, true)));
  return document;
}

function partsOf(assignment: string, usage: string): readonly [string, string] {
  const [, target, value] = /^\s*([^=]+?)\s*=(.*)$/s.exec(assignment) ?? [];
  if (target === undefined || value === undefined) throw new UsageError(`${usage}, not “${assignment}”.`);
  return [target, value];
}

/** The text of a file. @throws UsageError where there is none */
export function contentOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    const reason = code === 'ENOENT' ? 'There is no such file' : code === 'EISDIR' ? 'That is a folder' : 'It cannot be read';
    throw new UsageError(`${reason}: ${file}`);
  }
}
