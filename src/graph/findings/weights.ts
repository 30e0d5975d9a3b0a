import { combine, fromInput, type Component, type Estimate } from '../../core/estimate/index.ts';
import { combinationsOf, leverSettings, MOST_COMBINATIONS, type LeverSetting, type LeverToSet, type OwnedWeight } from '../../core/mechanics/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { placesOf } from '../../core/rows/index.ts';
import { parseUnit, sameDimension, type Unit } from '../../core/units/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { Names } from '../compiled-types.ts';
import { everyRow, hasColumn } from '../fit/specimens.ts';
import type { TableState } from '../table/index.ts';
import type { FindingsForm, FormReading, Found, PublishedValue } from './form.ts';
import type { WeightsFindings } from './types.ts';

/** Which weights of those owned, and where on a lever, for a wanted load. The table holds masses, or weights as forces. */
export const weightsForm: FindingsForm = {
  asks: [
    { takes: 'quantity', name: 'load', unit: 'N', possible: '> 0' },
    { takes: 'quantity', name: 'arm', unit: 'mm', possible: '> 0' },
    { takes: 'quantity', name: 'rest', unit: 'N·m', possible: 'any', usual: 0 },
    { takes: 'quantity', name: 'hanging', unit: 'N', possible: '>= 0', usual: 0 },
    { takes: 'quantity', name: 'gravity', unit: 'm/s^2', possible: '> 0', usual: 9.80665 },
    { takes: 'quantity', name: 'carrier', unit: (cell, names) => columnUnit(cell, names)?.name ?? 'kg', possible: '>= 0', usual: 0 },
    { takes: 'quantity', name: 'from', unit: 'mm', possible: '>= 0' },
    { takes: 'quantity', name: 'to', unit: 'mm', possible: '> 0' },
    { takes: 'quantity', name: 'apart', unit: 'mm', possible: '>= 0', usual: 0 },
    { takes: 'quantity', name: 'within', unit: 'mm', possible: '>= 0', usual: 0 },
    { takes: 'quantity', name: 'near', unit: '1', possible: '>= 0', usual: 0.002 },
  ],
  published: ['mass', 'place'],
  unitOf: (name, cell, names) => {
    if (name === 'mass') return columnUnit(cell, names);
    const unit = parseUnit('mm');
    return name === 'place' && unit.ok ? unit.value : undefined;
  },
  find,
};

/** Column of the masses, or of the weights as forces. */
const MASS = 'm';
const NEEDED = ['load', 'arm', 'from', 'to'] as const;

function columnUnit(cell: FitCell, names: Names): Unit | undefined {
  const unit = parseUnit(names.tables.get(cell.table)?.columns.find(({ key }) => key === MASS)?.unit ?? '');
  return unit.ok ? unit.value : undefined;
}

function find(reading: FormReading): Result<Found> {
  const table = reading.table();
  if (!table.ok) return table;
  if (!hasColumn(table.value, MASS)) return fail(columnMissing());
  const unit = table.value.columns.find(({ name }) => name === MASS)?.unit;
  const kilogram = parseUnit('kg');
  const isMass = unit !== undefined && kilogram.ok && sameDimension(unit.dimension, kilogram.value.dimension);
  const missing = NEEDED.find((name) => reading.quantity(name) === undefined);
  if (missing !== undefined) return fail(notAsked(missing));
  const lever = leverOf(reading, isMass);
  if (!(lever.from < lever.to)) return fail(noTravel());
  const rows = ownedRows(table.value);
  if (rows.length === 0) return ok(withoutSetting(lever, isMass, nothingOwned()));
  const owned = rows.map(({ mass, count }): OwnedWeight => ({ mass, count }));
  if (combinationsOf(owned) > MOST_COMBINATIONS) return ok(withoutSetting(lever, isMass, tooMany(combinationsOf(owned))));
  const settings = leverSettings(owned, lever);
  const [best] = settings.settings;
  if (best === undefined) return ok(withoutSetting(lever, isMass, nothingOwned()));
  const findings: WeightsFindings = Object.freeze({ form: 'weights', isMass, lever, rows: rows.map(({ row }) => row), owned, settings });
  return ok({ findings, values: publishedOf(reading, best, rows), warnings: [] });
}

