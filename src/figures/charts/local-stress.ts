import { group, line } from '../drawings/markup.ts';
import type { ChartSpecimens } from './types.ts';

/** Below this share of difference a fracture is at the thinnest section, for the eye. */
const APART = 0.005;
const HALF_BAR = 5;

/** Stress in MPa where a specimen broke, if it broke and that is another one than at its thinnest section. */
export function localStress(specimens: ChartSpecimens | undefined, place: number): number | undefined {
  const [local, own] = [specimens?.localMpa?.[place] ?? Number.NaN, specimens?.stressMpa[place] ?? Number.NaN];
  return local > 0 && specimens?.outcome(place) === 'fracture' && Math.abs(local / own - 1) > APART ? local : undefined;
}

export function hasLocalStress(specimens: ChartSpecimens): boolean {
  return specimens.localMpa !== undefined && Array.from({ length: specimens.count }, (_, place) => place).some((place) => localStress(specimens, place) !== undefined);
}

/** From a specimen's mark to the stress where it broke, which ends in a bar. */
export function localMark(x: number, from: number, to: number): string {
  return group('local-stress', [
    line({ x, y: from }, { x, y: to }, 'local-line'),
    line({ x: x - HALF_BAR, y: to }, { x: x + HALF_BAR, y: to }, 'local-bar'),
  ]);
}
