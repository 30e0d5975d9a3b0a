import { ONE, parseUnit, type Unit } from '../../core/units/index.ts';

export const CYCLES = unitCalled('cycles');
export const HOURS = unitCalled('h');
/** What the speed of a machine is read in where no unit is typed. */
export const REVOLUTIONS_PER_MINUTE = unitCalled('rev/min');

function unitCalled(name: string): Unit {
  const unit = parseUnit(name);
  return unit.ok ? unit.value : ONE;
}
