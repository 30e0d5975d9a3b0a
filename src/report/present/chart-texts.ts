import { counterpart, fromSI, ONE, parseUnit } from '../../core/units/index.ts';
import type { UnitSystem } from '../../core/units/types.ts';
import type { ChartTexts } from '../../figures/charts/index.ts';
import { decimalText, figures, plainFigures, unitText, withUnit } from './number.ts';

/** How charts write stresses and lives in a system of units. */
export function chartTexts(system: UnitSystem): ChartTexts {
  const read = parseUnit('MPa');
  const unit = counterpart(read.ok ? read.value : ONE, system);
  const stressPerMpa = fromSI(1e6, unit);
  return {
    stressUnit: unitText(unit),
    stressPerMpa,
    stress: (megapascals) => withUnit(plainFigures(megapascals * stressPerMpa, 4), unitText(unit)),
    life: lifeText,
    cycles: (cycles) => (cycles < 1e15 ? decimalText(String(Math.round(cycles)), 0) : lifeText(cycles)),
  };
}

/** Three figures; whole powers of ten as such: `10⁶`. */
export function lifeText(cycles: number): string {
  const power = Math.round(Math.log10(cycles));
  return Math.abs(cycles / 10 ** power - 1) < 1e-9 && power > 3 ? decimalText('1', power) : figures(cycles, 3);
}
