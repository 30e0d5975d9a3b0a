import { didYouMean, nearNames } from '../core/problem/index.ts';
import { HEAD_FORMS, wordSlip } from './asked-rules.ts';
import { keyProblem, placeProblem } from './body-problem.ts';
import type { BodyProblem } from './body-problem.ts';
import type { Slip } from './fields.ts';
import type { FrontMatterSegment } from './split.ts';
import { HELD, readHeld } from './held/read-held.ts';
import { HEAD } from './reference/head.ts';
import { groupOf } from './tree.ts';
import type { FrontMatter, HeldState } from './types.ts';
import { readBody } from './yaml-body.ts';

/** Words that an entry takes, where it takes certain words only. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  units: ['SI', 'US customary'],
  own_working: ['true', 'false'],
  own_texts: ['shown', 'hidden'],
  feedback: ['at once', 'at the end'],
  answer_unit: ['required', 'optional'],
  hints: ['all', 'listed', 'none'],
};

/** Longest front matter that is read, in characters: a dozen held states with their tables. */
export const LONGEST_FRONT_MATTER = 200_000;

/** Reads the front matter: every entry whose value is text, in order, as typed, and the held states. Others are kept in the source and told. */
export function readFrontMatter({ source, body }: FrontMatterSegment): FrontMatter {
  if (body === undefined) return { source, entries: new Map(), held: [], problems: [], warnings: [] };
  if (body.length > LONGEST_FRONT_MATTER) {
    const mend = `Keep it below ${LONGEST_FRONT_MATTER} characters.`;
    const tooLong = keyProblem('head-too-long', -1, 'The front matter is too long to be read.', mend);
    return { source, entries: new Map(), held: [], problems: [placeProblem(tooLong, 2)], warnings: [] };
  }
  const reading = readBody(body);
  const problems: BodyProblem[] = [...reading.problems];
  const warnings: BodyProblem[] = [];
  const entries = new Map<string, string>();
  let held: readonly HeldState[] = [];
  const group = groupOf(body, reading.entries, problems).entries;
  for (const [key, value] of group) {
    if (key === HELD) held = readHeld(value, problems);
    else if (value.kind === 'text') {
      entries.set(key, value.text);
      if (isLikeAnother(key, group)) warnings.push(otherNameProblem(key, value.row));
      const slip = value.text === '' ? undefined : slipOf(key, value.text);
      if (slip !== undefined) problems.push(keyProblem(slip.code, value.row, slip.what, slip.mend, key));
    } else problems.push(nestedProblem(key, value.row));
  }
  return { source, entries, held, problems: problems.map((problem) => placeProblem(problem, 2)), warnings: warnings.map((problem) => placeProblem(problem, 2)) };
}

/** An entry of another name goes into the form at the head. It is asked about where it looks like a slip of the keyboard for one that is not there. */
function isLikeAnother(key: string, group: ReadonlyMap<string, unknown>): boolean {
  return !Object.hasOwn(HEAD, key) && nearNames(key, Object.keys(HEAD)).some((name) => !group.has(name));
}

function otherNameProblem(key: string, row: number): BodyProblem {
  return keyProblem('entry-unknown', row, `“${key}” is an entry of your own here, shown in the form at the head.`, `${didYouMean(key, Object.keys(HEAD))}It is kept in the file as it is.`, key);
}

/** What is the matter with an entry that takes certain words, or a certain form, only. */
function slipOf(key: string, typed: string): ReturnType<Slip> | undefined {
  const words = Object.hasOwn(WORDS, key) ? WORDS[key] : undefined;
  if (words !== undefined) return words.includes(typed) ? undefined : wordSlip(key, words, typed);
  const form = Object.hasOwn(HEAD_FORMS, key) ? HEAD_FORMS[key] : undefined;
  return form === undefined || form.isRead(typed) ? undefined : form.slip(typed);
}

function nestedProblem(key: string, row: number): BodyProblem {
  const what = `\`${key}\` holds a list or a group, which is not understood here.`;
  return keyProblem('entry-not-understood', row, what, 'Write its value as text on one line; it is kept as it is.', key);
}
