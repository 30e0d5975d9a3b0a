import * as v from 'valibot';

/** What was being typed and had not been entered yet when the sheet was last kept: it belongs to no cell of the document so far. */
export interface Draft {
  /** Block whose field it is. */
  readonly cell: string;
  /** Which of the block's fields, counted from its start. */
  readonly field: number;
  /** The field as a person would call it. */
  readonly name: string;
  readonly text: string;
}

/** A sheet kept in this browser. */
export interface KeptSheet {
  readonly id: string;
  readonly title: string;
  /** Team, specimen and date as far as they are filled in: tells sheets of one title apart. */
  readonly detail: string;
  readonly text: string;
  /** ISO 8601 time of the last change, for people; no order hangs on it, since clocks are set wrong. */
  readonly changed: string;
  /** Counts the savings, so that a window notices when another one saved the same sheet. It never begins anew. */
  readonly revision: number;
  /** Branched off because another window had changed the same sheet, or made as a copy by the reader. */
  readonly isCopy: boolean;
  /** Counts the savings of all sheets: the highest was changed last. Pages from before it was counted wrote none. */
  readonly order?: number | undefined;
  /** Id of the sheet in the file that this one came from. */
  readonly origin?: string | undefined;
  readonly draft?: Draft | undefined;
}

/** Counted from 0. */
export const count = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(Number.MAX_SAFE_INTEGER));
const short = v.pipe(v.string(), v.maxLength(1000));
/** A sheet's text is at most 50 million characters, which is what a file may hold. */
export const long = v.pipe(v.string(), v.maxLength(50_000_000));
const time = v.pipe(v.string(), v.check((text) => Number.isFinite(Date.parse(text))));

export const sheetId = v.pipe(v.string(), v.regex(/^[0-9a-z-]{1,64}$/i));

const schema = v.object({
  id: sheetId,
  title: short,
  detail: short,
  text: long,
  changed: time,
  revision: count,
  isCopy: v.boolean(),
  order: v.optional(count),
  origin: v.optional(short),
  draft: v.optional(v.object({ cell: short, field: count, name: short, text: v.pipe(v.string(), v.maxLength(200_000)) })),
});

/** Whatever stands in the browser's storage as a sheet; undefined where it is none: others write there too, and storage is damaged. */
export function readKeptSheet(value: unknown): KeptSheet | undefined {
  const read = v.safeParse(schema, value);
  return read.success ? read.output : undefined;
}

/** The sheets as somebody sees them in a list: in the order in which they stood there, so that none changes places under the finger. New ones come last. */
export function inOrderSeen(sheets: readonly KeptSheet[], seen: readonly KeptSheet[]): readonly KeptSheet[] {
  const place = new Map(seen.map(({ id }, index) => [id, index]));
  return sheets.toSorted((a, b) => (place.get(a.id) ?? seen.length) - (place.get(b.id) ?? seen.length));
}

/** Changed last comes first: by the count of savings, and among sheets from before it, by their time. */
export function newestFirst(a: KeptSheet, b: KeptSheet): number {
  return (b.order ?? 0) - (a.order ?? 0) || b.changed.localeCompare(a.changed);
}
