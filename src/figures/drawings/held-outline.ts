import type { Axis } from './axis.ts';
import type { DrawnForce } from './force-labels.ts';
import { circle, group, line, path, polyline, type Point } from './markup.ts';
import { lineArea } from './placement.ts';
import type { Area, BeamFigure, Drawing } from './types.ts';

/*
 * What a held state looks like, behind what is drawn now: geometry only, dashed and light, without letters, on the same scale.
 * Where it can't be told from what is drawn now, it is left out.
 */

const CLASS = 'held-outline';
/** Nearer than this, two places are one to the eye, px. */
const ONE_PLACE = 0.75;
/** An arrow on the same line as the one of now stands this far beside it, px. */
const BESIDE = 7;

/** Whether a drawing shows a held state behind. */
export function showsHeld({ svg }: Pick<Drawing, 'svg'>): boolean {
  return svg.includes(`class="${CLASS}"`);
}

/** A line of a held state; nothing where it is the line of now. */
export function heldLine(then: readonly Point[], now: readonly Point[]): string {
  const same = then.length === now.length && then.every((point, i) => isOnePlace(point, now[i]));
  return same || then.length < 2 ? '' : polyline(then, CLASS);
}

export function heldPath(then: readonly (string | number)[], now: readonly (string | number)[]): string {
  const same = then.length === now.length && then.every((part, i) => part === now[i] || Math.abs(Number(part) - Number(now[i])) < ONE_PLACE);
  return same ? '' : path(then, CLASS);
}

function isOnePlace(a: Point, b: Point | undefined): boolean {
  return b !== undefined && Math.abs(a.x - b.x) < ONE_PLACE && Math.abs(a.y - b.y) < ONE_PLACE;
}

/** Right support, section and forces of a held shaft where they stand, or are, otherwise than now. */
export function heldShaft(
  figure: BeamFigure, held: BeamFigure, axis: Axis, forces: { readonly held: readonly DrawnForce[]; readonly now: readonly DrawnForce[] },
  levels: { readonly shaftTop: number; readonly shaftBottom: number },
): string {
  if (!figure.toScale || !held.toScale) return '';
  const away = (a: number, b: number): boolean => Math.abs(axis.x(a) - axis.x(b)) >= ONE_PLACE;
  const support = away(held.span, figure.span) ? [circle({ x: axis.x(held.span), y: levels.shaftBottom + 9 }, 8.6, CLASS)] : [];
  const section = held.section === undefined || figure.section === undefined || !away(held.section.position, figure.section.position) ? []
    : [line({ x: axis.x(held.section.position), y: levels.shaftTop - 24 }, { x: axis.x(held.section.position), y: levels.shaftBottom + 12 }, CLASS)];
  const arrows = forces.held.map((then, i) => heldArrow(then, forces.now[i])).filter((arrow) => arrow !== '');
  return group('held', [...support, ...section, ...arrows]);
}

/** What the arrows of the held state cover, for letters to keep off. */
export function heldArrowAreas(held: readonly DrawnForce[], now: readonly DrawnForce[]): Area[] {
  return held.flatMap((then, i) => {
    const x = heldPlace(then, now[i]);
    return x === undefined ? [] : [lineArea(x, then.tail, x, then.tip)];
  });
}

/** Where a force of the held state is drawn; undefined where it can't be told from the one of now, or one of them is hidden. */
function heldPlace(then: DrawnForce, now: DrawnForce | undefined): number | undefined {
  if (then.value.hidden || then.value.si === undefined || now === undefined || now.value.hidden) return undefined;
  const isBeside = Math.abs(then.x - now.x) < BESIDE;
  if (isBeside && Math.abs(then.x - now.x) < ONE_PLACE && Math.abs(then.tail - now.tail) + Math.abs(then.tip - now.tip) < 2 * ONE_PLACE) return undefined;
  return isBeside ? now.x - BESIDE : then.x;
}

/** A force of the held state as a thin arrow with an open head. */
function heldArrow(then: DrawnForce, now: DrawnForce | undefined): string {
  const x = heldPlace(then, now);
  if (x === undefined) return '';
  const up = Math.sign(then.tail - then.tip);
  const head = Math.min(9, Math.abs(then.tail - then.tip));
  return path(['M', x, then.tail, 'L', x, then.tip, 'M', x - 3.5, then.tip + up * head, 'L', x, then.tip, 'L', x + 3.5, then.tip + up * head], CLASS);
}
