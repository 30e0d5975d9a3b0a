import type { Slip } from './fields.ts';
import type { SheetDocument } from './types.ts';

/* Entry of the front matter that chooses what a lecture tells: `l_1 at once; safety left out; N_f predicts d -1 %`. */

export const LECTURE = 'lecture';
const MARKS = ['at once', 'left out'] as const;
/** `at once`: all lines of a cell with one press. `left out`: the lecture passes over the cell, or the section. */
export type LectureMark = (typeof MARKS)[number];

/** What a class is asked once a result has been told: which way it goes where a symbol changes by a share of its value. */
export interface LecturePrediction {
  readonly symbol: string;
  readonly share: number;
}

type Item = { readonly name: string } & ({ readonly mark: LectureMark } | { readonly prediction: LecturePrediction; readonly typed: string });

const PREDICTS = /^(\S+) predicts (\S+) ([+\-\u2212]?)(\d{1,2}(?:[.,]\d+)?) ?%$/u;

function readItem(item: string): Item | undefined {
  const mark = MARKS.find((one) => item.endsWith(` ${one}`));
  if (mark !== undefined) return { name: item.slice(0, -mark.length - 1), mark };
  const [, name, symbol, sign, percent] = PREDICTS.exec(item) ?? [];
  if (name === undefined || symbol === undefined || percent === undefined) return undefined;
  const share = Number(percent.replace(',', '.')) / 100;
  return share === 0 ? undefined : { name, prediction: { symbol, share: sign === '' || sign === '+' ? share : -share }, typed: item };
}

/** By ids of cells and headings of sections; undefined where an item says none of what can be said. */
function readItems(typed: string): readonly Item[] | undefined {
  const items = typed.split(';').map((one) => one.trim().replace(/\s+/gu, ' ')).filter((one) => one !== '').map(readItem);
  const read = items.filter((item) => item !== undefined);
  return read.length < items.length ? undefined : read;
}

export function isLectureEntry(typed: string): boolean {
  return readItems(typed) !== undefined;
}

export const lectureSlip: Slip = (typed) => ({
  code: 'lecture-malformed',
  what: `“${typed}” does not say what a lecture is to do with each of these.`,
  mend: 'Behind each id of a cell, or heading of a section, write `at once`, `left out` or `predicts d -1 %`, with semicolons between: `l_1 at once; Safety left out`.',
});

function itemsOf({ frontMatter }: SheetDocument): readonly Item[] {
  return readItems(frontMatter.entries.get(LECTURE) ?? '') ?? [];
}

export function lectureMarks(document: SheetDocument): ReadonlyMap<string, LectureMark> {
  return new Map(itemsOf(document).flatMap((item) => ('mark' in item ? [[item.name, item.mark] as const] : [])));
}

export function lecturePredictions(document: SheetDocument): ReadonlyMap<string, LecturePrediction> {
  return new Map(itemsOf(document).flatMap((item) => ('mark' in item ? [] : [[item.name, item.prediction] as const])));
}

/** The entry with one mark set or taken away; undefined where none is left. */
export function withLectureMark(document: SheetDocument, name: string, mark: LectureMark | undefined): string | undefined {
  const others = itemsOf(document).filter((item) => !('mark' in item) || item.name !== name);
  const all: readonly Item[] = mark === undefined ? others : [...others, { name, mark }];
  return all.length === 0 ? undefined : all.map((item) => ('mark' in item ? `${item.name} ${item.mark}` : item.typed)).join('; ');
}
