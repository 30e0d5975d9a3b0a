/** A place in a picture: across to the right, down; in dots or any other unit of length. */
export interface PicturePoint {
  readonly x: number;
  readonly y: number;
}

/** What a fracture surface shows once its zones are outlined. Angles in radians. */
export interface FractureReading {
  /** Area of the section, in the unit of the points squared. */
  readonly sectionArea: number;
  readonly finalArea: number;
  /** Final-fracture zone over the whole section. */
  readonly finalShare: number;
  /** Distance of the final zone's centroid from the section's, over the radius of a circle of the section's area: 0 in the middle. */
  readonly eccentricity: number;
  /**
   * How far the final zone lies turned from the place opposite the origins, seen in the picture, clockwise positive, −π..π;
   * null without origins, where they cancel out, or where the final zone is central.
   */
  readonly rotation: number | null;
}

/** Area of a polygon whichever way round it goes; 0 below three points. */
export function polygonArea(points: readonly PicturePoint[]): number {
  return Math.abs(moments(points).area);
}

/** Centroid of a polygon; the mean of its points where it has no area. */
export function polygonCentroid(points: readonly PicturePoint[]): PicturePoint {
  const { area, x, y, from } = moments(points);
  if (area !== 0) return { x: from.x + x / area, y: from.y + y / area };
  const n = Math.max(1, points.length);
  return { x: points.reduce((sum, point) => sum + point.x, 0) / n, y: points.reduce((sum, point) => sum + point.y, 0) / n };
}

/** Signed area and its first moments about the first point, which keeps digits far from the picture's corner. @source shoelace formula */
function moments(points: readonly PicturePoint[]): { area: number; x: number; y: number; from: PicturePoint } {
  const from = points[0] ?? { x: 0, y: 0 };
  let area = 0;
  let x = 0;
  let y = 0;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length] ?? a;
    const [ax, ay, bx, by] = [a.x - from.x, a.y - from.y, b.x - from.x, b.y - from.y];
    const cross = ax * by - bx * ay;
    area += cross / 2;
    x += ((ax + bx) * cross) / 6;
    y += ((ay + by) * cross) / 6;
  });
  return { area, x, y, from };
}

/** A final zone nearer to the middle than this share of the radius has no side of its own. */
const CENTRAL = 0.05;

/**
 * Shares and places of the zones of a fracture surface, whose scale need not be known.
 * @param section outline of the broken section, 3 points or more
 * @param final outline of the final-fracture zone, inside the section
 * @param origins places where cracks began; none is allowed
 * @returns undefined where the section has no area
 */
export function readFracture(
  section: readonly PicturePoint[],
  final: readonly PicturePoint[],
  origins: readonly PicturePoint[],
): FractureReading | undefined {
  const sectionArea = polygonArea(section);
  if (!(sectionArea > 0)) return undefined;
  const finalArea = polygonArea(final);
  const centre = polygonCentroid(section);
  const zone = polygonCentroid(final);
  const eccentricity = finalArea > 0 ? Math.hypot(zone.x - centre.x, zone.y - centre.y) / Math.sqrt(sectionArea / Math.PI) : 0;
  return Object.freeze({
    sectionArea,
    finalArea,
    finalShare: finalArea / sectionArea,
    eccentricity,
    rotation: eccentricity < CENTRAL ? null : rotationOf(centre, zone, origins),
  });
}

/** Origins count by direction alone: a crack begins at the rim, however exactly it was marked. */
function rotationOf(centre: PicturePoint, zone: PicturePoint, origins: readonly PicturePoint[]): number | null {
  let x = 0;
  let y = 0;
  for (const origin of origins) {
    const length = Math.hypot(origin.x - centre.x, origin.y - centre.y);
    if (length === 0) continue;
    x += (origin.x - centre.x) / length;
    y += (origin.y - centre.y) / length;
  }
  if (Math.hypot(x, y) < 0.1 * Math.max(1, origins.length)) return null;
  // Down is positive in a picture, so that a growing angle turns clockwise.
  const turned = Math.atan2(zone.y - centre.y, zone.x - centre.x) - Math.atan2(-y, -x);
  return Math.atan2(Math.sin(turned), Math.cos(turned));
}
