import { parseUnit, sameDimension, STRESS_DIMENSION, toSI, usualUnits } from '../../core/units/index.ts';
import type { TableColumn } from '../../sheet/index.ts';
import { numberParts } from './number-marks.ts';
import type { UnitReading } from './types.ts';

/** Words for a plain number of cycles in a head, plain (common practice, no published source). */
const CYCLES = /^(?:[-–—]|1|cycles?|zyklen|schwingspiele|lastspiele|lastwechsel|lw|ciclos)?$/i;
/** Powers of ten that a head of cycles states: `10^3`, `10⁶`, `thousand`. */
const POWERS: readonly (readonly [RegExp, string])[] = [
  [/^(?:1000|k|kcycles|kilocycles|thousands?|tsd\.?|tausend|milliers|miles)$/i, 'e3'],
  [/^(?:1000000|mio\.?|millionen|millions?|millones)$/i, 'e6'],
];
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

const COUNT_CHOICES: readonly string[] = ['cycles', 'e3', 'e6'];
const STRESS_CHOICES: readonly string[] = ['MPa', 'ksi', 'GPa', 'N/mm^2', 'psi'];

/** The unit that the bare numbers of a column are in: as its head says, else the table's own where nothing speaks against it. */
export function readUnitIn(column: TableColumn, typed: string, tableUnit: string, fields: readonly string[], said: string | undefined): UnitReading {
  const choices = choicesFor(column, tableUnit);
  if (said !== undefined) return { unit: said, typed, by: 'reader', choices };
  if (column.type === 'count') return countUnit(typed, tableUnit, choices);
  if (typed !== '') {
    const stated = parseUnit(withPowers(typed));
    const own = parseUnit(tableUnit);
    if (!stated.ok) return { typed, by: 'unknown', choices };
    if (!own.ok || !sameDimension(stated.value.dimension, own.value.dimension)) return { typed, by: 'other dimension', choices };
    return { unit: stated.value.name, typed, by: 'head', choices: choices.includes(stated.value.name) ? choices : [stated.value.name, ...choices] };
  }
  const parts = fields.flatMap((field) => numberParts(field) ?? []);
  if (parts.length > 0 && parts.every(({ rest }) => rest.trim() !== '')) return { unit: tableUnit, typed, by: 'fields', choices };
  const bare = parts.filter(({ rest }) => rest.trim() === '').map(({ digits }) => Number(digits.replace(',', '.'))).filter((number) => !Number.isNaN(number));
  return isDoubtful(tableUnit, bare) ? { typed, by: 'not stated', choices } : { unit: tableUnit, typed, by: 'table', choices };
}

/** N/mm2 as drawings and programs write it. */
function withPowers(typed: string): string {
  return typed.replace(/([a-z])([23])(?![\d])/g, '$1^$2');
}

function countUnit(typed: string, tableUnit: string, choices: readonly string[]): UnitReading {
  if (CYCLES.test(typed.trim())) return { unit: tableUnit, typed, by: typed === '' ? 'table' : 'head', choices };
  const power = powerOf(typed.trim());
  return power === undefined ? { typed, by: 'unknown', choices } : { unit: power, typed, by: 'head', choices: choices.includes(power) ? choices : [power, ...choices] };
}

function powerOf(typed: string): string | undefined {
  const named = POWERS.find(([words]) => words.test(typed));
  if (named !== undefined) return named[1];
  const [, plain, raised] = /^[x×·*]?\s*10(?:\s*\^\s*(\d)|([⁰¹²³⁴-⁹]))(?:\s*(?:cycles|zyklen|ciclos))?$/iu.exec(typed) ?? [];
  return plain !== undefined ? `e${plain}` : raised !== undefined ? `e${SUPERSCRIPTS.indexOf(raised)}` : undefined;
}

function choicesFor(column: TableColumn, tableUnit: string): readonly string[] {
  if (column.type === 'count') return column.unit === '1' || column.unit === '' ? ['1'] : COUNT_CHOICES;
  const own = parseUnit(tableUnit);
  const usual = !own.ok ? [] : sameDimension(own.value.dimension, STRESS_DIMENSION) ? STRESS_CHOICES : usualUnits(own.value.dimension);
  return [...new Set([tableUnit, ...usual])];
}

/** Stresses that would be small or large for a fatigue test if they were in this unit: 150 MPa and 2 GPa, from memory of metals' strengths. */
function isDoubtful(unit: string, numbers: readonly number[]): boolean {
  const read = parseUnit(unit);
  if (numbers.length === 0 || !read.ok || !sameDimension(read.value.dimension, STRESS_DIMENSION)) return false;
  const pascals = numbers.map((number) => toSI(number, read.value));
  const largest = pascals.reduce((most, one) => Math.max(most, one), 0);
  return largest < 150e6 || largest > 2e9;
}
