import { fromInput } from '../../core/estimate/index.ts';
import {
  compareGroups, compareLives, compareStrengths, fitLeastSquares, fitMaximumLikelihood, lifeLimits,
  type CompareGroupsOptions, type LifeDistribution, type LineFit, type LineModel, type RatioOfLines, type Specimens, type StressScale,
} from '../../core/fatigue/index.ts';
import { fisherCumulative } from '../../core/numeric/index.ts';
import { composed, fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { ONE } from '../../core/units/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { FitSettings } from '../fit/published.ts';
import * as problems from './comparison-problems.ts';
import { namedGroups, specimensOf } from '../fit/specimens.ts';
import type { TableState } from '../table/index.ts';
import type { Ask, FindingsForm, FormReading, Found, PublishedValue } from './form.ts';
import type { ComparedAt, ComparedLives, ComparedPair, ComparisonFindings } from './comparison-findings.ts';

const ASKS: readonly Ask[] = [
  { takes: 'word', name: 'first' },
  { takes: 'word', name: 'second' },
  { takes: 'quantity', name: 'stress', unit: 'MPa', possible: '> 0' },
  { takes: 'quantity', name: 'life', unit: 'cycles', possible: '> 0' },
  { takes: 'quantity', name: 'confidence', unit: '1', possible: '0.5 .. 0.999999', usual: 0.95 },
];

/** Ratios of the first group over the second, and the chances of the tests between the two. */
const PUBLISHED = ['N_ratio', 'S_ratio', 'p_common', 'p_parallel'];

/** More groups than this are not tested together: a plan of that size is another question. */
const MOST_GROUPS = 12;
/** Below this chance the tests speak against the simpler lines. */
const SIGNIFICANT = 0.05;

/** Groups of specimens against each other: one line or several, and how far the two lines lie apart. */
export const comparisonForm: FindingsForm = {
  asks: ASKS,
  published: PUBLISHED,
  unitOf: (name) => (PUBLISHED.includes(name) ? ONE : undefined),
  find,
};

function find(reading: FormReading): Result<Found> {
  const table = reading.table();
  if (!table.ok) return table;
  const { settings } = reading;
  const groups = namedGroups(table.value);
  const chosen = chosenGroups(reading, groups);
  if (!chosen.ok) return chosen;
  const base = {
    form: 'comparison' as const,
    model: settings.model as LineModel,
    stress: settings.stress as StressScale,
    life: settings.life as LifeDistribution,
    confidence: reading.quantity('confidence')?.value ?? 0.95,
    groups,
    chosen: chosen.value,
  };
  const pair = comparePair(table.value, base, reading);
  if (!pair.ok) {
    const values = new Map(PUBLISHED.map((name): [string, PublishedValue] => [name, { problem: pair.problem }]));
    return ok({ findings: Object.freeze({ ...base, none: pair.problem }), values, warnings: [] });
  }
  const joint = groups.length > 2 ? testAll(table.value, groups, settings) : undefined;
  return ok({
    findings: Object.freeze({ ...base, pair: pair.value, ...(joint === undefined ? {} : { joint }) }),
    values: publishedOf(pair.value, reading.cell),
    warnings: warningsOf(pair.value),
  });
}

/** The two groups that are asked for, else the first two of the table; fewer where it has fewer. */
function chosenGroups(reading: FormReading, groups: readonly string[]): Result<readonly string[]> {
  const asked = ['first', 'second'].map((name) => reading.word(name));
  for (const name of asked) if (name !== undefined && !groups.includes(name)) return fail(problems.groupUnknown(name, groups));
  const [first = groups.find((name) => name !== asked[1]), second = groups.find((name) => name !== first)] = asked;
  if (first !== undefined && first === second) return fail(problems.sameGroup(first));
  return ok([first, second].flatMap((name) => name ?? []));
}

type Base = Pick<ComparisonFindings, 'chosen' | 'model' | 'confidence'>;

function comparePair(table: TableState, { chosen, model, confidence }: Base, reading: FormReading): Result<ComparedPair> {
  if (model === 'limit') return fail(problems.limitNotCompared());
  const found = rememberedLines(table, chosen, reading.settings);
  if (!found.ok) return found;
  const { first, second } = found.value;
  const stress = reading.quantity('stress')?.value;
  const cycles = reading.quantity('life')?.value;
  return ok({
    ...found.value,
    ...(stress === undefined ? {} : { lives: at(stress, livesAt(first.fit, second.fit, stress / 1e6, confidence)) }),
    ...(cycles === undefined ? {} : { strengths: at(cycles, compareStrengths(first.fit, second.fit, cycles, confidence)) }),
  });
}

type ComparedLines = Omit<ComparedPair, 'lives' | 'strengths'>;

/** By table: another stress or life asked about leaves lines and tests as they are. */
const remembered = new WeakMap<TableState, { readonly asked: string; readonly found: Result<ComparedLines> }>();

function rememberedLines(table: TableState, chosen: readonly string[], settings: FitSettings): Result<ComparedLines> {
  const asked = JSON.stringify([chosen, settings]);
  const known = remembered.get(table);
  if (known?.asked === asked) return known.found;
  const found = compareLines(table, chosen, settings);
  remembered.set(table, { asked, found });
  return found;
}

function compareLines(table: TableState, [first, second]: readonly string[], settings: FitSettings): Result<ComparedLines> {
  if (first === undefined || second === undefined) return fail(problems.oneGroup());
  const each: { readonly name: string; readonly specimens: Specimens; readonly fit: LineFit }[] = [];
  for (const name of [first, second]) {
    const read = specimensOf(table, name);
    if (!read.ok) return read;
    const fit = fitOf(read.value.specimens, settings);
    if (!fit.ok) return fail({ ...fit.problem, what: composed`${name}: ${fit.problem.what}` });
    each.push({ name, specimens: read.value.specimens, fit: fit.value });
  }
  const [one, other] = each;
  if (one === undefined || other === undefined) return fail(problems.oneGroup());
  const tests = compareGroups(each.map(({ specimens }) => specimens), optionsOf(settings));
  if (!tests.ok) return tests;
  return ok({
    first: { name: one.name, fit: one.fit },
    second: { name: other.name, fit: other.fit },
    tests: tests.value,
    ...scatterTest(one.fit, other.fit),
  });
}

function livesAt(first: LineFit, second: LineFit, stressMpa: number, confidence: number): Result<ComparedLives> {
  const ratio = compareLives(first, second, stressMpa, confidence);
  if (!ratio.ok) return ratio;
  const median = (line: LineFit): number => lifeLimits(line, stressMpa, { kind: 'two s' }).estimate;
  return ok({ ...ratio.value, logLives: [median(first), median(second)] });
}

function at<T>(where: number, found: Result<T>): ComparedAt<T> {
  return found.ok ? { at: where, found: found.value } : { at: where, none: found.problem };
}

function fitOf(specimens: Specimens, { method, model, stress, life }: FitSettings): Result<LineFit> {
  const shape = { model: model as LineModel, stress: stress as StressScale };
  return method === 'least-squares'
    ? fitLeastSquares(specimens, { ...shape, model: model === 'quadratic' ? 'quadratic' : 'linear' })
    : fitMaximumLikelihood(specimens, { ...shape, life: life as LifeDistribution });
}

function optionsOf({ method, model, stress, life }: FitSettings): CompareGroupsOptions {
  return {
    method: method === 'least-squares' ? method : 'maximum-likelihood',
    model: model === 'quadratic' ? 'quadratic' : 'linear',
    stress: stress as StressScale,
    life: life as LifeDistribution,
  };
}

/**
 * Two-sided F test of equal variances about the two lines.
 * @source any text on analysis of variance; from memory.
 */
function scatterTest(first: LineFit, second: LineFit): Pick<ComparedPair, 'scatter'> {
  const [df1, df2] = [first.degreesOfFreedom, second.degreesOfFreedom];
  if (df1 === null || df2 === null) return {};
  const F = (first.s / second.s) ** 2;
  const below = fisherCumulative(F, df1, df2);
  const above = fisherCumulative(1 / F, df2, df1);
  const p = Math.min(1, 2 * Math.min(below, above));
  return Number.isFinite(F) && Number.isFinite(p) ? { scatter: { F, df1, df2, p } } : {};
}

function testAll(table: TableState, groups: readonly string[], settings: FitSettings): NonNullable<ComparisonFindings['joint']> {
  if (groups.length > MOST_GROUPS) return { none: problems.manyGroups(groups.length) };
  const all: Specimens[] = [];
  for (const name of groups) {
    const read = specimensOf(table, name);
    if (!read.ok) return { none: read.problem };
    all.push(read.value.specimens);
  }
  const tests = compareGroups(all, optionsOf(settings));
  return tests.ok ? { tests: tests.value } : { none: tests.problem };
}

function publishedOf({ first, second, tests, lives, strengths }: ComparedPair, cell: FitCell): ReadonlyMap<string, PublishedValue> {
  const source = `comparison of ${first.name} with ${second.name}`;
  const values = new Map<string, PublishedValue>();
  const put = (name: string, compared: ComparedAt<RatioOfLines> | undefined): void => {
    if (compared === undefined) return;
    values.set(name, 'none' in compared ? { problem: compared.none } : { estimate: ratioEstimate(cell.symbols.get(name) ?? name, compared.found, source) });
  };
  put('N_ratio', lives);
  put('S_ratio', strengths);
  const chance = (name: string, p: number): void => {
    values.set(name, { estimate: fromInput({ id: cell.symbols.get(name) ?? name, value: p, components: [] }) });
  };
  chance('p_common', tests.commonAgainstSeparate.p);
  chance('p_parallel', tests.parallelAgainstSeparate.p);
  return values;
}

/** The ratio as an input of its own; its standard uncertainty is that of its logarithm times itself. */
function ratioEstimate(id: string, { ratio, seLog10, degreesOfFreedom }: RatioOfLines, source: string) {
  return fromInput({
    id,
    value: ratio,
    components: [{
      kind: 'A',
      source,
      distribution: degreesOfFreedom === null ? 'normal' : 't',
      standardUncertainty: ratio * Math.LN10 * seLog10,
      degreesOfFreedom: degreesOfFreedom ?? Infinity,
    }],
  });
}

function warningsOf({ first, second, scatter }: ComparedPair): readonly Problem[] {
  const few = [first, second].flatMap(({ name, fit }) =>
    fit.warnings.filter(({ code }) => ['specimens-few', 'runouts-left-out', 'line-rising'].includes(code))
      .map((warning) => ({ ...warning, what: composed`${name}: ${warning.what}` })));
  const narrow = [first, second].some(({ fit }) => fit.warnings.some(({ code }) => code === 'limits-narrow'));
  return [
    ...few,
    ...(narrow ? [problems.narrowLimits(first.fit.failures, second.fit.failures)] : []),
    ...(scatter !== undefined && scatter.p < SIGNIFICANT ? [problems.scatterDiffers()] : []),
  ];
}
