import type { Geometry, Roles } from './roles.ts';
import type { FigureValue, Frame, MovablePlace, Move, PlaceName, ValueText } from './types.ts';

/**
 * The places that the reader may move, each with the givens that change with it. Positions count from the left support, so:
 * - a load point takes from the part-span on one side what it adds on the other;
 * - the right support adds to the last part-span and to the overall span;
 * - the left support is where counting begins: whatever counts from it (s1, L, x_s) shrinks as it moves to the right.
 * A place can be moved only where every value that has to change is the reader's own, and within what it stands between: the
 * load points and the section stay between the supports, in their order.
 */
export function movablePlaces(roles: Roles, at: Geometry, lengthText: ValueText): MovablePlace<PlaceName>[] {
  const fromLeft = (position: number) => `${lengthText(position)} from the left support`;
  const withSection: [FigureValue, 1 | -1][] = at.section === undefined ? [] : [[roles.section, -1]];
  const [firstInside, lastInside] = [Math.min(at.leftLoad, at.section ?? Infinity), Math.max(at.rightLoad, at.section ?? 0)];
  const places = [
    place('left support', 0, { from: -Infinity, to: firstInside }, `Left support, ${lengthText(at.span)} from the right support`,
      [[roles.s1, -1], [roles.span, -1], ...withSection]),
    place('left load point', at.leftLoad, { from: 0, to: at.rightLoad }, `Left load point, ${fromLeft(at.leftLoad)}`, [[roles.s1, 1], [roles.s2, -1]]),
    place('right load point', at.rightLoad, { from: at.leftLoad, to: at.span }, `Right load point, ${fromLeft(at.rightLoad)}`, [[roles.s2, 1], [roles.s3, -1]]),
    place('right support', at.span, { from: lastInside, to: Infinity }, `Right support, ${fromLeft(at.span)}`, [[roles.s3, 1], [roles.span, 1]]),
  ];
  if (at.section !== undefined) places.push(place('section', at.section, { from: 0, to: at.span }, `Section, ${fromLeft(at.section)}`, [[roles.section, 1]]));
  return places.filter((one) => one !== undefined);
}

function place(
  name: PlaceName, position: number, reach: Frame, label: string, changes: readonly (readonly [FigureValue, 1 | -1])[],
): MovablePlace<PlaceName> | undefined {
  const moves: Move[] = [];
  for (const [value, sign] of changes) {
    if (value.given === undefined || value.si === undefined) return undefined;
    moves.push({ symbol: value.given, sign });
  }
  return { name, position, label, moves, reach };
}
