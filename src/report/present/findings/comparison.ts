import { roundByUncertainty } from '../../../core/estimate/index.ts';
import type { GroupTest, LineFit } from '../../../core/fatigue/index.ts';
import type { UnitSystem } from '../../../core/units/types.ts';
import type { ComparedPair, ComparisonFindings } from '../../../graph/index.ts';
import { settingWords } from '../fit-words.ts';
import { decimalText, figures, unitText } from '../number.ts';
import type { PresentedHead, PresentedSmallTable } from '../types.ts';
import { conclusions, isBelow } from './comparison-sentences.ts';
import { askedLife, askedStress, chanceText, lifeText, percent, stressText, stressUnit, type FindingsWords } from './words.ts';

/** Two groups against each other: their lines, whether one would do, and how far they lie apart. */
export function comparisonWords(findings: ComparisonFindings, system: UnitSystem): FindingsWords {
  const { chosen, model, stress, life, confidence, none, pair, joint } = findings;
  const settings = [
    ...chosen,
    ...(pair === undefined ? [] : [settingWords('method', pair.tests.method)]),
    ...(pair?.tests.method === 'maximum-likelihood' ? [settingWords('life', life)] : []),
    settingWords('model', model),
    settingWords('stress', stress),
    `${percent(confidence)} confidence`,
  ];
  if (pair === undefined) {
    return { settings, sentences: [none === undefined ? '' : `${none.what} ${none.mend}`].filter((text) => text !== ''), tables: [], facts: [] };
  }
  return {
    settings,
    sentences: conclusions(pair, confidence, system),
    tables: [linesTable(pair), testTable(pair), ...differenceTables(pair, confidence, system), ...jointTables(findings)],
    facts: joint !== undefined && 'none' in joint ? [{ name: 'All groups at once', text: `not tested: ${joint.none.what}` }] : [],
  };
}

const text = (words: string): PresentedHead => ({ text: words });

function linesTable({ first, second }: ComparedPair): PresentedSmallTable {
  const names = first.fit.parameters.map(({ name }) => name);
  return {
    caption: 'A line for each',
    heads: [text('Group'), text('Broken'), text('Unbroken'), ...names.map((name): PresentedHead => ({ tex: name })), { tex: 's' }],
    rows: [first, second].map(({ name, fit }) => ({ head: text(name), cells: [String(fit.failures), String(fit.runouts), ...parametersOf(fit)] })),
  };
}

function parametersOf(fit: LineFit): readonly string[] {
  const se = fit.s * Math.sqrt(Math.max(0, fit.covariance.at(-1)?.at(-1) ?? 0));
  return [...fit.parameters, { value: fit.s, se }].map(({ value, se: doubt }) => {
    const { number, exponent } = roundByUncertainty(value, Number.isFinite(doubt) ? doubt : 0);
    return decimalText(number, exponent);
  });
}

function testTable({ tests, scatter }: ComparedPair): PresentedSmallTable {
  const { commonAgainstSeparate, parallelAgainstSeparate, commonAgainstParallel } = tests;
  return {
    caption: 'Would a simpler picture do?',
    heads: testHeads(tests.method),
    rows: [
      testRow('One line for both', commonAgainstSeparate),
      testRow('Two lines of the same slope', parallelAgainstSeparate),
      testRow('One line, if the slope is the same', commonAgainstParallel),
      ...(scatter === undefined ? [] : [testRow('The same scatter', { ...scatter, statistic: scatter.F })]),
    ],
    note: tests.method === 'least-squares'
      ? 'F tests of the extra sum of squares, over the broken specimens, with the same s for both groups; that of the scatter is two-sided.'
      : 'Likelihood-ratio tests (χ²), with the same s for both groups; they hold for large samples and say “no” too readily in small ones.',
  };
}

function testHeads(method: string): readonly PresentedHead[] {
  return [text('Simpler picture'), text(method === 'least-squares' ? 'F' : 'χ²'), text('Degrees of freedom'), text('p'), text('Will it do?')];
}

function testRow(words: string, { statistic, df1, df2, p }: GroupTest): PresentedSmallTable['rows'][number] {
  const freedom = df2 === null ? String(df1) : `${df1}, ${df2}`;
  const chance = chanceText(p).replace('p = ', '').replace('p ', '');
  return { head: text(words), cells: [figures(statistic, 3), freedom, chance, isBelow(p) ? 'no' : 'it may'] };
}

/** Life and strength of both groups, with the ratio. */
function differenceTables({ first, second, lives, strengths }: ComparedPair, confidence: number, system: UnitSystem): readonly PresentedSmallTable[] {
  const rows: PresentedSmallTable['rows'][number][] = [];
  const limits = ({ ratio, lower, upper }: { readonly ratio: number; readonly lower: number; readonly upper: number }): readonly string[] =>
    [ratio, lower, upper].map((value) => figures(value, 3));
  if (lives !== undefined && 'found' in lives) {
    const [one, other] = lives.found.logLives;
    rows.push({ head: text(`Median life at ${askedStress(lives.at, system)} / cycles`), cells: [lifeText(one), lifeText(other), ...limits(lives.found)] });
  }
  if (strengths !== undefined && 'found' in strengths) {
    const [one, other] = strengths.found.strengthsMpa;
    const unit = unitText(stressUnit(system));
    rows.push({
      head: text(`Strength at ${askedLife(strengths.at)} / ${unit}`),
      cells: [stressText(one, system), stressText(other, system), ...limits(strengths.found)],
    });
  }
  if (rows.length === 0) return [];
  return [{
    caption: `How far apart, with ${percent(confidence)} limits of the ratio`,
    heads: [text('At the place asked about'), text(first.name), text(second.name), text('Ratio'), text('Lower limit'), text('Upper limit')],
    rows,
  }];
}

function jointTables({ joint, groups }: ComparisonFindings): readonly PresentedSmallTable[] {
  if (joint === undefined || 'none' in joint) return [];
  const { method, commonAgainstSeparate, parallelAgainstSeparate, commonAgainstParallel } = joint.tests;
  return [{
    caption: `All ${groups.length} groups at once`,
    heads: testHeads(method),
    rows: [
      testRow('One line for all', commonAgainstSeparate),
      testRow('Lines of the same slope', parallelAgainstSeparate),
      testRow('One line, if the slope is the same', commonAgainstParallel),
    ],
    note: 'Looking at every pair in turn finds a difference somewhere by chance; this test looks once.',
  }];
}
