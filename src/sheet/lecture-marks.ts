import type { Slip } from './fields.ts';
import type { SheetDocument } from './types.ts';

/* Entry of the front matter that chooses what a lecture tells: `l_1 at once; safety left out; Before anything turns left out`. */

export const LECTURE = 'lecture';
const MARKS = ['at once', 'left out'] as const;
/** `at once`: all lines of a cell with one press. `left out`: the lecture passes over the cell, or the section. */
export type LectureMark = (typeof MARKS)[number];

/** By ids of cells and headings of sections; undefined where an item says neither. */
export function readLectureMarks(typed: string): ReadonlyMap<string, LectureMark> | undefined {
  const marks = new Map<string, LectureMark>();
  for (const item of typed.split(';').map((one) => one.trim().replace(/\s+/gu, ' ')).filter((one) => one !== '')) {
    const mark = MARKS.find((one) => item.endsWith(` ${one}`));
    if (mark === undefined) return undefined;
    marks.set(item.slice(0, -mark.length - 1), mark);
  }
  return marks;
}

export const lectureSlip: Slip = (typed) => ({
  code: 'lecture-malformed',
  what: `“${typed}” does not say what a lecture is to do with each of these.`,
  mend: 'Behind each id of a cell, or heading of a section, write `at once` or `left out`, with semicolons between: `l_1 at once; Safety left out`.',
});

export function lectureMarks({ frontMatter }: SheetDocument): ReadonlyMap<string, LectureMark> {
  return readLectureMarks(frontMatter.entries.get(LECTURE) ?? '') ?? new Map();
}

/** The entry with one mark set or taken away; undefined where none is left. */
export function withLectureMark(document: SheetDocument, name: string, mark: LectureMark | undefined): string | undefined {
  const others = [...lectureMarks(document)].filter(([one]) => one !== name);
  const all = mark === undefined ? others : [...others, [name, mark] as const];
  return all.length === 0 ? undefined : all.map(([one, says]) => `${one} ${says}`).join('; ');
}
