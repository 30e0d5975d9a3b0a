import { fieldsOfRow, rowsText } from '../../sheet/index.ts';
import type { RowsInProposal } from './types.ts';

/**
 * Whether a block can go into a table with nothing said: it has no head, all its fields have a column, none takes the place
 * of another text, and every one is read as it stands.
 */
export function fitsAsItIs({ cell, columns, hasHead, how, command, between, isAsTyped }: RowsInProposal): boolean {
  if (hasHead || how !== 'here' || command?.do !== 'bring rows' || !isAsTyped || (between !== '\t' && columns.length > 1)) return false;
  const isPlain = columns.every(({ target, mark, unit }) =>
    target.startsWith('as ') && (mark === undefined || mark.ambiguous === undefined) && (unit === undefined || unit.by === 'table' || unit.by === 'fields'));
  const text = rowsText(cell);
  const isFree = command.set.every(({ row, fields }) => fields.every((field, i) => {
    const place = text.shown.find(({ name }) => name === command.columns[i])?.place;
    const before = place === undefined ? '' : (fieldsOfRow(text, row)[place] ?? '').trim();
    return before === '' || before === field;
  }));
  return isPlain && isFree;
}
