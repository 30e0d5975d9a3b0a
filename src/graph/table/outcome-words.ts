import { nearNames } from '../../core/problem/index.ts';

/** Other words for what became of a specimen, as laboratories write them (common practice, no published source). */
const OUTCOME_WORDS: Readonly<Record<string, readonly string[]>> = {
  fracture: ['fractured', 'failure', 'failed', 'fail', 'broken', 'broke', 'break', 'cracked'],
  runout: ['run-out', 'run out', 'ran out', 'survived', 'unbroken', 'not broken', 'no failure'],
  suspended: ['suspension', 'censored', 'right-censored', 'stopped', 'stopped early', 'interrupted'],
  invalid: ['void', 'not valid', 'discarded', 'rejected'],
};

const meanings = new Map(
  Object.entries(OUTCOME_WORDS).flatMap(([outcome, words]) => words.map((word): [string, string] => [word, outcome])),
);

/** The option that a text nearly writes, itself or another word for it: a slip is asked about, not taken for granted. */
export function optionNear(typed: string, options: readonly string[]): string | undefined {
  const [near] = nearNames(typed.toLowerCase().replace(/\s+/g, ' '), [...options, ...meanings.keys()]);
  return near === undefined ? undefined : optionMeant(near, options);
}

/** The option that a text means: itself in any capitals, or another word for one of the options. */
export function optionMeant(typed: string, options: readonly string[]): string | undefined {
  if (options.includes(typed)) return typed;
  const lower = typed.toLowerCase().replace(/\s+/g, ' ');
  const same = options.find((option) => option.toLowerCase() === lower);
  if (same !== undefined) return same;
  const meant = meanings.get(lower);
  return meant !== undefined && options.includes(meant) ? meant : undefined;
}
