import { combine, exactly } from '../../core/estimate/index.ts';
import {
  plannedHalfWidth, planTests, specimensPerLevel,
  type ExpectedLine, type PlannedLevel, type WantedPrecision,
} from '../../core/fatigue/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { parseUnit, type Unit } from '../../core/units/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import { settingsOf } from '../fit/line-node.ts';
import type { Names } from '../compiled-types.ts';
import { everyRow, hasColumn } from '../fit/specimens.ts';
import { placesOf } from '../../core/rows/index.ts';
import type { TableState } from '../table/index.ts';
import type { FormReading, FindingsForm, Found, PublishedValue } from './form.ts';
import type { PlanFound, PlanWish } from './types.ts';

/** Tests that are still to be made: how sure a line they will give, and how long they take, by a line that is expected. */
export const planForm: FindingsForm = {
  asks: [
    { takes: 'quantity', name: 'A', unit: '1', possible: 'any' },
    { takes: 'quantity', name: 'B', unit: '1', possible: '< 0' },
    { takes: 'quantity', name: 's', unit: '1', possible: '> 0' },
    { takes: 'quantity', name: 'life', unit: 'cycles', possible: '> 0' },
    { takes: 'quantity', name: 'speed', unit: 'rev/min', possible: '> 0' },
    { takes: 'quantity', name: 'machines', unit: '1', possible: '1 .. 1000', usual: 1, whole: true },
    { takes: 'quantity', name: 'confidence', unit: '1', possible: '0.5 .. 0.999999', usual: 0.95 },
    { takes: 'quantity', name: 'stress', unit: 'MPa', possible: '> 0' },
    { takes: 'quantity', name: 'width_B', unit: '1', possible: '> 0' },
    { takes: 'quantity', name: 'factor_N', unit: '1', possible: '> 1' },
  ],
  published: ['n', 'replication', 'width_B', 'factor_N', 't'],
  unitOf: (name, cell, names) => {
    if (!planForm.published.includes(name)) return undefined;
    return unitNamed(name === 't' ? 'h' : name === 'replication' ? '%' : name === 'width_B' && isPlain(cell, names) ? 'MPa^-1' : '1');
  },
  find,
};

function unitNamed(text: string): Unit | undefined {
  const unit = parseUnit(text);
  return unit.ok ? unit.value : undefined;
}

/** Whether B stands before the stress itself: that of a fit may; one that is typed stands before its logarithm. */
function isPlain({ of }: FitCell, names: Names): boolean {
  const fit = of === undefined ? undefined : names.fits.get(of);
  return fit !== undefined && settingsOf(fit, names).words.stress === 'plain';
}

function find(reading: FormReading): Result<Found> {
  const line = expectedLine(reading);
  if (!line.ok) return line.problem.code === NOT_STRAIGHT ? ok(withoutPlan(line.problem)) : line;
  const table = reading.table();
  if (!table.ok) return table;
  const levels = plannedLevels(table.value);
  if (!levels.ok) return levels;
  const quantity = (name: string): number | undefined => reading.quantity(name)?.value;
  const confidence = quantity('confidence') ?? 0.95;
  const speed = reading.quantity('speed');
  const life = quantity('life');
  const planned = planTests(line.value, levels.value, {
    confidence,
    ...(life === undefined ? {} : { runoutCycles: life }),
    ...(speed === undefined ? {} : { cyclesPerMinute: speed.value * 60 }),
  });
  if (!planned.ok) return planned;
  const plan = planned.value;
  const machines = quantity('machines') ?? 1;
  const stress = quantity('stress');
  const halfWidth = stress === undefined ? undefined : plannedHalfWidth(line.value, levels.value, stress / 1e6, confidence);
  const findings: PlanFound = Object.freeze({
    form: 'plan', plan, line: line.value, confidence, machines,
    isStated: STATED.every((name) => reading.quantity(name) !== undefined),
    wishes: wishesOf(reading, line.value, levels.value, confidence),
    ...(life === undefined ? {} : { life }),
    ...(speed === undefined ? {} : { speed: speed.value }),
    ...(stress === undefined || halfWidth === undefined ? {} : { atStress: { stress, halfWidth } }),
  });
  const values = new Map<string, PublishedValue>([
    ['n', { estimate: exactly(plan.specimens) }],
    ['replication', { estimate: exactly(plan.replication.percent / 100) }],
    ['width_B', { estimate: exactly(line.value.stress === 'plain' ? plan.halfWidthB / 1e6 : plan.halfWidthB) }],
    ['factor_N', halfWidth === undefined ? { problem: notAsked('stress') } : { estimate: exactly(10 ** halfWidth) }],
  ]);
  if (plan.hours === null || speed === undefined) values.set('t', { problem: notAsked('speed') });
  else {
    const seconds = (plan.hours * 3600) / machines;
    values.set('t', { estimate: combine(seconds, [{ estimate: speed, derivative: -seconds / speed.value }]) });
  }
  return ok({ findings, values, warnings: [] });
}

