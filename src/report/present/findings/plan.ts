import type { PlanRow } from '../../../core/fatigue/index.ts';
import type { UnitSystem } from '../../../core/units/types.ts';
import type { PlanFindings, PlanWish } from '../../../graph/index.ts';
import type { FitCell } from '../../../sheet/types.ts';
import { replicationWords } from '../fit-words.ts';
import { decimalText, figures, unitText } from '../number.ts';
import type { PresentedSmallTable } from '../types.ts';
import { askedLife, askedStress, lifeText, NO_SIDE, percent, stressText, stressUnit, type FindingsWords } from './words.ts';

/** What planned tests will give and how long they take. */
export function planWords(findings: PlanFindings, cell: FitCell, system: UnitSystem): FindingsWords {
  const { plan, confidence, machines, life, speed, isExpected } = findings;
  return {
    settings: [
      isExpected ? 'by the line that is expected' : `by the line of ${cell.of}`,
      `${percent(confidence)} confidence`,
      ...(life === undefined ? ['no runouts'] : [`runouts at ${askedLife(life)}`]),
      ...(speed === undefined ? [] : [`${figures(60 * speed, 4).replace(/\.0+$/, '')} rev/min`]),
      ...(machines === 1 ? [] : [`${machines} machines`]),
    ],
    sentences: [leadOf(findings, system), ...findings.wishes.map((wish) => wishWords(wish, findings, system)), 'The limits are those of a line through broken specimens only; every runout makes them wider, and no plan is better than the line it expects.'],
    tables: [levelTable(findings, system)],
    facts: [
      { name: 'Replication', text: `${replicationWords(plan.replication)} (classes of ASTM E739)` },
      { name: 'Runouts', text: life === undefined ? 'none: no runout life is stated' : `${figures(plan.expectedRunouts, 2)} of ${plan.specimens} specimens are expected to reach ${askedLife(life)}` },
      { name: 'Time', text: timeWords(findings) },
    ],
  };
}

function leadOf({ plan, atStress, confidence, line }: PlanFindings, system: UnitSystem): string {
  const unit = line.stress === 'plain' ? ' per MPa' : '';
  const slope = `B to ± ${figures(plan.halfWidthB, 3)}${unit}`;
  const life = atStress === undefined
    ? ''
    : `, and the median life at ${askedStress(atStress.stress, system)} to a factor of ${factorText(atStress.halfWidth)} either way`;
  return `${count(plan.specimens, 'specimen')} at ${count(plan.replication.levels, 'level')} will tell ${slope}${life}, with ${percent(confidence)} confidence.`;
}

function wishWords({ wanted, levels, each }: PlanWish, { line }: PlanFindings, system: UnitSystem): string {
  const what = wanted.of === 'B'
    ? `B to ± ${figures(wanted.halfWidth, 3)}${line.stress === 'plain' ? ' per MPa' : ''}`
    : `the median life at ${askedStress(wanted.stressMpa * 1e6, system)} to a factor of ${factorText(wanted.log10HalfWidth)}`;
  return each === null
    ? `For ${what}, not even 500 specimens at each of ${count(levels, 'level')} are enough: spread the levels, or ask for less.`
    : `For ${what} it takes ${count(each, 'specimen')} at each of these ${count(levels, 'level')}, ${each * levels} in all.`;
}

function levelTable({ plan, life }: PlanFindings, system: UnitSystem): PresentedSmallTable {
  const heads = ['Specimens', 'Median life / cycles', 'Chance of a runout', 'Mean cycles of a test', 'Machine time'];
  return {
    caption: 'What the plan takes',
    heads: [{ text: `Level / ${unitText(stressUnit(system))}` }, ...heads.map((text) => ({ text }))],
    rows: plan.rows.map((row) => ({ head: { text: stressText(row.stressMpa, system) }, cells: levelCells(row, life) })),
    note: 'Machine time is that of all tests at the level, stopped at the runout life; setting up comes on top.',
  };
}

function levelCells({ specimens, medianCycles, runoutChance, meanCycles, hours }: PlanRow, life: number | undefined): readonly string[] {
  return [
    decimalText(String(specimens), 0),
    lifeText(Math.log10(medianCycles)),
    life === undefined ? NO_SIDE : chancePercent(runoutChance),
    lifeText(Math.log10(meanCycles)),
    hours === null ? NO_SIDE : durationText(hours),
  ];
}

function timeWords({ plan, machines }: PlanFindings): string {
  if (plan.hours === null) return 'unknown: no speed is stated';
  const one = `${durationText(plan.hours)} of turning`;
  return machines === 1
    ? `${one} on one machine, setting up not included`
    : `${one}; on ${machines} machines side by side ${durationText(plan.hours / machines)} at the least, setting up not included`;
}

/** Hours as a timetable says them: minutes when short, days beside them when long. */
function durationText(hours: number): string {
  if (hours < 1) return `${figures(60 * hours, 2)} min`;
  const text = `${figures(hours, 3)} h`;
  return hours < 48 ? text : `${text} (${figures(hours / 24, 2)} days)`;
}

function chancePercent(chance: number): string {
  if (chance > 0 && chance < 0.001) return 'below 0.1 %';
  return chance < 1 && chance > 0.999 ? 'above 99.9 %' : `${figures(100 * chance, 2)} %`;
}

function factorText(log10: number): string {
  return log10 > 6 ? 'more than a million' : figures(10 ** log10, 3);
}

function count(number: number, noun: string): string {
  return `${decimalText(String(number), 0)} ${noun}${number === 1 ? '' : 's'}`;
}
