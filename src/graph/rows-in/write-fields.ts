import { ONE, parseUnit } from '../../core/units/index.ts';
import { rowsText, type RowsText, type TableCell } from '../../sheet/index.ts';
import { columnOf, isNumbers, ownName, tableUnit } from './columns-in.ts';
import { numberParts, plainDigits } from './number-marks.ts';
import type { ColumnIn, DecimalMark } from './types.ts';

/** Names of the columns that the text fills, in its order, and how a field of each is written for the table. */
interface FieldWriter {
  readonly place: number;
  readonly name: string;
  /** Undefined where the field does not fit how its column is read. */
  readonly write: (field: string) => string | undefined;
}

/** @param keepsUnits whether the head will say the text's units, so that bare numbers stay bare */
export function fieldWriters(columns: readonly ColumnIn[], cell: TableCell, keepsUnits: boolean, decimal: DecimalMark): readonly FieldWriter[] {
  const text = rowsText(cell);
  return columns.flatMap((column): FieldWriter[] => {
    const { target, place } = column;
    if (target === 'out') return [];
    const into = columnOf(target, cell);
    const called = target === 'own' ? ownName(column, cell) : target.slice(3);
    if (isNumbers(into)) return [{ place, name: called, write: numberWriter(column, cell, text, keepsUnits, decimal) }];
    const words = new Map(column.words?.flatMap(({ word, meaning, by }): [string, string][] => (by === 'reader' && meaning !== undefined ? [[word, meaning]] : [])));
    return [{ place, name: called, write: (field) => words.get(field) ?? field }];
  });
}

function numberWriter({ target, unit, mark }: ColumnIn, cell: TableCell, text: RowsText, keepsUnits: boolean, decimal: DecimalMark): FieldWriter['write'] {
  const into = columnOf(target, cell);
  const behind = into === undefined || unit?.unit === undefined ? '' : unitBehind(unit.unit, tableUnit(into, text), keepsUnits && into.type === 'quantity');
  const reads = mark?.mark ?? 'point';
  return (field) => {
    const parts = numberParts(field);
    if (parts === undefined) return field;
    const digits = plainDigits(parts, reads);
    if (digits === undefined) return plainDigits(parts, reads === 'point' ? 'comma' : 'point') === undefined ? field : undefined;
    const rest = parts.rest.trim();
    if (behind.startsWith('e') && parts.power !== '') return undefined;
    const number = `${parts.sign}${decimal === 'comma' ? digits.replace('.', ',') : digits}${parts.power}`;
    return rest === '' ? `${number}${behind}` : `${number} ${rest}`;
  };
}

/** What a bare number needs behind it, so that the table reads it in the text's unit. */
function unitBehind(unit: string, tableUnitName: string, isInHead: boolean): string {
  if (/^e\d$/.test(unit)) return unit;
  if (isInHead || unit === tableUnitName) return '';
  const [stated, own] = [parseUnit(unit), parseUnit(tableUnitName)].map((read) => (read.ok ? read.value : ONE));
  return stated?.name === own?.name ? '' : ` ${unit}`;
}