const STATED = ['A', 'B', 's'];

/** The line of another fit, or A, B and s as they are stated. What is stated goes before what is fitted. */
function expectedLine(reading: FormReading): Result<ExpectedLine> {
  const [A, B, s] = STATED.map((name) => reading.quantity(name)?.value);
  if (A !== undefined && B !== undefined && s !== undefined) return ok({ A, B, s, stress: 'log' });
  if (reading.cell.of === undefined) return fail(lineNotStated());
  const fitted = reading.line();
  if (!fitted.ok) return fitted;
  const { fit } = fitted.value;
  if (fit.model !== 'linear' || fit.life !== 'lognormal') return fail(lineNotStraight());
  const [a, b] = fit.parameters;
  return ok({ A: A ?? a?.value ?? 0, B: B ?? b?.value ?? 0, s: s ?? fit.s, stress: fit.stress });
}

/** One row is one level; a level that stands twice is counted once by the core. */
function plannedLevels(table: TableState): Result<readonly PlannedLevel[]> {
  for (const name of ['S', 'count']) if (!hasColumn(table, name)) return fail(columnMissing(name));
  const stress = everyRow(table, 'S', Number.NaN);
  const count = everyRow(table, 'count', 1);
  const levels = Array.from(placesOf(table.usable))
    .map((row) => ({ stressMpa: (stress[row] ?? Number.NaN) / 1e6, specimens: Math.round(count[row] ?? 0) }))
    .filter(({ stressMpa, specimens }) => stressMpa > 0 && specimens >= 1);
  return levels.length === 0 ? fail(nothingPlanned()) : ok(levels);
}

function wishesOf(reading: FormReading, line: ExpectedLine, levels: readonly PlannedLevel[], confidence: number): readonly PlanWish[] {
  const stresses = [...new Set(levels.map(({ stressMpa }) => stressMpa))];
  const [width, factor, stress] = ['width_B', 'factor_N', 'stress'].map((name) => reading.quantity(name)?.value);
  const wish = (wanted: WantedPrecision): PlanWish => ({ wanted, levels: stresses.length, each: specimensPerLevel(line, stresses, wanted, confidence) });
  return [
    // Before the stress itself B is no plain number, and what is wanted of it is asked as one.
    ...(width === undefined || line.stress === 'plain' ? [] : [wish({ of: 'B', halfWidth: width })]),
    ...(factor === undefined || stress === undefined ? [] : [wish({ of: 'life', stressMpa: stress / 1e6, log10HalfWidth: Math.log10(factor) })]),
  ];
}

function lineNotStated(): Problem {
  return {
    code: 'plan-line',
    what: 'A plan needs the line that is expected.',
    mend: 'Name the fit it comes from, such as `of: line`, or state A, B and s under `asks`: from pilot tests, an earlier class, or an estimate.',
    key: 'asks',
  };
}

const NOT_STRAIGHT = 'plan-line-shape';

/** The fit that is asked may be set to another shape for its own sake: that is no slip of the reader's here. */
function withoutPlan(problem: Problem): Found {
  return { findings: Object.freeze({ form: 'plan', none: problem }), values: new Map(planForm.published.map((name) => [name, { problem }])), warnings: [] };
}

function lineNotStraight(): Problem {
  return {
    code: NOT_STRAIGHT,
    what: 'A plan takes a straight line with lognormal lives.',
    mend: 'Choose the straight line and lognormal lives, or state A, B and s under `asks`.',
    key: 'of',
  };
}

function columnMissing(name: string): Problem {
  return {
    code: 'plan-column',
    what: `The table has no column ${name}.`,
    mend: 'A plan needs a column S for the stress amplitude and a column count for the number of specimens.',
    key: 'table',
  };
}

function nothingPlanned(): Problem {
  return { code: 'plan-empty', what: 'No level is planned yet.', mend: 'Write each level with its number of specimens into the table.', key: 'table' };
}

function notAsked(name: string): Problem {
  return { code: 'plan-not-asked', what: `No ${name} is stated.`, mend: `Add \`${name}\` under \`asks\`.`, key: 'asks' };
}
