import type { TableColumn } from '../types.ts';

/** A field of a header: the name, and the unit behind it in brackets or after a slash, as ISO 80000-1 writes it. */
export interface HeaderField {
  readonly typed: string;
  /** The key of the column it names; undefined where it names none. */
  readonly key: string | undefined;
  /** '' where none is written. */
  readonly unit: string;
  /** Why a field that is understood has no key: an earlier one names the same column, or the column is computed here. */
  readonly ignored?: 'again' | 'derived';
}

const WITH_UNIT: readonly RegExp[] = [
  /^(.*?\S)\s*\[([^[\]]*)\]$/,
  /^([^/]*[^/\s])\s*\/\s*(?:\((.*)\)|(.*[^)\s].*))$/,
  /^(.*?\S)\s*\(([^()]*)\)$/,
];

/**
 * Which columns a header names, field by field: by key or by label, else by either in other capitals where that is
 * clear.
 */
export function readHeader(fields: readonly string[], columns: readonly TableColumn[]): readonly HeaderField[] {
  const taken = new Set<string>();
  return fields.map((field) => {
    const typed = field.trim();
    const { column, unit } = named(typed, columns);
    if (column === undefined) return { typed, key: undefined, unit: '' };
    if (column.type === 'derived') return { typed, key: undefined, unit: '', ignored: 'derived' };
    if (taken.has(column.key)) return { typed, key: undefined, unit, ignored: 'again' };
    taken.add(column.key);
    return { typed, key: column.key, unit };
  });
}

/** What a header calls a column that it does not have yet. */
export function headerName({ key, unit }: TableColumn): string {
  return unit === '' || unit === '1' ? key : `${key} [${unit}]`;
}

function named(typed: string, columns: readonly TableColumn[]): { column?: TableColumn; unit: string } {
  const whole = columnCalled(typed, columns);
  if (whole !== undefined) return { column: whole, unit: '' };
  for (const form of WITH_UNIT) {
    const [, name = '', first, second] = form.exec(typed.length > 300 ? '' : typed) ?? [];
    const column = columnCalled(name, columns);
    if (column !== undefined) return { column, unit: (first ?? second ?? '').trim() };
  }
  return { unit: '' };
}

function columnCalled(name: string, columns: readonly TableColumn[]): TableColumn | undefined {
  if (name === '') return undefined;
  const exact = columns.find(({ key }) => key === name) ?? columns.find(({ label }) => label === name);
  if (exact !== undefined) return exact;
  const lower = name.toLowerCase();
  const near = columns.filter(({ key, label }) => key.toLowerCase() === lower || label.toLowerCase() === lower);
  return near.length === 1 ? near[0] : undefined;
}
