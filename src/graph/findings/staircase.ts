import { exactly, fromInput, type Estimate, type Input } from '../../core/estimate/index.ts';
import { analyseStaircase, nextTest, settableStep, type Staircase, type StaircaseRule } from '../../core/fatigue/index.ts';
import { ok, type Problem, type Result } from '../../core/problem/index.ts';
import { fromSI, intervalToSI, parseUnit, sameDimension, toSI, type Unit } from '../../core/units/index.ts';
import { rowsText, type FitCell } from '../../sheet/index.ts';
import type { Names } from '../compiled-types.ts';
import type { FindingsForm, FormReading, Found, PublishedValue } from './form.ts';
import { everyRow } from '../fit/specimens.ts';
import { placesOf } from '../../core/rows/index.ts';
import { staircaseRows } from './staircase-rows.ts';
import type { StaircaseFindings } from './types.ts';

/** Strength at a life and its scatter, from tests one step up or down. The levels may be stresses, loads or any one quantity. */
export const staircaseForm: FindingsForm = {
  asks: [
    { takes: 'quantity', name: 'step', unit: (cell, names) => levelUnit(cell, names)?.name ?? 'MPa', possible: '> 0' },
    { takes: 'quantity', name: 'smallest_step', unit: (cell, names) => levelUnit(cell, names)?.name ?? 'MPa', possible: '>= 0', usual: 0 },
    { takes: 'table', name: 'settable' },
    { takes: 'quantity', name: 'life', unit: 'cycles', possible: '> 0' },
    { takes: 'quantity', name: 'share', unit: '1', possible: '0.5 .. 0.999999', usual: 0.9 },
    { takes: 'quantity', name: 'confidence', unit: '1', possible: '0.5 .. 0.999999', usual: 0.95 },
    { takes: 'word', name: 'count', words: ['less-frequent', 'fracture', 'runout'], usual: 'less-frequent' },
    { takes: 'word', name: 'method', words: ['counting', 'probit'], usual: 'counting' },
    { takes: 'word', name: 'level' },
  ],
  published: ['S_50', 's_S', 'S_design', 'S_test'],
  unitOf: (name, cell, names) => (staircaseForm.published.includes(name) ? levelUnit(cell, names) : undefined),
  find,
};

/** Column of the levels. */
function levelColumn(cell: FitCell): string {
  const asked = cell.asks.get('level')?.trim() ?? '';
  return asked === '' ? 'S' : asked;
}

/** The unit that the header of the levels says, or else the column. */
function levelUnit(cell: FitCell, names: Names): Unit | undefined {
  const table = names.tables.get(cell.table);
  const column = table?.columns.find(({ key }) => key === levelColumn(cell));
  if (table === undefined || column === undefined) return undefined;
  const { shown, header } = rowsText(table);
  const place = shown.find((one) => one.column === column)?.place;
  const stated = parseUnit(place === undefined ? '' : (header[place]?.unit ?? ''));
  const own = parseUnit(column.unit);
  if (stated.ok && header[place ?? -1]?.unit !== '') return stated.value;
  return own.ok ? own.value : undefined;
}

function find(reading: FormReading): Result<Found> {
  const table = reading.table();
  if (!table.ok) return table;
  const rows = staircaseRows(table.value, levelColumn(reading.cell), reading.quantity('life')?.value);
  if (!rows.ok) return rows;
  const { unit, levels, outcomes, waiting, last } = rows.value;
  const typed = (name: string): number | undefined => {
    const asked = reading.quantity(name)?.value;
    return asked === undefined ? undefined : Number(fromSI(asked, unit).toPrecision(TYPED_FIGURES));
  };
  const [wanted, smallest = 0] = [typed('step'), typed('smallest_step')];
  // What is counted by is the step that is really made, not the one that is wished for.
  const list = listedLevels(reading, unit);
  if (!list.ok) return list;
  const settable = list.value.length === 0 ? undefined : list.value;
  const step = wanted === undefined || settable !== undefined ? wanted : settableStep(wanted, smallest);
  const rule: StaircaseRule = { ...(step === undefined ? {} : { step }), ...(settable === undefined ? {} : { settable }) };
  const tests = { levels, outcomes };
  const highest = levels.reduce((most, level) => Math.max(most, Math.abs(level)), 0);
  if (step !== undefined && highest > MOST_STEPS * step) return { ok: false, problem: stepOutOfProportion('small') };
  if (step !== undefined && highest > 0 && step > MOST_STEPS * highest) return { ok: false, problem: stepOutOfProportion('large') };
  const next = nextTest(tests, rule);
  const count = reading.word('count');
  const analysed = analyseStaircase(tests, {
    ...rule,
    count: count === 'fracture' || count === 'runout' ? count : 'less frequent',
    share: reading.quantity('share')?.value ?? 0.9,
    confidence: reading.quantity('confidence')?.value ?? 0.95,
  });
  const method = reading.word('method') === 'probit' ? 'probit' : 'counting';
  const life = reading.quantity('life')?.value;
  const findings: StaircaseFindings = Object.freeze({
    form: 'staircase', unit, column: levelColumn(reading.cell), ...tests, method, next,
    ...(step === undefined ? {} : { step }),
    ...(settable !== undefined ? { listed: settable } : wanted === undefined || smallest === 0 ? {} : { settable: { wanted, smallest } }),
    ...(life === undefined ? {} : { life }),
    ...(last === undefined ? {} : { last }),
    ...(last !== undefined && waiting.includes(last) ? { waiting: last } : {}),
    ...(analysed.ok ? { result: analysed.value } : { none: analysed.problem }),
  });
  const values = analysed.ok ? strengths(analysed.value, findings, reading.cell) : withoutStrength(analysed.problem);
  if (next !== null) values.set('S_test', { estimate: exactly(toSI(next.level, unit)) });
  return ok({ findings, values, warnings: [...rows.value.warnings, ...(analysed.ok ? analysed.value.warnings : [])] });
}

