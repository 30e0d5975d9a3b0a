import type { GroupTest } from '../../../core/fatigue/index.ts';
import { composed } from '../../../core/problem/index.ts';
import { intervalFromSI } from '../../../core/units/index.ts';
import type { UnitSystem } from '../../../core/units/types.ts';
import type { ComparedAt, ComparedPair } from '../../../graph/index.ts';
import { figures, unitText } from '../number.ts';
import { askedLife, askedStress, chanceText, percent, stressUnit } from './words.ts';

/** Below this chance a simpler picture is spoken against; a convention, and no border in nature. */
const SIGNIFICANT = 0.05;

export function isBelow(p: number): boolean {
  return p < SIGNIFICANT;
}

/** What may be concluded, and what not: first what the tests say, then the differences, then what they can't say. */
export function conclusions(pair: ComparedPair, confidence: number, system: UnitSystem): readonly string[] {
  return [verdict(pair), ...lifeSentences(pair, confidence, system), ...strengthSentences(pair, confidence, system), caution(pair)];
}

function verdict({ first, second, tests }: ComparedPair): string {
  const { commonAgainstSeparate, parallelAgainstSeparate, commonAgainstParallel } = tests;
  const names = composed`${first.name} and ${second.name}`;
  if (isBelow(parallelAgainstSeparate.p)) {
    return `${names} have lines of different slope (${testText(parallelAgainstSeparate)}): which of them lasts longer hangs on the stress.`;
  }
  const slopes = `nothing speaks against one slope (${testText(parallelAgainstSeparate)})`;
  if (isBelow(commonAgainstParallel.p)) {
    return `${names} do not share one line, and ${slopes}: lines of the same slope lie apart (${testText(commonAgainstParallel)}), so that one lasts the same multiple of the other at every stress.`;
  }
  if (isBelow(commonAgainstSeparate.p)) {
    return `${names} do not share one line (${testText(commonAgainstSeparate)}), but these tests can’t tell whether they differ in slope or in height.`;
  }
  return `These tests give no reason to draw two lines for ${names} (${testText(commonAgainstSeparate)}).`;
}

function testText({ statistic, df1, df2, p }: GroupTest): string {
  const name = df2 === null ? `χ²(${df1})` : `F(${df1}, ${df2})`;
  return `${name} = ${figures(statistic, 3)}, ${chanceText(p)}`;
}

interface Ratio {
  readonly ratio: number;
  readonly lower: number;
  readonly upper: number;
}

function lifeSentences({ first, second, lives }: ComparedPair, confidence: number, system: UnitSystem): readonly string[] {
  if (lives === undefined) return [];
  const stress = askedStress(lives.at, system);
  if ('none' in lives) return [`Lives at ${stress} can’t be compared: ${lives.none.what}`];
  const { ratio } = lives.found;
  return [composed`At ${stress} ${first.name} lasts ${figures(ratio, 3)} times as long as ${second.name} (${percent(confidence)} limits ${between(lives.found)}): ${
    judged(lives.found, 'longer', 'shorter')}.`];
}

function strengthSentences({ first, second, strengths }: ComparedPair, confidence: number, system: UnitSystem): readonly string[] {
  if (strengths === undefined) return [];
  const life = askedLife(strengths.at);
  if ('none' in strengths) return [`Strengths at ${life} can’t be compared: ${strengths.none.what}`];
  const { found } = strengths;
  const unit = stressUnit(system);
  const inUnit = (stressMpa: number): string => figures(intervalFromSI(stressMpa * 1e6, unit), 2);
  const { value, lower, upper } = found.difference;
  return [composed`At ${life} the strength of ${first.name} is ${figures(found.ratio, 3)} times that of ${second.name} (${percent(confidence)} limits ${between(found)}), a difference of ${
    inUnit(value)} ${unitText(unit)} (${inUnit(lower)} … ${inUnit(upper)} ${unitText(unit)}): ${judged(found, 'stronger', 'weaker')}.`];
}

function between({ lower, upper }: Ratio): string {
  return `${figures(lower, 3)} … ${figures(upper, 3)}`;
}

/** What a ratio with its limits allows to be said. */
function judged({ lower, upper }: Ratio, more: string, less: string): string {
  if (lower > 1) return `${more}, beyond what chance explains`;
  return upper < 1 ? `${less}, beyond what chance explains` : `either may be the ${more} one, since the limits take in 1`;
}

/** What the tests do not say. */
function caution({ tests, lives, strengths }: ComparedPair): string {
  const alike = !isBelow(tests.commonAgainstSeparate.p) && !isBelow(tests.commonAgainstParallel.p) && !isBelow(tests.parallelAgainstSeparate.p);
  const shown = [lives, strengths].some((one: ComparedAt<Ratio> | undefined) => one !== undefined && 'found' in one);
  const first = alike
    ? `That is no proof that the groups are alike: a difference ${shown ? 'anywhere between the limits of the ratio' : 'of some size'} would have stayed unseen with so few specimens.`
    : 'That groups differ does not say why.';
  return `${first} A cause may only be named where specimens were dealt to machines, teams and days by lot; otherwise those may have made the difference, or hidden one.`;
}
