import type { PlanRow } from '../../../core/fatigue/index.ts';
import { fromSI } from '../../../core/units/index.ts';
import type { UnitSystem } from '../../../core/units/types.ts';
import type { PlanFindings, PlanFound, PlanWish } from '../../../graph/index.ts';
import type { FitCell } from '../../../sheet/types.ts';
import { replicationWords } from '../fit-words.ts';
import { decimalText, figures, plainFigures, unitText } from '../number.ts';
import type { PresentedSmallTable } from '../types.ts';
import { askedLife, askedStress, lifeText, NO_SIDE, percent, stressUnit, type FindingsWords } from './words.ts';

/** What planned tests will give and how long they take. */
export function planWords(findings: PlanFindings, cell: FitCell, system: UnitSystem): FindingsWords {
  if (findings.none !== undefined) return { settings: [], sentences: [`${findings.none.what} ${findings.none.mend}`], tables: [], facts: [] };
  const { plan, confidence, machines, life, speed, isStated } = findings;
  return {
    settings: [
      isStated ? 'by A, B and s as stated' : `by the line of the fit ${cell.of}`,
      `${percent(confidence)} confidence`,
      ...(life === undefined ? ['no runouts'] : [`runouts at ${askedLife(life)}`]),
      ...(speed === undefined ? [] : [`${plainFigures(60 * speed, 4)} rev/min`]),
      ...(machines === 1 ? [] : [`${machines} machines`]),
    ],
    sentences: [leadOf(findings, system), ...findings.wishes.map((wish) => wishWords(wish, system)), 'The limits are those of a line through broken specimens only; every runout makes them wider, and no plan is better than the line it expects.'],
    tables: [levelTable(findings, system)],
    facts: [
      { name: 'Replication', text: `${replicationWords(plan.replication)} (classes of ASTM E739)` },
      { name: 'Runouts', text: life === undefined ? 'none: no runout life is stated' : runoutWords(plan, life) },
      { name: 'Time', text: timeWords(findings) },
    ],
  };
}

function leadOf({ plan, atStress, confidence, line }: PlanFound, system: UnitSystem): string {
  const unit = line.stress === 'plain' ? ' per MPa' : '';
  const slope = `B to ± ${figures(plan.halfWidthB, 3)}${unit}`;
  const life = atStress === undefined
    ? ''
    : `, and the median life at ${askedStress(atStress.stress, system)} to a factor of ${factorText(atStress.halfWidth)} either way`;
  return `${count(plan.specimens, 'specimen')} at ${count(plan.replication.levels, 'level')} will tell ${slope}${life}, with ${percent(confidence)} confidence.`;
}

function wishWords({ wanted, levels, each }: PlanWish, system: UnitSystem): string {
  const what = wanted.of === 'B'
    ? `B to ± ${plainFigures(wanted.halfWidth, 3)}`
    : `the median life at ${askedStress(wanted.stressMpa * 1e6, system)} to a factor of ${factorText(wanted.log10HalfWidth)}`;
  return each === null
    ? `For ${what}, not even 500 specimens at each of ${count(levels, 'level')} are enough: spread the levels, or ask for less.`
    : `For ${what} it takes ${count(each, 'specimen')} at each of these ${count(levels, 'level')}, ${each * levels} in all.`;
}

function levelTable({ plan, life }: PlanFound, system: UnitSystem): PresentedSmallTable {
  const heads = ['Specimens', 'Median life / cycles', 'Chance of a runout', 'Mean cycles of a test', 'Machine time'];
  return {
    caption: 'What the plan takes',
    heads: [{ text: `Level / ${unitText(stressUnit(system))}` }, ...heads.map((text) => ({ text }))],
    rows: plan.rows.map((row) => ({ head: { text: plainFigures(fromSI(row.stressMpa * 1e6, stressUnit(system)), 4) }, cells: levelCells(row, life) })),
    note: 'Machine time is that of all tests at the level, stopped at the runout life; setting up comes on top.',
  };
}

function levelCells({ specimens, medianCycles, runoutChance, meanCycles, hours }: PlanRow, life: number | undefined): readonly string[] {
  return [
    decimalText(String(specimens), 0),
    lifeText(Math.log10(medianCycles)),
    life === undefined ? NO_SIDE : chancePercent(runoutChance),
    lifeText(Math.log10(meanCycles)),
    hours === null ? NO_SIDE : hoursText(hours),
  ];
}

function timeWords({ plan, machines }: PlanFound): string {
  if (plan.hours === null) return 'unknown: no speed is stated';
  const one = `${durationText(plan.hours)} of turning`;
  return machines === 1
    ? `${one} on one machine, setting up not included`
    : `${one}; on ${machines} machines side by side ${durationText(plan.hours / machines)} at the least, setting up not included`;
}

/** Hours as a timetable says them: days beside them when long. */
function durationText(hours: number): string {
  return hours < 48 ? hoursText(hours) : `${hoursText(hours)} (${figures(hours / 24, 2)} days)`;
}

function hoursText(hours: number): string {
  return hours < 1 ? `${figures(60 * hours, 2)} min` : `${figures(hours, 3)} h`;
}

/** Below this a runout is not worth a number. */
const NO_RUNOUT = 0.05;

function runoutWords({ expectedRunouts, specimens }: PlanFound['plan'], life: number): string {
  const number = expectedRunouts < NO_RUNOUT ? 'none' : `about ${figures(expectedRunouts, 2)}`;
  return `${number} of ${count(specimens, 'specimen')} to be expected, at ${askedLife(life)}`;
}

function chancePercent(chance: number): string {
  if (chance > 0 && chance < 0.001) return '< 0.1 %';
  return chance < 1 && chance > 0.999 ? '> 99.9 %' : `${figures(100 * chance, 2)} %`;
}

function factorText(log10: number): string {
  return log10 > 6 ? 'more than a million' : plainFigures(10 ** log10, 3);
}

function count(number: number, noun: string): string {
  return `${decimalText(String(number), 0)} ${noun}${number === 1 ? '' : 's'}`;
}