function leverOf(reading: FormReading, isMass: boolean): LeverToSet {
  const value = (name: string): number => reading.quantity(name)?.value ?? 0;
  return Object.freeze({
    wanted: value('load'), arm: value('arm'), rest: value('rest'), hanging: value('hanging'), gravity: isMass ? value('gravity') : 1,
    carrier: value('carrier'), from: value('from'), to: value('to'), apart: value('apart'), near: value('near'),
  });
}

interface OwnedRow extends OwnedWeight {
  /** Its place in the table. */
  readonly row: number;
  readonly u: number;
}

/** Rows with a mass, each as often as its number says. */
function ownedRows(table: TableState): readonly OwnedRow[] {
  const [masses, us, counts] = [MASS, 'u_m', 'n'].map((name) => everyRow(table, name, Number.NaN));
  return Array.from(placesOf(table.usable)).flatMap((row): OwnedRow[] => {
    const [mass, u, count] = [masses?.[row] ?? Number.NaN, us?.[row] ?? Number.NaN, counts?.[row] ?? Number.NaN];
    return mass > 0 ? [{ row, mass, u: u > 0 ? u : 0, count: Number.isNaN(count) ? 1 : Math.max(0, Math.round(count)) }] : [];
  });
}

/** The chosen weights as an input of their own, put with the carrier; the place is exact but for how it can be set. */
function publishedOf(reading: FormReading, best: LeverSetting, rows: readonly OwnedRow[]): Map<string, PublishedValue> {
  const idOf = (name: string): string => reading.cell.symbols.get(name) ?? name;
  const components = rows.flatMap(({ u, row }, i): Component[] => {
    // Weights alike are off alike: they come from one set.
    const size = u * (best.counts[i] ?? 0);
    return size > 0 ? [{ kind: 'B', source: `row ${row + 1}, as stated`, distribution: 'normal', standardUncertainty: size, degreesOfFreedom: Infinity }] : [];
  });
  const carrier = reading.quantity('carrier');
  const own = fromInput(Object.freeze({ id: idOf('mass'), value: best.mass - (carrier?.value ?? 0), components }));
  const mass: Estimate = combine(best.mass, [{ estimate: own, derivative: 1 }, ...(carrier === undefined ? [] : [{ estimate: carrier, derivative: 1 }])]);
  const within = reading.quantity('within')?.value ?? 0;
  const place = fromInput(Object.freeze({ id: idOf('place'), value: best.place, components: within > 0
    ? [{ kind: 'B', source: 'how exactly a place is set', distribution: 'rectangular', standardUncertainty: within / Math.sqrt(3), degreesOfFreedom: Infinity } as const]
    : [] }));
  return new Map<string, PublishedValue>([
    ['mass', { estimate: mass }],
    ['place', { estimate: place }],
  ]);
}

/** Without a list of weights there is a lever all the same. */
function withoutSetting(lever: LeverToSet, isMass: boolean, problem: Problem): Found {
  return {
    findings: Object.freeze({ form: 'weights', isMass, lever, rows: [], owned: [], none: problem }),
    values: new Map(weightsForm.published.map((name) => [name, { problem }])),
    warnings: [],
  };
}

function nothingOwned(): Problem {
  return { code: 'weights-none', what: 'No weights are listed yet.', mend: 'Write down the weights that the laboratory owns, one row for each, or for several alike.', key: 'table' };
}

function tooMany(combinations: number): Problem {
  return {
    code: 'weights-many',
    what: `These weights can be put together in ${combinations < 1e9 ? combinations : 'more than a milliard'} ways, too many to go through.`,
    mend: 'List only those that come into question, about 17 different ones at most.',
    key: 'table',
  };
}

function columnMissing(): Problem {
  return { code: 'weights-column', what: 'The table has no column m.', mend: 'It needs a column m for the mass of each weight; u_m for its uncertainty and n for how many are alike may be left out.', key: 'table' };
}

function noTravel(): Problem {
  return { code: 'weights-travel', what: 'The near end of the travel is not nearer than the far one.', mend: 'Look at both ends of the travel.', key: 'asks' };
}

function notAsked(name: string): Problem {
  return { code: 'weights-not-asked', what: `No ${name} is stated.`, mend: `Add \`${name}\` under \`asks\`.`, key: 'asks' };
}
