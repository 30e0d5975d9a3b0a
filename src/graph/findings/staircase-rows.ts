import type { Outcome } from '../../core/fatigue/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { fromSI, ONE, type Unit } from '../../core/units/index.ts';
import { everyRow, hasColumn } from '../fit/specimens.ts';
import { placesOf } from '../../core/rows/index.ts';
import type { TableState } from '../table/index.ts';

/** Rows of a table as the tests of a staircase; every row has its place, also those that do not count. */
interface StaircaseRows {
  readonly unit: Unit;
  /** In `unit`, as typed; NaN where there is none. */
  readonly levels: readonly number[];
  /** `invalid` also for rows left out, and for those without an outcome. */
  readonly outcomes: readonly Outcome[];
  /** Places of rows that have a level and wait for their outcome. */
  readonly waiting: readonly number[];
  readonly last: number | undefined;
  readonly warnings: readonly Problem[];
}

/** Figures to which a level is what was typed: a conversion and its way back leave it elsewhere by a little. */
const TYPED_FIGURES = 12;

/** @param runoutCycles what a runout has to have reached; not looked at where left out */
export function staircaseRows(table: TableState, levelColumn: string, runoutCycles: number | undefined): Result<StaircaseRows> {
  for (const name of [levelColumn, 'outcome']) if (!hasColumn(table, name)) return fail(columnMissing(name, levelColumn));
  const unit = table.columns.find(({ name }) => name === levelColumn)?.unit ?? ONE;
  const valid = everyRow(table, 'valid', true);
  const stated = everyRow(table, 'outcome', '') as readonly (Outcome | '')[];
  const cycles = everyRow(table, 'N', Number.NaN);
  const levels = everyRow(table, levelColumn, Number.NaN).map((level) => Number(fromSI(level, unit).toPrecision(TYPED_FIGURES)));
  const used = new Set(Array.from(placesOf(table.usable)));
  const outcomes = stated.map((outcome, row): Outcome => (used.has(row) && valid[row] === true && outcome !== '' ? outcome : 'invalid'));
  const waiting = stated.flatMap((outcome, row) => (used.has(row) && valid[row] === true && outcome === '' && (levels[row] ?? 0) > 0 ? [row] : []));
  const last = [...used].sort((a, b) => a - b).at(-1);
  const limit = (runoutCycles ?? Number.NaN) * (1 - 1e-9);
  const early = outcomes.flatMap((outcome, row) => (outcome === 'runout' && (cycles[row] ?? Number.NaN) < limit ? [row] : []));
  const late = outcomes.flatMap((outcome, row) => (outcome === 'fracture' && (cycles[row] ?? Number.NaN) > limit ? [row] : []));
  const between = waiting.filter((row) => row !== last);
  return ok({
    unit, levels, outcomes, waiting, last,
    warnings: [
      ...(between.length > 0 ? [noOutcome(between)] : []),
      ...(early.length > 0 ? [endedEarly(early)] : []),
      ...(late.length > 0 ? [brokeLate(late)] : []),
    ],
  });
}

const MOST_NAMED = 5;

function rowsNamed(rows: readonly number[]): string {
  const names = rows.slice(0, MOST_NAMED).map((row) => row + 1).join(', ');
  return `${rows.length === 1 ? 'Row' : 'Rows'} ${names}${rows.length > MOST_NAMED ? ' and more' : ''}`;
}

function noOutcome(rows: readonly number[]): Problem {
  return {
    code: 'staircase-no-outcome',
    what: `${rowsNamed(rows)} ${rows.length === 1 ? 'has' : 'have'} no outcome, though later tests have one, and ${rows.length === 1 ? 'is' : 'are'} left out.`,
    mend: 'Write what became of the specimen.',
  };
}

function endedEarly(rows: readonly number[]): Problem {
  return {
    code: 'staircase-runout-early',
    what: `${rowsNamed(rows)} ${rows.length === 1 ? 'is called a runout' : 'are called runouts'} with fewer cycles than the runout life; taken as unbroken all the same.`,
    mend: 'Correct the cycles, or set the outcome to suspended.',
  };
}

function brokeLate(rows: readonly number[]): Problem {
  return {
    code: 'staircase-fracture-late',
    what: `${rowsNamed(rows)} broke only after the runout life; taken as broken all the same.`,
    mend: 'For the strength at that life such a specimen is a runout: set its outcome, or correct the cycles.',
  };
}

function columnMissing(name: string, levelColumn: string): Problem {
  return {
    code: 'staircase-column',
    what: `The table has no column ${name}.`,
    mend: `A staircase needs a column ${levelColumn} for the level and a column outcome, one row for each test in the order they were made.`,
    key: 'table',
  };
}
