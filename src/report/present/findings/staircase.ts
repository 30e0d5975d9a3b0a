import { roundByUncertainty } from '../../../core/estimate/index.ts';
import { coverageOfStaircase, type Staircase } from '../../../core/fatigue/index.ts';
import type { StaircaseFindings, TableState } from '../../../graph/index.ts';
import type { FitCell } from '../../../sheet/types.ts';
import { atSamePlace, decimalText, figures, unitText, withUnit } from '../number.ts';
import { specimenName } from '../specimen-name.ts';
import type { PresentedSmallTable } from '../types.ts';
import { askedLife, NO_SIDE, percent, type FindingsWords } from './words.ts';

/** Where the next test belongs, the strength by its estimates side by side, and what they rest on. */
export function staircaseWords(findings: StaircaseFindings, cell: FitCell, table: TableState | undefined): FindingsWords {
  const { result, none, method, life } = findings;
  return {
    settings: [
      method === 'probit' ? 'by maximum likelihood' : 'by counting',
      ...(findings.listed === undefined ? [] : [`${findings.listed.length} ${findings.listed.length === 1 ? 'level' : 'levels'} that can be set, ${levelText(findings.listed[0] ?? 0, findings)} to ${levelText(findings.listed.at(-1) ?? 0, findings)}`]),
      ...(findings.settable === undefined ? [] : [`levels in steps of ${levelText(findings.settable.smallest, findings)}`]),
      ...(life === undefined ? [] : [`runouts at ${askedLife(life)}`]),
    ],
    advice: adviceOf(findings, table),
    sentences: [
      ...(none === undefined ? [publishedWords(findings, cell)] : [`No strength can be told yet. ${none.what} ${none.mend}`]),
      ...(result === undefined ? [] : limitWords(findings, result)),
    ],
    tables: result === undefined ? [] : [strengthTable(findings, result)],
    facts: result === undefined ? [] : factsOf(findings, result),
    ...suggestedRow(findings, cell, table),
    ...benchOf(findings, cell, table),
  };
}

/** The next level in a plain sentence, for the one at the bench. */
function adviceOf(findings: StaircaseFindings, table: TableState | undefined): string {
  const { next, waiting, levels, outcomes, last, step } = findings;
  if (next === null) return startWords(findings);
  const level = (value: number): string => levelText(value, findings);
  const move = next.after === 'fracture' ? 'below' : 'above';
  const became = next.after === 'fracture' ? 'broke' : 'did not break';
  const because = findings.listed !== undefined
    ? `${step === undefined ? `the next in the list ${move}` : `in the list the nearest to one step of ${level(step)} ${move}`} ${level(next.from)}, because ${specimenName(next.row, table)} ${became} there`
    : `one step of ${level(next.step)} ${move} ${level(next.from)}, because ${specimenName(next.row, table)} ${became} there`;
  if (waiting !== undefined) {
    const set = levels[waiting] ?? Number.NaN;
    return Math.abs(set - next.level) <= 0.2 * next.step
      ? `Test now: ${specimenName(waiting, table)} at ${level(set)}, ${because}. Write its outcome into row ${waiting + 1}.`
      : `Row ${waiting + 1} stands at ${level(set)}, but the staircase asks for ${level(next.level)}: ${because}.`;
  }
  const lastOutcome = last === undefined ? undefined : outcomes[last];
  const isRepeated = last !== undefined && last > next.row && (lastOutcome === 'suspended' || lastOutcome === 'invalid');
  const again = isRepeated ? ` The test of ${specimenName(last, table)} does not count (${lastOutcome}), so that level is tested with a new specimen.` : '';
  return `Next test: ${level(next.level)}, ${because}.${settableWords(findings)}${again}${step === undefined && findings.listed === undefined ? ' The step is the smallest difference between the levels.' : ''}`;
}

/** Why the step is not the one that was stated. */
function settableWords(findings: StaircaseFindings): string {
  const { step, settable } = findings;
  if (settable === undefined || step === undefined || step === settable.wanted) return '';
  return ` The step stated is ${levelText(settable.wanted, findings)}; the machine is set in steps of ${levelText(settable.smallest, findings)}, so that each step is ${levelText(step, findings)}, by which the levels are counted too.`;
}

function startWords({ levels, outcomes, step, listed }: StaircaseFindings): string {
  const hasTests = outcomes.some((outcome, row) => (outcome === 'fracture' || outcome === 'runout') && (levels[row] ?? 0) > 0);
  if (!hasTests) return 'First test: begin at the level at which you expect every second specimen to break. After that go one step down after each fracture, one step up after each runout.';
  if (listed !== undefined) return 'The list of levels that can be set has none farther in the direction of the next test: add one, or begin again at another level.';
  return step === undefined
    ? 'The next level follows from the last test and the step, and the step is not known yet: state it.'
    : 'One step below the last level there is nothing left: take a smaller step.';
}

