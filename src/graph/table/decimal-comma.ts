import type { RowsText, RowStretch, ShownColumn } from '../../sheet/index.ts';

/**
 * Whether single commas in the numbers of a text are decimal marks: where semicolons separate, and where tabs do if some
 * number shows it (`380,5`) and none has a point. Elsewhere `1,234` is asked about.
 */
export function writesDecimalComma({ separator, stretches, shown }: RowsText): boolean {
  if (separator !== '\t') return separator === ';';
  const seen = stretches.map((stretch) => marksSeen(stretch, shown));
  return seen.some(({ comma }) => comma) && !seen.some(({ point }) => point);
}

/** Places of the columns in which some number has its digits grouped by points (`1.341.862`): `47.428` may be grouped there too. */
export function groupedByPoints({ stretches, shown }: RowsText): ReadonlySet<number> {
  return new Set(stretches.flatMap((stretch) => marksSeen(stretch, shown).grouped));
}

interface MarksSeen {
  readonly shown: readonly ShownColumn[];
  readonly point: boolean;
  readonly comma: boolean;
  readonly grouped: readonly number[];
}

const known = new WeakMap<RowStretch, MarksSeen>();

/** Whether numbers of a stretch have a decimal point, and whether some have a comma that can only be a decimal mark. */
function marksSeen(stretch: RowStretch, shown: readonly ShownColumn[]): MarksSeen {
  const before = known.get(stretch);
  if (before?.shown === shown) return before;
  const places = shown.flatMap(({ column, place }) =>
    place !== undefined && (column?.type === 'quantity' || column?.type === 'count') ? [place] : [],
  );
  const has = (sign: RegExp): boolean => stretch.records.some(({ fields }) => places.some((place) => sign.test(fields[place] ?? '')));
  const grouped = places.filter((place) => stretch.records.some(({ fields }) => /^\s*[+-]?\d{1,3}(?:\.\d{3}){2,}(?!\d)/.test(fields[place] ?? '')));
  const seen = { shown, point: has(/\d\.\d/), comma: has(/^\s*[+-]?(?:0,\d|\d+,(?:\d{1,2}|\d{4,})(?!\d|,))/), grouped };
  known.set(stretch, seen);
  return seen;
}
