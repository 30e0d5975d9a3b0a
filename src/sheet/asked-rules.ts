import * as v from 'valibot';
import type { Feedback, Hints, OwnResult, Tolerance } from './asked-types.ts';
import type { Slip } from './fields.ts';
import { isLectureEntry, LECTURE, lectureSlip } from './lecture-marks.ts';
import type { SheetDocument, StepCell } from './types.ts';

/* What the head of a sheet, and a step for itself, say of results that the reader is asked for. */

export interface AskedRules {
  /** Undefined: as far as the result's own uncertainty reaches. */
  readonly tolerance?: Tolerance;
  /** Wrong entries before the sheet's result shows. */
  readonly tries: number;
  readonly isUnitRequired: boolean;
  readonly feedback: Feedback;
  readonly hints: Hints;
}

const USUAL_TRIES = 3;
const MOST_TRIES = 99;
const MOST_FIGURES = 12;

const NUMBER = String.raw`(\d+(?:[.,]\d+)?)`;
const FORMS: readonly (readonly [RegExp, (number: number) => Tolerance | undefined])[] = [
  [new RegExp(`^${NUMBER} ?%$`, 'u'), (percent) => (percent > 0 && percent <= 50 ? { kind: 'share', share: percent / 100 } : undefined)],
  [/^(\d+) (?:significant )?figures?$/u, (figures) => (figures >= 1 && figures <= MOST_FIGURES ? { kind: 'figures', figures } : undefined)],
  [new RegExp(`^${NUMBER} ?u$`, 'u'), (times) => (times > 0 && times <= 10 ? { kind: 'uncertainties', times } : undefined)],
  [new RegExp(`^factor ${NUMBER}$`, 'u'), (factor) => (factor > 1 && factor <= 10 ? { kind: 'factor', factor } : undefined)],
];

/** `1 %`, `3 figures`, `2 u`, `factor 1.2`, each with `within` before it or not; undefined for anything else. */
function readTolerance(typed: string): Tolerance | undefined {
  const text = typed.trim().replace(/^within\s+(?:a\s+)?/u, '').replace(/\s+/gu, ' ');
  for (const [form, tolerance] of FORMS) {
    const number = form.exec(text)?.[1];
    if (number !== undefined) return tolerance(Number(number.replace(',', '.')));
  }
  return undefined;
}

function readTries(typed: string): number | undefined {
  const tries = /^\d{1,2}$/u.test(typed.trim()) ? Number(typed) : 0;
  return tries >= 1 && tries <= MOST_TRIES ? tries : undefined;
}

/** A form that a reader of text gives, for `fields.formed`. */
function formOf<T>(read: (typed: string) => T | undefined): v.GenericSchema<string, T> {
  return v.pipe(v.string(), v.rawTransform(({ dataset, addIssue, NEVER }) => {
    const found = read(dataset.value);
    if (found !== undefined) return found;
    addIssue({ message: 'not of this form' });
    return NEVER;
  })) as v.GenericSchema<string, T>;
}

export const TOLERANCE = formOf(readTolerance);
export const TRIES = formOf(readTries);
export const ANSWER_UNIT = v.picklist(['required', 'optional']);
export const HINTS = v.picklist(['all', 'listed', 'none']);

export const toleranceSlip: Slip = (typed) => ({
  code: 'tolerance-malformed',
  what: `“${typed}” is no tolerance.`,
  mend: 'Write `1 %` (up to 50 %), `3 figures`, `2 u` (standard uncertainties of the result) or `factor 1.2`.',
});
export const triesSlip: Slip = (typed) => ({ code: 'tries-malformed', what: `“${typed}” is no number of tries.`, mend: `Write a whole number from 1 to ${MOST_TRIES}.` });
export const answerUnitSlip: Slip = (typed) => wordSlip('answer_unit', ['required', 'optional'], typed);
export const hintsSlip: Slip = (typed) => wordSlip('hints', ['all', 'listed', 'none'], typed);

/** What is the matter with a word that is none of those that a key takes. */
export function wordSlip(key: string, words: readonly string[], typed: string): ReturnType<Slip> {
  return { code: 'word-unknown', what: `\`${key}\` is ${words.join(' or ')}, not \`${typed}\`.`, mend: `Write ${words.map((word) => `\`${key}: ${word}\``).join(' or ')}.` };
}

/** Forms of entries of the front matter that are more than certain words. */
export const HEAD_FORMS: Readonly<Record<string, { readonly isRead: (typed: string) => boolean; readonly slip: Slip }>> = {
  tolerance: { isRead: (typed) => readTolerance(typed) !== undefined, slip: toleranceSlip },
  tries: { isRead: (typed) => readTries(typed) !== undefined, slip: triesSlip },
  [LECTURE]: { isRead: (typed) => isLectureEntry(typed), slip: lectureSlip },
};

/** Whether the sheet asks for every step not marked `asked: false`. */
export function isOwnWorking({ frontMatter }: SheetDocument): boolean {
  return /^(true|yes|on)$/i.test(frontMatter.entries.get('own_working')?.trim() ?? '');
}

/** Whether the reader is asked for a step's result. */
export function asksForStep(step: StepCell, document: SheetDocument): boolean {
  return step.asked ?? isOwnWorking(document);
}

/** When the reader handed in, as the sheet noted it; undefined until then. */
export function handedIn({ frontMatter }: SheetDocument): string | undefined {
  const time = frontMatter.entries.get('handed_in')?.trim() ?? '';
  return time === '' ? undefined : time;
}

/** What holds for a step: what it says itself, else what the head says, else what is usual. What can't be read there is told there and counts as not said. */
export function askedRules(step: OwnResult, { frontMatter: { entries } }: SheetDocument): AskedRules {
  const head = (key: string): string => entries.get(key)?.trim() ?? '';
  const tolerance = step.tolerance ?? readTolerance(head('tolerance'));
  const hints = v.safeParse(HINTS, head('hints'));
  return {
    ...(tolerance === undefined ? {} : { tolerance }),
    tries: step.tries ?? readTries(head('tries')) ?? USUAL_TRIES,
    isUnitRequired: (step.answerUnit ?? head('answer_unit')) === 'required',
    feedback: head('feedback') === 'at the end' ? 'at the end' : 'at once',
    hints: step.hints ?? (hints.success ? hints.output : 'all'),
  };
}

const BETWEEN_TRIES = ';';

/** Wrong entries of before, the oldest first. */
export function earlierTries({ tried }: OwnResult): readonly string[] {
  return (tried ?? '').split(BETWEEN_TRIES).map((typed) => typed.trim()).filter((typed) => typed !== '');
}

export function triesText(tries: readonly string[]): string | undefined {
  return tries.length === 0 ? undefined : tries.join(`${BETWEEN_TRIES} `);
}