function strengthTable(findings: StaircaseFindings, result: Staircase): PresentedSmallTable {
  const { counted, probit, meanOfLevels, degreesOfFreedom } = result;
  const unit = unitText(findings.unit);
  const head = (name: string): { readonly text: string } => ({ text: unit === '' ? name : `${name} / ${unit}` });
  const counting = valueWords(counted.mean, counted.errors?.seMean);
  const dof = findings.method === 'probit' ? degreesOfFreedom.probit : degreesOfFreedom.counting;
  return {
    caption: findings.life === undefined ? 'Strength, the life being that of the runouts' : `Strength at ${askedLife(findings.life)}`,
    heads: [{ text: 'Found by' }, head('Mean'), head('Standard deviation')],
    rows: [
      {
        head: { text: `Counting ${counted.event}s` },
        cells: [counting.text, valueWords(counted.sd, counted.errors?.seSd).text],
      },
      probit === null
        ? { head: { text: 'Maximum likelihood' }, cells: ['none', 'none'] }
        : { head: { text: 'Maximum likelihood' }, cells: [valueWords(probit.mu, probit.seMu).text, valueWords(probit.sigma, probit.seSigma).text] },
      { head: { text: 'Mean of the levels' }, cells: [counting.alike(meanOfLevels), NO_SIDE] },
    ],
    note: `± is one standard error, as it holds for many tests. ${dof === Infinity
      ? ''
      : `An interval takes it times Student’s t for ${figures(dof, 2)} degrees of freedom, with which it reaches as far as all tests say.`}`.trim(),
  };
}

/** The lower limit, and how often such limits held: `97`, or `95 to 98`. */
function limitWords(findings: StaircaseFindings, result: Staircase): readonly string[] {
  const { counted, lowerLimit, share, confidence, tests } = result;
  if (lowerLimit === null) return [];
  if (lowerLimit <= 0) return [`These tests give no lower limit above zero for ${percent(share)} of specimens with ${percent(confidence)} confidence: they hardly tell the standard deviation.`];
  const value = withUnit(valueWords(counted.mean, counted.errors?.seMean).alike(lowerLimit), unitText(findings.unit));
  const coverage = coverageOfStaircase(tests);
  const asked = share === SIMULATED.share && confidence === SIMULATED.confidence
    ? 'such a limit'
    : `a limit for ${percent(SIMULATED.share)} with ${percent(SIMULATED.confidence)} confidence`;
  return [
    `Lower limit: ${value}. ${percent(share)} of specimens survive it, with ${percent(confidence)} confidence. ${coverage === undefined
      ? `For as few as ${tests} tests it was not simulated how often such a limit holds.`
      : `Of 100 simulated staircases of ${coverage.tests < tests ? `${coverage.tests} tests, the most that were simulated` : 'this size'}, ${asked} held in ${rangeText(coverage.limit)}.${findings.listed === undefined ? '' : ' All of their steps were equal.'}`}`,
  ];
}

/** What was simulated. */
const SIMULATED = { share: 0.9, confidence: 0.95 } as const;

function rangeText([least, most]: readonly [number, number]): string {
  const [low, high] = [Math.floor(least), Math.round(most)];
  return low === high ? String(low) : `${low} to ${high}`;
}

function publishedWords({ method, result }: StaircaseFindings, cell: FitCell): string {
  const names = ['S_50', 's_S'].map((name) => cell.symbols.get(name)).filter((name) => name !== undefined);
  if (names.length === 0) return 'This is the strength at the life of the runouts and at no other.';
  const by = method === 'probit' ? (result?.probit === null ? 'maximum likelihood, which finds none here' : 'maximum likelihood') : 'counting';
  return `The sheet goes on with ${by}. This is the strength at the life of the runouts and at no other.`;
}

function factsOf(findings: StaircaseFindings, result: Staircase): FindingsWords['facts'] {
  const { tests, fractures, runouts, step, counted, lowerLimit, probit } = result;
  const level = (value: number): string => levelText(value, findings);
  const ratio = step / counted.sd;
  const { n, A, B, spread, lowest, event, formulaHolds } = counted;
  return [
    { name: 'Tests', text: `${tests} that count: ${fractures} ${fractures === 1 ? 'fracture' : 'fractures'}, ${runouts} ${runouts === 1 ? 'runout' : 'runouts'}` },
    { name: 'Counted', text: `after Dixon and Mood: n = ${n} ${n === 1 ? event : `${event}s`}, from ${level(lowest)} up; with i steps above that level, A = Σi = ${A} and B = Σi² = ${B}` },
    {
      name: 'Spread',
      text: `(nB − A²)/n² = ${figures(spread, 3)}, ${formulaHolds
        ? 'not below 0.3, so that the formula of the standard deviation holds'
        : 'below 0.3: too little for the formula, so 0.53 of the step stands for the standard deviation'}`,
    },
    { name: 'Step', text: `${level(step)}${formulaHolds ? `, ${figures(ratio, 2)} of the standard deviation; the method wants 0.5 to 2` : ''}` },
    ...(lowerLimit === null ? [] : [{
      name: 'Lower limit',
      text: 'from all tests at once: every median with every standard deviation, as likely as they are to have led to these outcomes, the step being a quarter to eight standard deviations (each ratio alike). '
        + 'The same by counting and by maximum likelihood. Simulated with steps of 0.5 to 2 standard deviations and a first level within two of the median',
    }]),
    ...usualFactor(findings, result),
    { name: 'Maximum likelihood', text: probit === null
      ? 'needs a fracture at a lower level than a runout'
      : 'every test at the level it was made at, the strengths being normally distributed (probit)' },
    { name: 'Mean of the levels', text: 'from the first change of outcome on, the level of the next test with them; a check of the other two' },
  ];
}

