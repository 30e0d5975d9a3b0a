/**
 * In how many of 100 cases limits that say 95 % hold the truth: simulation with a fixed seed. Limits that hold less are
 * too narrow. Two tables: every kind of limit for small classes, and the limits value ∓ 1.96 se of maximum
 * likelihood by the number of broken specimens, which `src/core/fatigue/coverage.ts` keeps for the sheet to tell of.
 * A number after the name is the repetitions: npm run bench -- coverage (4000); tsx tests/bench/coverage.bench.ts 400.
 */
import type { LifeDistribution, LimitApproach } from '../../src/core/fatigue/index.ts';
import { studyOneStress, studyThreshold } from './one-stress-study.ts';
import { fitted, Tally, tablesOf, tallyLimits, tallyNext, tallyParameters, tallyProfile, type Model, type Setting } from './coverage-study.ts';

const REPETITIONS = Number(process.argv[2] ?? 4000);
/** What takes long is asked of every fourth table. */
const SLOW = 4;
const QUANTITIES = ['A', 'B', 's', 'median', 'next', 'tolerance', 'strength', 'open'] as const;
const LIVES: readonly LifeDistribution[] = ['lognormal', 'weibull'];
const APPROACHES: readonly LimitApproach[] = ['large sample', 'adjusted'];

const cells = (values: readonly string[]): string => `| ${values.join(' | ')} |`;
const percent = (value: number): string => (Number.isNaN(value) ? '' : value.toFixed(1));
const seedOf = ({ n, runouts, life, model }: Setting): number => n * 100 + runouts * 10 + (life === 'weibull' ? 3 : 0) + (model === 'quadratic' ? 5 : 0);
const begun = performance.now();
const progress = (what: string): void => console.error(`${((performance.now() - begun) / 1000).toFixed(0)} s  ${what}`);

function study(setting: Setting): readonly string[] {
  const tallies = new Map<string, Tally>();
  const tally = (name: string): Tally => {
    const found = tallies.get(name) ?? new Tally();
    tallies.set(name, found);
    return found;
  };
  const next = tablesOf(setting, seedOf(setting));
  let refused = 0;
  for (let run = 0; run < REPETITIONS; run++) {
    const table = next();
    const fit = fitted(table, setting, 'likelihood');
    if (fit === undefined) {
      refused++;
      continue;
    }
    const all = APPROACHES.map((approach) => [`maximum likelihood, ${approach}`, fit, approach] as const);
    const squares = setting.runouts === 0 && setting.life === 'lognormal' ? fitted(table, setting, 'least squares') : undefined;
    for (const [name, line, approach] of squares === undefined ? all : [['least squares', squares, 'adjusted'] as const, ...all]) {
      tallyParameters(line, approach, tally(name));
      tallyLimits(line, approach, tally(name));
      if (run % SLOW === 0) tallyNext(line, approach, tally(name));
    }
    if (run % SLOW === 0) for (const approach of APPROACHES) tallyProfile(table, setting, approach, tally(`profile likelihood, ${approach}`));
  }
  const share = ((100 * refused) / REPETITIONS).toFixed(1);
  return [...tallies].sort(([a], [b]) => a.localeCompare(b)).map(([name, one]) => cells([
    name, setting.life, String(setting.n), setting.runouts === 0 ? 'none' : '20 %', ...QUANTITIES.map((quantity) => percent(one.percent(quantity))), share,
  ]));
}

function byFailures(life: LifeDistribution, model: Model, n: number): string {
  const setting: Setting = { life, model, n, runouts: 0 };
  const tally = new Tally();
  const next = tablesOf(setting, seedOf(setting) + 50_000);
  for (let run = 0; run < REPETITIONS; run++) {
    const fit = fitted(next(), setting, 'likelihood');
    if (fit !== undefined) tallyParameters(fit, 'large sample', tally);
  }
  progress(`${life}, ${model}, ${n} broken`);
  return cells([life, model, String(n), percent(Math.min(tally.percent('A'), tally.percent('B'))), percent(tally.percent('s'))]);
}

const rows = LIVES.flatMap((life) => [6, 12, 24].flatMap((n) => [0, 0.2].flatMap((runouts) => {
  progress(`${life} lives, ${n} specimens, runouts: ${100 * runouts} %`);
  return study({ life, model: 'linear', n, runouts });
})));
const error = (repetitions: number): string => `${(100 * Math.sqrt((0.95 * 0.05) / repetitions)).toFixed(2)} %`;
console.log(`\nHow many of 100 limits that say 95 % held the truth (${REPETITIONS} tables each, standard error at 95 %: ${error(REPETITIONS)};`
  + ` next and profile likelihood: ${REPETITIONS / SLOW} tables, ${error(REPETITIONS / SLOW)}).`
  + '\nopen: share of strengths without a limit on one side, counted as held; refused: share of tables that can’t be fitted.\n');
console.log([
  cells(['limits', 'lives', 'n', 'runouts', 'A', 'B', 's', 'median life', 'next specimen', 'tolerance 90/95', 'strength', 'open %', 'refused %']),
  cells(Array<string>(13).fill('---')),
  ...rows,
].join('\n'));

const failures = (['linear', 'quadratic'] as const).flatMap((model) => LIVES.flatMap((life) =>
  [4, 6, 9, 12, 18, 24, 36, 48, 72].map((n) => byFailures(life, model, n))));
console.log('\nThe same for value ∓ 1.96 se of maximum likelihood, by the number of broken specimens, no runouts\n');
console.log([cells(['lives', 'model', 'broken', 'A, B (the lesser)', 's']), cells(Array<string>(5).fill('---')), ...failures].join('\n'));

const oneStress = LIVES.flatMap((life) => [8, 15, 30].flatMap((n) => [0, 0.2].map((runouts) => {
  progress(`${life} lives at one stress, ${n} specimens, runouts: ${100 * runouts} %`);
  return studyOneStress({ life, n, runouts }, REPETITIONS);
})));
console.log('\nLives at one stress, adjusted limits: 95 % of the median and of a life that 90 % exceed (one-sided), 90/95 intervals\n');
console.log([cells(['lives', 'n', 'runouts', 'median', 'next specimen', 'tolerance 90/95', 'interval 90/95']), cells(Array<string>(7).fill('---')), ...oneStress.map(cells)].join('\n'));

const thresholds = [15, 30, 60].flatMap((n) => [1.5, 2.5].map((shape) => {
  progress(`Weibull lives with a threshold, ${n} specimens, shape ${shape}`);
  return studyThreshold(n, shape, REPETITIONS / 20);
}));
console.log(`\nWeibull lives with a threshold at 0.3 of the characteristic life, profile likelihood (${REPETITIONS / 20} tables each)\n`);
console.log([cells(['n', 'shape', 'a threshold found %', 'none above zero %', 'likelihood without bound %', 'limits of the threshold', 'limits of the tenth', 'lower limit of the tenth']), cells(Array<string>(8).fill('---')), ...thresholds.map(cells)].join('\n'));
