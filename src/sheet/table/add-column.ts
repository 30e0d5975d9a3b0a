import { isMap, isSeq } from 'yaml';
import { checkSymbolName } from '../../core/formula/index.ts';
import { fail, ok } from '../../core/problem/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { applyCuts, entryEnd, newEntry } from '../body-edit.ts';
import { lineStart } from '../text-lines.ts';
import { plainGroup, readsAs } from '../reads-as.ts';
import { unsafeProblem } from '../set-entry.ts';
import type { TableCell } from '../types.ts';
import { readBody } from '../yaml-body.ts';
import * as problems from './row-problems.ts';

/**
 * The body of a table with one more column, computed by a formula for each row; it stands last among the columns.
 * Problems: `column-there`, `column-formula-empty`, `edit-unsafe`, those of a symbol's name.
 */
export function addColumn(body: string, cell: TableCell, key: string, formula: string, lineEnd: string): Result<string> {
  const name = checkSymbolName(key);
  if (!name.ok) return fail({ ...name.problem, key: 'columns' });
  if (cell.columns.some((column) => column.key === key)) return fail(problems.columnThere(key));
  if (formula.trim() === '') return fail(problems.formulaEmpty(key));
  const reading = readBody(body);
  const entry = reading.entries.find((candidate) => candidate.key === 'columns');
  const node = entry?.node;
  const [first] = isSeq(node) ? node.items : [];
  if (entry === undefined || !isSeq(node) || node.flow === true || !isMap(first) || !first.range) return fail(unsafeProblem('columns'));
  const start = lineStart(body, first.range[0]);
  const column = first.range[0] - start;
  const dash = body.slice(start, first.range[0]).indexOf('-');
  const lines = [newEntry('key', key, column, lineEnd), newEntry('type', 'derived', column, lineEnd), newEntry('formula', formula, column, lineEnd)].join('');
  const at = entryEnd(body, entry);
  const changed = applyCuts(body, [{ start: at, end: at, text: `${' '.repeat(Math.max(0, dash))}-${lines.slice(dash + 1)}` }]);
  const expected = plainGroup(body, reading);
  const columns = expected.get('columns');
  if (!Array.isArray(columns)) return fail(unsafeProblem('columns'));
  expected.set('columns', [...columns, new Map([['key', key], ['type', 'derived'], ['formula', formula]])]);
  return readsAs(changed, expected, 'columns') ? ok(changed) : fail(unsafeProblem('columns'));
}
