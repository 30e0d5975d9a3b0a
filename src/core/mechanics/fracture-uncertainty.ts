import { readFracture, type FractureReading, type PicturePoint } from './fracture-zones.ts';
import { CIRCLE_CORNERS } from './outline.ts';

/** Standard uncertainties of what is read from a fracture surface, in the units of the reading. */
export type FractureUncertainty = { readonly [Key in keyof FractureReading]: number };

const QUANTITIES = ['sectionArea', 'finalArea', 'finalShare', 'eccentricity', 'rotation'] as const;

/** Three points decide a circle, whatever corners it is drawn with. */
const POINTS_OF_CIRCLE = 3;

/**
 * What follows from marked points that are each read to a standard uncertainty, across and down alike and independently:
 * every point is moved by it, and what that changes adds up as squares (JCGM 100:2008, 5.1.3 note 2). How clearly a border
 * is seen at all is no part of it.
 * @param point standard uncertainty of one coordinate of a marked point, in the unit of the points
 */
export function fractureUncertainty(
  section: readonly PicturePoint[], final: readonly PicturePoint[], origins: readonly PicturePoint[], point: number,
): FractureUncertainty {
  const sums = { sectionArea: 0, finalArea: 0, finalShare: 0, eccentricity: 0, rotation: 0 };
  const add = (points: readonly PicturePoint[], read: (moved: readonly PicturePoint[]) => FractureReading | undefined): void => {
    const weight = points.length === CIRCLE_CORNERS ? CIRCLE_CORNERS / POINTS_OF_CIRCLE : 1;
    for (let i = 0; i < points.length; i++) {
      for (const [dx, dy] of [[point, 0], [0, point]] as const) {
        const [plus, minus] = [1, -1].map((way) => read(points.with(i, { x: (points[i]?.x ?? 0) + way * dx, y: (points[i]?.y ?? 0) + way * dy })));
        if (plus === undefined || minus === undefined) continue;
        for (const quantity of QUANTITIES) sums[quantity] += weight * halfDifference(plus[quantity], minus[quantity], quantity) ** 2;
      }
    }
  };
  add(section, (moved) => readFracture(moved, final, origins));
  add(final, (moved) => readFracture(section, moved, origins));
  add(origins, (moved) => readFracture(section, final, moved));
  const root = (quantity: (typeof QUANTITIES)[number]): number => Math.sqrt(sums[quantity]);
  return Object.freeze({
    sectionArea: root('sectionArea'), finalArea: root('finalArea'), finalShare: root('finalShare'), eccentricity: root('eccentricity'), rotation: root('rotation'),
  });
}

/** Angles differ the short way round. */
function halfDifference(plus: number | null, minus: number | null, quantity: (typeof QUANTITIES)[number]): number {
  if (plus === null || minus === null) return 0;
  const difference = plus - minus;
  return (quantity === 'rotation' ? Math.atan2(Math.sin(difference), Math.cos(difference)) : difference) / 2;
}
