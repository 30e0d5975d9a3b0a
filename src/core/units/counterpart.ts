import { unitOfFactors, type UnitFactor } from './compound.ts';
import { readUnit } from './parse-unit.ts';
import type { Unit, UnitSystem } from './types.ts';
import { definitionOf } from './unit-words.ts';

/** Units of the other system, symbol by symbol; a symbol that is missing belongs to both. */
const BY_SYMBOL: Readonly<Record<UnitSystem, ReadonlyMap<string, string>>> = {
  'US customary': new Map([
    ['m', 'in'],
    ['mm', 'in'],
    ['cm', 'in'],
    ['km', 'ft'],
    ['\u00b5m', 'mil'],
    ['kg', 'lb'],
    ['g', 'lb'],
    ['N', 'lbf'],
    ['mN', 'lbf'],
    ['kN', 'kip'],
    ['MN', 'kip'],
    ['kgf', 'lbf'],
    ['gf', 'lbf'],
    ['Pa', 'psi'],
    ['hPa', 'psi'],
    ['kPa', 'psi'],
    ['bar', 'psi'],
    ['MPa', 'ksi'],
    ['GPa', 'Mpsi'],
    ['\u00b0C', '\u00b0F'],
  ]),
  SI: new Map([
    ['in', 'mm'],
    ['ft', 'm'],
    ['mil', '\u00b5m'],
    ['thou', '\u00b5m'],
    ['lb', 'kg'],
    ['lbf', 'N'],
    ['kip', 'kN'],
    ['ozf', 'N'],
    ['kgf', 'N'],
    ['gf', 'N'],
    ['psi', 'MPa'],
    ['ksi', 'MPa'],
    ['Mpsi', 'GPa'],
    ['\u00b0F', '\u00b0C'],
  ]),
};

/** Compounds whose counterpart is not the product of their factors' counterparts. */
const BY_NAME: Readonly<Record<UnitSystem, ReadonlyMap<string, string>>> = {
  'US customary': new Map([
    ['N/mm^2', 'ksi'],
    ['kgf/mm^2', 'ksi'],
    ['kN/mm^2', 'Mpsi'],
    ['J', 'lbf\u00b7in'],
  ]),
  SI: new Map([
    ['lbf\u00b7in', 'N\u00b7m'],
    ['in\u00b7lbf', 'N\u00b7m'],
    ['ft\u00b7lbf', 'N\u00b7m'],
    ['kip\u00b7in', 'kN\u00b7m'],
    ['lbf/in^2', 'MPa'],
    ['kip/in^2', 'MPa'],
    ['kgf/mm^2', 'MPa'],
    ['ksi\u00b7in^0.5', 'MPa\u00b7m^0.5'],
  ]),
};

/**
 * The unit in which the reader's system shows what `unit` measures: MPa and ksi, N·m and lbf·in, mm and in. A unit
 * that belongs to the system already, or to both (s, rev/min, %, V), comes back unchanged. Compounds that are not in
 * the table are mapped factor by factor: N·mm to lbf·in, mm^4 to in^4.
 */
export function counterpart(unit: Unit, system: UnitSystem): Unit {
  const wholeName = BY_NAME[system].get(unit.name);
  if (wholeName !== undefined) return unitOfFactors(unitFactors(wholeName));
  const factors = unitFactors(unit.name);
  const mapped = factors.map((factor): UnitFactor => {
    const symbol = BY_SYMBOL[system].get(factor.definition.symbol);
    return symbol === undefined ? factor : { ...factor, definition: definitionOf(symbol) };
  });
  return mapped.every((factor, place) => factor === factors[place]) ? unit : unitOfFactors(mapped);
}

/** The factors of a unit by its name, which is always one that the sheet can read. */
export function unitFactors(name: string): readonly UnitFactor[] {
  const reading = readUnit(name);
  if (!reading.ok) throw new Error(`unit ${name} has a name that cannot be read`);
  return reading.value.factors;
}