/** The levels that the machine can set, in the unit of the tests, lowest first; none where no table is asked or it is empty. */
function listedLevels(reading: FormReading, unit: Unit): Result<readonly number[]> {
  const table = reading.askedTable('settable');
  if (table === undefined) return ok([]);
  if (!table.ok) return table;
  const places = Array.from(placesOf(table.value.usable));
  if (places.length === 0) return ok([]);
  const name = levelColumn(reading.cell);
  const column = table.value.columns.find((one) => one.name === name);
  if (column?.unit === undefined) return { ok: false, problem: settableColumn(name) };
  if (!sameDimension(column.unit.dimension, unit.dimension)) return { ok: false, problem: settableUnit(name, column.unit, unit) };
  const levels = everyRow(table.value, name, Number.NaN);
  const used = places.map((row) => Number(fromSI(levels[row] ?? Number.NaN, unit).toPrecision(TYPED_FIGURES)));
  return ok([...new Set(used)].filter((level) => level > 0).sort((a, b) => a - b));
}

/** Figures to which a level is what was typed. */
const TYPED_FIGURES = 12;

function settableColumn(name: string): Problem {
  return {
    code: 'staircase-settable-column',
    what: `The table of the levels that can be set has no column ${name}.`,
    mend: `Give it a column ${name}, one row for each level.`,
    key: 'asks',
  };
}

function settableUnit(name: string, stated: Unit, wanted: Unit): Problem {
  return {
    code: 'staircase-settable-unit',
    what: `The levels that can be set are in ${stated.name || 'plain numbers'}, and those of the tests in ${wanted.name || 'plain numbers'}.`,
    mend: `Give the column ${name} the same unit in both tables.`,
    key: 'asks',
  };
}

function withoutStrength(problem: Problem): Map<string, PublishedValue> {
  return new Map(['S_50', 's_S', 'S_design'].map((name) => [name, { problem }]));
}

function strengths(found: Staircase, { method, unit }: StaircaseFindings, cell: FitCell): Map<string, PublishedValue> {
  const { counted, probit, lowerLimit, degreesOfFreedom } = found;
  const limit: PublishedValue = lowerLimit === null ? { problem: noLimit() } : lowerLimit <= 0 ? { problem: limitBelowZero() } : { estimate: exactly(toSI(lowerLimit, unit)) };
  // A limit holds its confidence already, and rests on the tests alone: it is the same by either way.
  if (method === 'probit' && probit === null) return withoutStrength(noProbit()).set('S_design', limit);
  const [mean, sd, covariance, dof] = method === 'probit' && probit !== null
    ? [probit.mu, probit.sigma, probit.covariance, degreesOfFreedom.probit]
    : [counted.mean, counted.sd, counted.errors?.covariance, degreesOfFreedom.counting];
  const values = new Map<string, PublishedValue>();
  const names = ['S_50', 's_S'] as const;
  const error = (i: number): number => Math.sqrt(Math.max(0, covariance?.[i]?.[i] ?? 0));
  const product = error(0) * error(1);
  const together = product > 0 ? Math.min(1, Math.max(-1, (covariance?.[0]?.[1] ?? 0) / product)) : 0;
  for (const [i, name] of names.entries()) {
    const id = cell.symbols.get(name) ?? name;
    const other = cell.symbols.get(names[1 - i] ?? 'S_50');
    values.set(name, { estimate: estimateOf({
      id,
      value: i === 0 ? toSI(mean, unit) : intervalToSI(sd, unit),
      components: covariance === undefined ? [] : [{
        kind: 'A',
        source: `staircase of ${found.tests} tests`,
        distribution: dof === Infinity ? 'normal' : 't',
        standardUncertainty: intervalToSI(error(i), unit),
        degreesOfFreedom: dof,
      }],
      ...(other === undefined || together === 0 ? {} : { correlations: new Map([[other, together]]) }),
    }) });
  }
  return values.set('S_design', limit);
}

function estimateOf(input: Input): Estimate {
  return fromInput(Object.freeze(input));
}

/** Steps from zero to a level, or levels to a step: more are no staircase, and leave the numbers when they are squared. */
const MOST_STEPS = 1e6;

function stepOutOfProportion(size: 'small' | 'large'): Problem {
  return {
    code: 'staircase-step-size',
    what: `The step is so ${size} beside the levels that they can’t be counted in steps.`,
    mend: 'Look at the step and its unit.',
    key: 'asks',
  };
}

function noProbit(): Problem {
  return {
    code: 'staircase-no-likelihood',
    what: 'Maximum likelihood finds no strength here: fractures and runouts don’t overlap.',
    mend: 'Choose counting, or go on testing.',
  };
}

function noLimit(): Problem {
  return {
    code: 'staircase-no-limit',
    what: 'These tests give no lower limit: there are more than 100 different levels, or fractures and runouts lie hundreds of steps apart.',
    mend: 'Look at the levels and at the step.',
  };
}

function limitBelowZero(): Problem {
  return {
    code: 'staircase-limit-below-zero',
    what: 'These tests bound the strength by nothing above zero: they hardly tell its standard deviation.',
    mend: 'Go on testing, or take a smaller step.',
  };
}
