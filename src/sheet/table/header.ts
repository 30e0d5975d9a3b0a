import type { TableColumn } from '../types.ts';
import { columnMeaning } from './column-names.ts';

/** A field of a header: the name, and the unit behind it in brackets or after a slash, as ISO 80000-1 writes it. */
export interface HeaderField {
  readonly typed: string;
  /** The key of the column it names; undefined where it names none. */
  readonly key: string | undefined;
  /** '' where none is written. */
  readonly unit: string;
  /** Why a field that is understood has no key: an earlier one names the same column, or the column is computed here. */
  readonly ignored?: 'again' | 'derived';
  /** Whether it names the column by another name than the table has for it. */
  readonly isOther?: true;
}

const WITH_UNIT: readonly RegExp[] = [
  /^(.*?\S)\s*\[([^[\]]*)\]$/,
  /^([^/]*[^/\s])\s*\/\s*(?:\((.*)\)|(.*[^)\s].*))$/,
  /^(.*?\S)\s*\(([^()]*)\)$/,
  // Without a sign between them only before units of stress and of cycles, since `S_m` is no stress in metres.
  /^(.*?[^\s,])(?:\s*,\s*|[\s_]+(?:in\s+)?)((?:[MGk]?Pa|ksi|psi|k?N\/mm(?:²|\^?2)|cycles|Zyklen|ciclos)(?![\s\S]))/,
];

/**
 * Which columns a header names, field by field: by key or by label, else by either in other capitals where that is
 * clear, else by another usual name of a column that no field names so.
 */
export function readHeader(fields: readonly string[], columns: readonly TableColumn[]): readonly HeaderField[] {
  const typed = fields.map((field) => field.trim());
  const own = typed.map((name) => named(name, (part) => columnCalled(part, columns)));
  const open = columns.filter((column) => column.type !== 'derived' && own.every((found) => found.column !== column));
  const taken = new Set<string>();
  return typed.map((name, i): HeaderField => {
    const other = own[i]?.column === undefined ? named(name, (part) => columnMeant(part, open)) : undefined;
    const { column, unit } = other?.column === undefined ? (own[i] ?? { unit: '' }) : other;
    if (column === undefined) return { typed: name, key: undefined, unit: '' };
    if (column.type === 'derived') return { typed: name, key: undefined, unit: '', ignored: 'derived' };
    if (taken.has(column.key)) return { typed: name, key: undefined, unit, ignored: 'again' };
    taken.add(column.key);
    return { typed: name, key: column.key, unit, ...(other?.column === undefined ? {} : { isOther: true }) };
  });
}

/** What a header calls a column that it does not have yet. */
export function headerName({ key, unit }: TableColumn): string {
  return unit === '' || unit === '1' ? key : `${key} [${unit}]`;
}

type Finder = (name: string) => TableColumn | undefined;

function named(typed: string, find: Finder): { column?: TableColumn; unit: string } {
  const whole = find(typed);
  if (whole !== undefined) return { column: whole, unit: '' };
  for (const form of WITH_UNIT) {
    const [, name = '', first, second] = form.exec(typed.length > 300 ? '' : typed) ?? [];
    const column = find(name);
    if (column !== undefined) return { column, unit: (first ?? second ?? '').trim() };
  }
  return { unit: '' };
}

/** The column that has the same meaning as a name, by its key or else by its label. */
function columnMeant(name: string, open: readonly TableColumn[]): TableColumn | undefined {
  const meant = columnMeaning(name);
  if (meant === undefined) return undefined;
  return open.find(({ key }) => key === meant) ?? open.find(({ key, label }) => columnMeaning(key) === meant || columnMeaning(label) === meant);
}

function columnCalled(name: string, columns: readonly TableColumn[]): TableColumn | undefined {
  if (name === '') return undefined;
  const exact = columns.find(({ key }) => key === name) ?? columns.find(({ label }) => label === name);
  if (exact !== undefined) return exact;
  const lower = name.toLowerCase();
  const near = columns.filter(({ key, label }) => key.toLowerCase() === lower || label.toLowerCase() === lower);
  return near.length === 1 ? near[0] : undefined;
}
