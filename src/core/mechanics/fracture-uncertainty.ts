import { borderOf, leftOutByChords, partInside, type MarkedBorder } from './border.ts';
import { isInside } from './outline.ts';
import { polygonArea, readFracture, type FractureReading, type PicturePoint } from './fracture-zones.ts';

/** What is marked in a picture of a fracture surface. */
export interface FractureMarks {
  readonly section: MarkedBorder;
  readonly final: MarkedBorder;
  readonly origins: readonly PicturePoint[];
}

/** Standard uncertainties of what is read from a fracture surface, in the units of the reading. */
export type FractureUncertainty = { readonly [Key in keyof FractureReading]: number };

const QUANTITIES = ['sectionArea', 'finalArea', 'finalShare', 'eccentricity', 'rotation'] as const;

/** An outline of so many corners is a circle that an earlier version of the page laid through three points. */
const CORNERS_OF_THREE = 72;

/** What the marks say, by the borders that they show; what of a round final zone lies beyond the rim is not counted. Undefined where a border or an area is missing. */
export function readMarks({ section, final, origins }: FractureMarks): FractureReading | undefined {
  const [rim, zone] = [borderOf(section), borderOf(final)];
  if (rim === undefined || zone === undefined) return undefined;
  const isWithin = zone.shape === 'corners' || zone.corners.every((corner) => isInside(corner, rim.corners));
  return readFracture(rim.corners, isWithin ? zone.corners : partInside(rim.corners, zone.corners), origins);
}

/**
 * What follows from marked points that are each read to a standard uncertainty, across and down alike and independently:
 * every point is moved by it, and what that changes adds up as squares (JCGM 100:2008, 5.1.3 note 2). Points that lie further off their circle or ellipse than that are
 * taken to be read to as much. What chords may leave out of a round border is a limit on one side, read as a rectangle. How clearly a border is seen at all is no part of it.
 * @param point standard uncertainty of one coordinate of a marked point, in the unit of the points
 */
export function fractureUncertainty(marks: FractureMarks, point: number): FractureUncertainty {
  const sums = { sectionArea: 0, finalArea: 0, finalShare: 0, eccentricity: 0, rotation: 0 };
  const add = (points: readonly PicturePoint[], u: number, read: (moved: readonly PicturePoint[]) => FractureReading | undefined): void => {
    const weight = points.length === CORNERS_OF_THREE ? CORNERS_OF_THREE / 3 : 1;
    for (let i = 0; i < points.length; i++) {
      for (const [dx, dy] of [[u, 0], [0, u]] as const) {
        const [plus, minus] = [1, -1].map((way) => read(points.with(i, { x: (points[i]?.x ?? 0) + way * dx, y: (points[i]?.y ?? 0) + way * dy })));
        if (plus === undefined || minus === undefined) continue;
        for (const quantity of QUANTITIES) sums[quantity] += weight * halfDifference(plus[quantity], minus[quantity], quantity) ** 2;
      }
    }
  };
  const { section, final, origins } = marks;
  const readTo = (border: MarkedBorder): number => Math.max(point, borderOf(border)?.misfit ?? 0);
  add(section.points, readTo(section), (points) => readMarks({ ...marks, section: { ...section, points } }));
  add(final.points, readTo(final), (points) => readMarks({ ...marks, final: { ...final, points } }));
  add(origins, point, (points) => readMarks({ ...marks, origins: points }));
  const [ofSection, ofFinal] = [section, final].map(chordUncertainty) as [number, number];
  const [wholeArea, finalArea] = [section, final].map(({ points }) => polygonArea(points)) as [number, number];
  sums.sectionArea += ofSection ** 2;
  sums.finalArea += ofFinal ** 2;
  if (wholeArea > 0 && finalArea > 0) sums.finalShare += (finalArea / wholeArea) ** 2 * ((ofSection / wholeArea) ** 2 + (ofFinal / finalArea) ** 2);
  const root = (quantity: (typeof QUANTITIES)[number]): number => Math.sqrt(sums[quantity]);
  return Object.freeze({
    sectionArea: root('sectionArea'), finalArea: root('finalArea'), finalShare: root('finalShare'), eccentricity: root('eccentricity'), rotation: root('rotation'),
  });
}

function chordUncertainty({ points, shape }: MarkedBorder): number {
  return shape === 'corners' ? leftOutByChords(points) / Math.sqrt(3) : 0;
}

/** Angles differ the short way round. */
function halfDifference(plus: number | null, minus: number | null, quantity: (typeof QUANTITIES)[number]): number {
  if (plus === null || minus === null) return 0;
  const difference = plus - minus;
  return (quantity === 'rotation' ? Math.atan2(Math.sin(difference), Math.cos(difference)) : difference) / 2;
}
