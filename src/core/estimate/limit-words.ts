import type { Problem } from '../problem/index.ts';
import { parseUnit } from '../units/index.ts';
import * as problems from './measurement-problems.ts';
import { DISTRIBUTIONS } from './distributions.ts';
import type { Distribution } from './types.ts';

const DISTRIBUTION_WORDS: ReadonlyMap<string, Distribution> = new Map<string, Distribution>([
  ...DISTRIBUTIONS.map((name) => [name, name] as const),
  ['uniform', 'rectangular'],
]);

// `a` in small letters only: A is the ampere. `t` stands after the word limit only.
export const LIMIT_WORDS =
  /(?:^|[\s,(]+)(?:an?\s+)?(?:(rectangular|uniform|triangular|arcsine|normal|curvilinear\s+trapezoid)\s+)?(?:[Ll]imits?|LIMITS?)(?![\p{L}])[\s,]*(.*?)\)?\s*$/u;
const BARE_DISTRIBUTION = /(?:^|\s)(rectangular|uniform|triangular|arcsine|normal|curvilinear\s+trapezoid)\s*$/iu;

interface LimitWords {
  /** The text without the words. */
  readonly figure: string;
  /** Undefined where no limit is meant. */
  readonly distribution: Distribution | undefined;
}

/**
 * Splits what stands after ± into the figure and the words that make it a limit: `limit`, `a limit`, `limit triangular`,
 * `triangular limit`. Problems: `limit-distribution-unknown`, `limit-word-missing`; spans count from `offset`.
 */
export function readLimitWords(right: string, offset: number): LimitWords | Problem {
  const match = LIMIT_WORDS.exec(right);
  if (match !== null) {
    const named = (match[1] ?? match[2] ?? '').toLowerCase().replace(/\s+/gu, ' ');
    const both = match[1] !== undefined && match[2] !== undefined && match[2] !== '';
    const distribution = named === '' ? 'rectangular' : DISTRIBUTION_WORDS.get(named);
    if (distribution !== undefined && !both) return { figure: right.slice(0, match.index), distribution };
    const typed = match[2] ?? named;
    // `± 3 limit N`: the unit has slipped behind the word.
    if (typed !== '' && match[1] === undefined && parseUnit(typed).ok) {
      return { figure: `${right.slice(0, match.index)} ${typed}`, distribution: 'rectangular' };
    }
    const start = offset + right.lastIndexOf(typed);
    return problems.limitDistributionUnknown(typed, DISTRIBUTIONS, { start, end: start + typed.length });
  }
  const bare = BARE_DISTRIBUTION.exec(right);
  if (bare?.[1] === undefined) return { figure: right, distribution: undefined };
  const start = offset + right.lastIndexOf(bare[1]);
  return problems.limitWordMissing(bare[1], { start, end: start + bare[1].length });
}
