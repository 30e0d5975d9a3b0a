import type { AxisScale } from './scales.ts';
import { linearScale, logScale } from './scales.ts';
import type { CurvePoint, SnCurves } from './sn-curves.ts';
import { localStress } from './local-stress.ts';
import type { SnData } from './types.ts';

const USUAL_LIVES: readonly [number, number] = [1e4, 1e7];
const USUAL_STRESSES: readonly [number, number] = [200, 500];
/** Limits of life may widen the chart by this factor at the most. */
const WIDEN = 8;

/** Lives across, stress in the display unit up: around specimens, line and the specimen that the sheet is about. */
export function snScales(data: SnData, curves: SnCurves | undefined, isNarrow: boolean): { x: AxisScale; y: AxisScale } {
  const { specimens, current, held, texts } = data;
  const lives: number[] = [];
  const stresses: number[] = [];
  let isCensored = false;
  const [ofLives, ofStresses] = [extremes(), extremes()];
  for (let i = 0; i < (specimens?.count ?? 0); i++) {
    ofLives.meet(specimens?.cycles[i] ?? 0);
    ofStresses.meet((specimens?.stressMpa[i] ?? 0) * texts.stressPerMpa);
    const local = localStress(specimens, i);
    if (local !== undefined) ofStresses.meet(local * texts.stressPerMpa);
    if (!isCensored) isCensored = specimens?.outcome(i) === 'runout' || specimens?.outcome(i) === 'suspended';
  }
  lives.push(...ofLives.found());
  stresses.push(...ofStresses.found());
  if (current !== undefined) {
    stresses.push(current.stressMpa * texts.stressPerMpa);
    if (current.life !== undefined) lives.push(current.life.median, current.life.low ?? current.life.median, current.life.high ?? current.life.median);
  }
  if (held?.specimen !== undefined) {
    stresses.push(held.specimen.stressMpa * texts.stressPerMpa);
    if (held.specimen.life !== undefined) lives.push(held.specimen.life.median);
  }
  for (const { stressMpa, logLife } of curves?.median ?? []) {
    stresses.push(stressMpa * texts.stressPerMpa);
    if (specimens === undefined || specimens.count === 0) lives.push(10 ** logLife);
  }
  if (curves?.limitMpa !== undefined) stresses.push(curves.limitMpa * texts.stressPerMpa);
  const core = logScale(lives, [1, 1], USUAL_LIVES).domain;
  for (const { logLife } of outlines(curves)) lives.push(Math.min(Math.max(10 ** logLife, core[0] / WIDEN), core[1] * WIDEN));
  // An arrow and a count behind it take more of a narrow plot.
  const room = isCensored || curves?.limitMpa !== undefined ? (isNarrow ? 2.1 : 1.9) : 1.25;
  return { x: logScale(lives, [1.25, room], USUAL_LIVES), y: stressScale(stresses, data) };
}

/** The least and the greatest of very many values that an axis can have. */
function extremes(): { meet(value: number): void; found(): readonly number[] } {
  let [least, greatest] = [Infinity, -Infinity];
  return {
    meet: (value) => {
      if (!isOnAnAxis(value)) return;
      if (value < least) least = value;
      if (value > greatest) greatest = value;
    },
    found: () => (least > greatest ? [] : [least, greatest]),
  };
}

function isOnAnAxis(value: number): boolean {
  return value > 1e-280 && value < 1e280;
}

function outlines(curves: SnCurves | undefined): readonly CurvePoint[] {
  if (curves === undefined) return [];
  const { median, band, next, design, twoS } = curves;
  const all = [median, band?.lower, band?.upper, next?.lower, next?.upper, design, twoS];
  return all.flatMap((curve) => [...(curve?.slice(0, 1) ?? []), ...(curve?.slice(-1) ?? [])]);
}

/** A little room above and below on either kind of axis; never below zero. */
function stressScale(stresses: readonly number[], { stressScale: kind, texts }: SnData): AxisScale {
  const usual: readonly [number, number] = [USUAL_STRESSES[0] * texts.stressPerMpa, USUAL_STRESSES[1] * texts.stressPerMpa];
  const found = stresses.filter(isOnAnAxis);
  const least = found.reduce((a, b) => Math.min(a, b), Infinity);
  if (kind === 'plain' || found.length === 0) {
    const scale = linearScale(found, 0.1, usual);
    return { type: found.length === 0 && kind === 'log' ? 'log' : 'linear', domain: [Math.max(scale.domain[0], least === Infinity ? 1e-3 : least / 10), scale.domain[1]] };
  }
  const logs = linearScale(found.map((stress) => Math.log10(stress)), 0.1, [0, 1]).domain;
  const [low, high] = [10 ** logs[0], 10 ** logs[1]];
  return { type: 'log', domain: [low, Math.max(high, low * 1.02)] };
}
