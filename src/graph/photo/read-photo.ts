import { borderOf, crossesItself, fractureUncertainty, isInside, polygonArea, readMarks, type Border, type FractureMarks, type FractureReading, type FractureUncertainty } from '../../core/mechanics/index.ts';
import type { Problem, Result } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { parseQuantity, parseUnit } from '../../core/units/index.ts';
import { readPicture, readPoints, readScaleMark, type MarkPoint, type PhotoReading, type ScaleMark, type StoredPicture } from '../../sheet/index.ts';
import type { PhotoCell } from '../../sheet/types.ts';
import * as problems from './photo-problems.ts';
import type { LaidBorder, PhotoState } from './types.ts';

interface ReadPhoto {
  readonly state: PhotoState;
  readonly troubles: readonly Problem[];
  readonly warnings: readonly Problem[];
}

/** A picture's marks as its cell has them: nothing else of the sheet has a part in it. */
export const readPhoto = remembered((cell: PhotoCell): ReadPhoto => {
  const troubles: Problem[] = [];
  const warnings: Problem[] = [];
  const take = <T>(result: Result<T>, without: T): T => {
    if (result.ok) return result.value;
    troubles.push(result.problem);
    return without;
  };
  const picture = cell.picture === '' ? undefined : take<StoredPicture | undefined>(readPicture(cell.picture), undefined);
  const scale = take<ScaleMark>(readScaleMark(cell.scale ?? ''), { points: [], length: '' });
  const section = take(readPoints(cell.outline ?? '', 'outline'), []);
  const final = take(readPoints(cell.final ?? '', 'final'), []);
  const origins = take(readPoints(cell.origins ?? '', 'origins'), []);
  const metresPerDot = scale.length === '' || scale.points.length < 2 ? undefined : take(metresOf(scale), undefined);
  const marks: FractureMarks = { section: { points: section, shape: cell.outlineShape }, final: { points: final, shape: cell.finalShape }, origins };
  warnings.push(...bordersTold(marks));
  const [rim, zone] = [borderOf(marks.section), borderOf(marks.final)];
  const isOutlined = rim !== undefined && zone !== undefined;
  if (isOutlined && !zoneIsInside(final, rim.corners)) warnings.push(problems.zoneOutside());
  const reading = picture !== undefined && isOutlined ? readMarks(marks) : undefined;
  if (picture !== undefined && isOutlined && reading === undefined) warnings.push(problems.noArea());
  const isCut = reading !== undefined && zone !== undefined && reading.finalArea < polygonArea(zone.corners) * (1 - TOLD_CUT);
  const state: PhotoState = Object.freeze({
    scale, origins, section: rim?.corners ?? section, final: zone?.corners ?? final,
    borders: { ...(rim && { outline: laidOf(rim, section.length, false) }), ...(zone && { final: laidOf(zone, final.length, isCut) }) },
    ...(picture === undefined ? {} : { picture }),
    ...(metresPerDot === undefined ? {} : { metresPerDot }),
    ...(reading === undefined || picture === undefined ? {} : { reading, ...uncertaintyOf(picture, marks) }),
  });
  return { state, troubles, warnings };
});

/** A finger at a picture on a telephone hits a four-hundredth of its longer side, with the enlarged view (common practice, no published source). */
const POINT_SHARE = 1 / 400;

function uncertaintyOf({ width, height }: StoredPicture, marks: FractureMarks): Pick<PhotoState, 'pointUncertainty' | 'uncertainty'> {
  const pointUncertainty = Math.max(1, Math.max(width, height) * POINT_SHARE);
  return { pointUncertainty, uncertainty: fractureUncertainty(marks, pointUncertainty) };
}

/** What keeps a border from being laid through its points, or from being the one that is meant. */
function bordersTold({ section, final }: FractureMarks): readonly Problem[] {
  return ([['outline', section], ['final', final]] as const).flatMap(([key, border]) => {
    const { points, shape } = border;
    if (points.length > 0 && points.length < 3) return [problems.tooFewPoints(key, points.length)];
    if (points.length >= 3 && shape !== 'corners' && borderOf(border) === undefined) return [problems.noBorder(key, shape)];
    return shape === 'corners' && crossesItself(points) ? [problems.crossing(key)] : [];
  });
}

function laidOf({ shape, misfit }: Border, points: number, isCut: boolean): LaidBorder {
  return Object.freeze({ shape, points, misfit, isCut });
}

/** A smaller share of a zone beyond the rim is not worth a word. */
const TOLD_CUT = 0.005;

/** A corner of the zone may stand a little outside the section: both outlines are drawn by hand. */
const OUTSIDE = 0.03;

function zoneIsInside(final: readonly MarkPoint[], section: readonly MarkPoint[]): boolean {
  const middle = { x: mean(section.map(({ x }) => x)), y: mean(section.map(({ y }) => y)) };
  return final.every(({ x, y }) => isInside({ x: x + (middle.x - x) * OUTSIDE, y: y + (middle.y - y) * OUTSIDE }, section));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function metresOf({ points, length }: ScaleMark): Result<number | undefined> {
  const [from = { x: 0, y: 0 }, to = { x: 0, y: 0 }] = points;
  const dots = Math.hypot(to.x - from.x, to.y - from.y);
  const millimetre = parseUnit('mm');
  if (!millimetre.ok) return millimetre;
  const read = parseQuantity(length, millimetre.value);
  if (!read.ok) return { ok: false, problem: { ...read.problem, key: 'scale' } };
  if (!(read.value.value > 0) || dots === 0) return { ok: false, problem: problems.noLength(length) };
  return { ok: true, value: read.value.value / dots };
}

/** Value and standard uncertainty of what is read, SI; NaN of an area without a scale and of a turn without origins. */
export function valueRead(what: PhotoReading, read: FractureReading, uncertainty: FractureUncertainty, photo: PhotoState): { readonly value: number; readonly u: number } {
  const scaled = (dots: number, u: number): { readonly value: number; readonly u: number } => {
    const square = (photo.metresPerDot ?? Number.NaN) ** 2;
    return { value: dots * square, u: square * Math.hypot(u, 2 * dots * scaleUncertainty(photo)) };
  };
  switch (what) {
    case 'share': return { value: read.finalShare, u: uncertainty.finalShare };
    case 'eccentricity': return { value: read.eccentricity, u: uncertainty.eccentricity };
    case 'rotation': return { value: read.rotation ?? Number.NaN, u: uncertainty.rotation };
    case 'area': return scaled(read.sectionArea, uncertainty.sectionArea);
    case 'final_area': return scaled(read.finalArea, uncertainty.finalArea);
  }
}

/** Relative standard uncertainty of the length between the two points of the scale; the length itself counts as known. */
function scaleUncertainty({ scale: { points }, pointUncertainty = 0 }: PhotoState): number {
  const [from = { x: 0, y: 0 }, to = { x: 0, y: 0 }] = points;
  const dots = Math.hypot(to.x - from.x, to.y - from.y);
  return dots > 0 ? (Math.SQRT2 * pointUncertainty) / dots : 0;
}
