import type { RowsText } from '../../sheet/index.ts';

/** What the numbers of a table's text show of how they are written. */
export interface NumberMarks {
  /**
   * Whether single commas are decimal marks: where semicolons separate, and where tabs do if some number shows it (`380,5`)
   * and none has a point. Elsewhere `1,234` is asked about.
   */
  readonly decimalComma: boolean;
  /** Places of the columns in which some number has its digits grouped by points (`1.341.862`): `47.428` may be grouped there too. */
  readonly grouped: ReadonlySet<number>;
}

const POINT = /\d\.\d/;
/** A comma that can only be a decimal mark. */
const COMMA = /^\s*[+-]?(?:0,\d|\d+,(?:\d{1,2}|\d{4,})(?!\d|,))/;
const GROUPED = /^\s*[+-]?\d{1,3}(?:\.\d{3}){2,}(?!\d)/;

export function numberMarks({ separator, rows, shown }: RowsText): NumberMarks {
  const places = shown.flatMap(({ column, place }) => (place !== undefined && (column?.type === 'quantity' || column?.type === 'count') ? [place] : []));
  const isIn = (place: number, sign: RegExp): boolean => rows.some(({ fields }) => sign.test(fields[place] ?? ''));
  const some = (sign: RegExp): boolean => places.some((place) => isIn(place, sign));
  return {
    decimalComma: separator === ';' || (separator === '\t' && some(COMMA) && !some(POINT)),
    grouped: new Set(places.filter((place) => isIn(place, GROUPED))),
  };
}