/** The limit by hand, and why it is not the one shown. */
function usualFactor(findings: StaircaseFindings, { counted, factorLimit, tests }: Staircase): FindingsWords['facts'] {
  if (factorLimit === null) return [];
  const value = withUnit(valueWords(counted.mean, counted.errors?.seMean).alike(factorLimit.value), unitText(findings.unit));
  const coverage = coverageOfStaircase(tests);
  return [{
    name: 'Usual factor',
    text: `k = ${figures(factorLimit.k, 4)} standard deviations below the mean, as for ${counted.n} measured strengths, would be ${value}. A staircase tells less than that${
      coverage === undefined ? '' : `: such limits for ${percent(SIMULATED.share)} with ${percent(SIMULATED.confidence)} confidence held in ${rangeText(coverage.factor)} of 100`}`,
  }];
}

interface ValueWords {
  readonly text: string;
  /** Another number to the same place. */
  readonly alike: (value: number) => string;
}

function valueWords(value: number, standardError: number | undefined): ValueWords {
  const rounded = roundByUncertainty(value, standardError ?? 0);
  const number = decimalText(rounded.number, rounded.exponent);
  const error = rounded.uncertainty === undefined ? '' : ` ± ${decimalText(rounded.uncertainty, rounded.exponent)}`;
  return { text: `${number}${error}`, alike: (other) => (standardError === undefined ? figures(other, 4) : atSamePlace(other, rounded)) };
}

/** The row to go on with at the bench, where none is waiting. */
function suggestedRow(findings: StaircaseFindings, cell: FitCell, table: TableState | undefined): Pick<FindingsWords, 'suggestedRow'> {
  const { next, waiting } = findings;
  const column = table?.columns.find(({ name }) => name === findings.column);
  if (next === null || waiting !== undefined || table === undefined || column === undefined) return {};
  const before = table.field(next.row, column);
  const number = String(typed(next.level, next.step));
  const text = before.includes(',') && !before.includes('.') ? number.replace('.', ',') : number;
  return { suggestedRow: { tableId: cell.table, column: column.typed, text, label: `add the next test at ${levelText(next.level, findings)}` } };
}

/** The test at the bench: the one that waits for its outcome, or the next. */
function benchOf(findings: StaircaseFindings, cell: FitCell, table: TableState | undefined): Pick<FindingsWords, 'bench'> {
  const { next, waiting, levels } = findings;
  const column = table?.columns.find(({ name }) => name === 'outcome');
  if (column === undefined || (next === null && waiting === undefined)) return {};
  const options = column.column?.options ?? [];
  const set = waiting === undefined ? undefined : levelText(levels[waiting] ?? Number.NaN, findings);
  const level = next === null ? (set ?? '') : levelText(next.level, findings);
  const name = waiting === undefined ? '' : specimenName(waiting, table);
  const row = `row ${(waiting ?? 0) + 1}`;
  return { bench: {
    tableId: cell.table,
    column: column.typed,
    outcomes: options.length > 0 ? options : ['fracture', 'runout'],
    level,
    ...(waiting === undefined
      ? { name: 'Next level', asks: `When it has ended at ${level}, press how; the row is added with it:` }
      : { name: set === level ? `${name === row ? 'Test' : name} now at` : 'Next level', asks: `${name === row ? row : `${row}, ${name}`} at ${set ?? ''} has ended as`.replace(/^r/u, 'R'), row: waiting }),
  } };
}

function levelText(level: number, findings: StaircaseFindings): string {
  return withUnit(plain(level, findings), unitText(findings.unit));
}

/** A level or a step as it was typed; one that was converted, to a thousandth of the step. */
function plain(value: number, { result, next, step }: StaircaseFindings): string {
  const text = String(typed(value, result?.step ?? next?.step ?? step ?? value));
  return text.includes('e') ? figures(value, 4) : decimalText(text, 0);
}

const PLACES_PAST_STEP = 3;

function typed(value: number, step: number): number {
  const places = PLACES_PAST_STEP - Math.floor(Math.log10(step));
  return Number(places > 0 ? value.toFixed(Math.min(20, places)) : value.toPrecision(12));
}
