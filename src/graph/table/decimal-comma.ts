import type { RowsText } from '../../sheet/index.ts';

/**
 * Whether single commas in the numbers of a text are decimal marks: where semicolons separate, and where tabs do if some
 * number shows it (`380,5`) and none has a point. Elsewhere `1,234` is asked about.
 */
export function writesDecimalComma({ delimited: { separator, records }, shown }: RowsText): boolean {
  if (separator !== '\t') return separator === ';';
  const places = shown.flatMap(({ column, place }) =>
    place !== undefined && (column?.type === 'quantity' || column?.type === 'count') ? [place] : [],
  );
  let found = false;
  for (const { fields } of records.slice(1)) {
    for (const place of places) {
      const field = fields[place] ?? '';
      if (/\d\.\d/.test(field)) return false;
      found ||= /^\s*[+-]?(?:0,\d|\d+,(?:\d{1,2}|\d{4,})(?!\d|,))/.test(field);
    }
  }
  return found;
}
