/**
 * In how many of 100 invented staircases the limits of the strength held: simulation with a fixed seed, by number of tests and step over
 * standard deviation. `src/core/fatigue/staircase-coverage.ts` keeps the least and the most for the sheet to tell of.
 * A number after the name is the repetitions: tsx tests/bench/coverage-staircase.bench.ts 400.
 */
import { Tally } from './coverage-study.ts';
import { analyser, askedName, staircasesOf, tallyStaircase, type Asked } from './staircase-study.ts';

const REPETITIONS = Number(process.argv[2] ?? 2000);
const ASKED: readonly Asked[] = [[0.9, 0.95], [0.5, 0.95], [0.99, 0.95], [0.9, 0.9], [0.9, 0.99]];
const RATIOS = [0.5, 0.75, 1, 1.5, 2];
const TESTS = [6, 8, 12, 15, 18, 24, 30, 40];
const NAMES = [...ASKED.map(askedName), 'factor', 'S_50 counted', 'S_50 likelihood', 'S_50 counted, 1.96 u', 'none'];

const cells = (values: readonly string[]): string => `| ${values.join(' | ')} |`;
const begun = performance.now();

function study(tests: number, ratio: number, start: number, asked: readonly Asked[]): Tally {
  const tally = new Tally();
  const setting = { tests, ratio, start };
  const next = staircasesOf(setting, Math.round(1000 * tests + 100 * ratio + start));
  const analyse = analyser(asked);
  for (let run = 0; run < REPETITIONS; run++) {
    const sampled = next();
    tallyStaircase(analyse(sampled), sampled, setting, asked, tally);
  }
  console.error(`${((performance.now() - begun) / 1000).toFixed(0)} s  ${tests} tests, step ${ratio}`);
  return tally;
}

const [first] = ASKED;
const rows = TESTS.map((tests) => RATIOS.map((ratio) => [ratio, study(tests, ratio, 2, ASKED)] as const));
console.log(`\nHow many of 100 limits of a staircase held (${REPETITIONS} each; standard error at 95: ${(100 * Math.sqrt((0.95 * 0.05) / REPETITIONS)).toFixed(2)})\n`);
console.log([
  cells(['tests', 'step / s', ...NAMES]),
  cells(Array<string>(NAMES.length + 2).fill('---')),
  ...rows.flatMap((row, i) => row.map(([ratio, tally]) => cells([String(TESTS[i]), String(ratio), ...NAMES.map((name) => tally.percent(name).toFixed(1))]))),
].join('\n'));

const ends = (row: readonly (readonly [number, Tally])[], name: string): string => {
  const held = row.map(([, tally]) => tally.percent(name));
  return `${Math.min(...held).toFixed(1)} to ${Math.max(...held).toFixed(1)}`;
};
console.log('\nThe least and the most over the steps\n');
console.log([cells(['tests', ...NAMES]), cells(Array<string>(NAMES.length + 1).fill('---')),
  ...rows.map((row, i) => cells([String(TESTS[i]), ...NAMES.map((name) => ends(row, name))]))].join('\n'));

if (first !== undefined) {
  console.log(`\n${askedName(first)} by where the first level lies: within so many standard deviations of the median\n`);
  console.log([cells(['tests', 'step / s', '0.5', '1', '3']), cells(Array<string>(5).fill('---')), ...[12, 18, 30].flatMap((tests) => [0.5, 1, 2].map((ratio) =>
    cells([String(tests), String(ratio), ...[0.5, 1, 3].map((start) => study(tests, ratio, start, [first]).percent(askedName(first)).toFixed(1))])))].join('\n'));
}
