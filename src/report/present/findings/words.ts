import { counterpart, fromSI, ONE, parseUnit } from '../../../core/units/index.ts';
import type { Unit, UnitSystem } from '../../../core/units/types.ts';
import { decimalText, figures, unitText, withUnit } from '../number.ts';
import type { PresentedFindings } from '../types.ts';

/** What one form has to say; label, notes and problems are those of any cell. */
export type FindingsWords = Pick<PresentedFindings, 'settings' | 'sentences' | 'tables' | 'facts' | 'advice' | 'suggestedRow' | 'bench'>;

/** Stands where a kind of limit has no such side. */
export const NO_SIDE = '–';
/** Stands where the data set no bound. */
export const NOT_BOUNDED = 'not bounded';

const LONGEST_LOG_LIFE = 15;
const LIFE_FIGURES = 3;
const STRENGTH_FIGURES = 4;

/** `90 %`, `99.9 %`, not broken at the line's end. */
export function percent(share: number): string {
  return `${Number((100 * share).toPrecision(8))}\u00a0%`;
}

/** A life from its logarithm, in cycles without the unit; words where it is no length that a test could have. */
export function lifeText(log10: number | null): string {
  if (log10 === null || Number.isNaN(log10)) return NOT_BOUNDED;
  if (log10 > LONGEST_LOG_LIFE) return `more than ${decimalText('1', LONGEST_LOG_LIFE)}`;
  return log10 < 0 ? 'less than 1' : figures(10 ** log10, LIFE_FIGURES);
}

/** The unit that stresses are shown in. */
export function stressUnit(system: UnitSystem): Unit {
  const megapascal = parseUnit('MPa');
  return counterpart(megapascal.ok ? megapascal.value : ONE, system);
}

/** A stress given in MPa, in figures without the unit. */
export function stressText(stressMpa: number | null, system: UnitSystem): string {
  return stressMpa === null || !Number.isFinite(stressMpa) ? NOT_BOUNDED : figures(fromSI(stressMpa * 1e6, stressUnit(system)), STRENGTH_FIGURES);
}

/** A stress that was asked about, given in Pa, with its unit and without zeros that say nothing. */
export function askedStress(pascals: number, system: UnitSystem): string {
  const unit = stressUnit(system);
  return withUnit(withoutZeros(figures(fromSI(pascals, unit), STRENGTH_FIGURES)), unitText(unit));
}

/** A life that was asked about, with its unit. */
export function askedLife(cycles: number): string {
  return `${withoutZeros(figures(cycles, LIFE_FIGURES))} cycles`;
}

function withoutZeros(text: string): string {
  const [digits = '', power] = text.split('·');
  const short = digits.replace(/(\.[\d\u202f]*?)[0\u202f]+$/, '$1').replace(/\.$/, '');
  if (power === undefined) return short;
  return short === '1' ? power : `${short}·${power}`;
}

/** `p = 0.032`, `p < 0.001` */
export function chanceText(p: number): string {
  return p < 0.001 ? 'p < 0.001' : `p = ${figures(p, 2)}`;
}
