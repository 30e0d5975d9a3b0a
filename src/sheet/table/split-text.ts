import { columnMeaning } from './column-names.ts';
import { readDelimited, separatorOf, type Separator } from './delimited.ts';

/** What stands between the columns of a text that comes from elsewhere. */
export type Between = Separator | 'blanks';

export const BETWEEN: readonly Between[] = ['\t', ';', ',', '|', 'blanks'];

/** A text from elsewhere as lines of fields, before anything is said of their meaning; lines of blanks are none. */
export interface SplitText {
  readonly between: Between;
  readonly lines: readonly (readonly string[])[];
}

/** Lines by which what stands between columns is told. */
const LOOKED_AT = 60;

/** A text split by what is said to stand between its columns, or else by what lets its lines agree in their number of fields. */
export function splitText(text: string, between: Between = guess(text)): SplitText {
  const lines = split(text, between).filter((fields) => fields.some((field) => field.trim() !== ''));
  return { between, lines: withHeadLikeRows(lines) };
}

function guess(text: string): Between {
  const excerpt = text.split('\n').filter((line) => line.trim() !== '').slice(0, LOOKED_AT).join('\n');
  const tried = BETWEEN.map((between) => {
    const widths = split(excerpt, between).map(({ length }) => length);
    const usual = usualOf(widths);
    const agreeing = widths.filter((width) => width === usual).length / Math.max(1, widths.length);
    return { between, usual, agreeing: agreeing + (widths[0] === usual ? 1 : 0) };
  });
  const usable = tried.filter(({ between, usual }) => usual > 1 && !(between === ',' && isDecimalComma(excerpt, tried)));
  // Blanks stand in the words of any text: they count only where nothing else does.
  const signs = usable.filter(({ between }) => between !== 'blanks');
  const best = (ones: typeof usable): (typeof usable)[number] | undefined => ones.toSorted((a, b) => b.agreeing - a.agreeing)[0];
  const sign = best(signs);
  const blanks = best(usable.filter(({ between }) => between === 'blanks'));
  if (sign !== undefined && (blanks === undefined || sign.agreeing >= blanks.agreeing || sign.agreeing > 1)) return sign.between;
  return blanks?.between ?? sign?.between ?? separatorOf(text);
}

/** Whether every comma stands between two digits while blanks part more columns: it is then a decimal mark. */
function isDecimalComma(excerpt: string, tried: readonly { readonly between: Between; readonly usual: number; readonly agreeing: number }[]): boolean {
  const blanks = tried.find(({ between }) => between === 'blanks');
  const commas = tried.find(({ between }) => between === ',');
  return blanks !== undefined && commas !== undefined && blanks.usual > commas.usual && blanks.agreeing >= commas.agreeing && !/(?:^|\D),|,(?:\D|$)/m.test(excerpt);
}

/** The commonest number of fields, the larger one where two are as common. */
function usualOf(widths: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const width of widths) counts.set(width, (counts.get(width) ?? 0) + 1);
  return [...counts].toSorted((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0;
}

function split(text: string, between: Between): readonly (readonly string[])[] {
  if (between !== 'blanks') return readDelimited(text, between).records.map(({ fields }) => fields.map((field) => field.trim()));
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  const wide = lines.map((line) => line.trim().split(/\t+| {2,}/));
  const isWide = (wide[0]?.length ?? 0) > 1 && wide.every(({ length }) => length === wide[0]?.length);
  return isWide ? wide : lines.map(wordsOf);
}

/** A head of one field over rows of several was typed with blanks between its words. */
function withHeadLikeRows(lines: readonly (readonly string[])[]): readonly (readonly string[])[] {
  const [head, ...rows] = lines;
  const usual = usualOf(rows.map(({ length }) => length));
  if (head?.length !== 1 || usual < 2) return lines;
  const words = wordsOf(head[0] ?? '');
  const named = words.filter((word) => columnMeaning(word.replace(/\s*[[(/].*$/, '')) !== undefined).length;
  return words.length === usual && named > 1 ? [words, ...rows] : lines;
}

/** Stands for a blank that parts no columns while a line is split. */
const INNER = '\ue000';
/** Words for an outcome that are two or three, in the languages that are understood. */
const OUTCOMES_OF_WORDS =
  /\b(?:run|ran) out\b|\b(?:not|nicht|no|non) (?:broken|failed|valid|gebrochen|rota|roto|rompue?|cassee?|cassée?|failure)\b|\b(?:kein|ohne) bruch\b|\bsin (?:rotura|fallo)\b|\bsans rupture\b/gi;

function wordsOf(line: string): readonly string[] {
  const joined = line.trim()
    .replace(/[ \t]+(?=[[(])/g, INNER)
    .replace(/[[(][^\])]*[\])]/g, (unit) => unit.replace(/[ \t]+/g, INNER))
    .replace(/[ \t]+\/[ \t]+/g, `${INNER}/${INNER}`)
    .replace(OUTCOMES_OF_WORDS, (words) => words.replaceAll(' ', INNER));
  const words = joined.match(/"(?:[^"]|"")*"|[^ \t]+/g) ?? [];
  return words.map((word) => (word.length > 1 && word.startsWith('"') && word.endsWith('"') ? word.slice(1, -1).replaceAll('""', '"') : word).replaceAll(INNER, ' '));
}
