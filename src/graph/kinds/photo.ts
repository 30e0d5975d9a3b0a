import { exactly, fromInput, type Estimate } from '../../core/estimate/index.ts';
import { borderOf, crossesItself, fractureUncertainty, isInside, polygonArea, readMarks, type FractureMarks, type Border } from '../../core/mechanics/index.ts';
import type { Problem, Result } from '../../core/problem/index.ts';
import { ONE, parseQuantity, parseUnit, type Unit } from '../../core/units/index.ts';
import { readPicture, readPoints, readScaleMark, type MarkPoint, type PhotoReading, type ScaleMark, type StoredPicture } from '../../sheet/index.ts';
import type { CellBlock, PhotoCell } from '../../sheet/types.ts';
import { nameOf, type Form, type NodeOfForm } from '../form.ts';
import { toldAt } from '../inputs.ts';
import * as problems from '../photo/photo-problems.ts';
import type { LaidBorder, PhotoState } from '../photo/types.ts';
import type { CompileContext } from '../compiled-types.ts';
import { openState } from '../step.ts';
import type { CellState, SymbolState } from '../types.ts';

/** A picture: a node without inputs whose marks give the sheet shares, places and areas. */
export const photoForm: Form<PhotoCell> = {
  symbols: ({ symbols }) => [...symbols.values()],
  dimension: (cell, symbol) => symbolUnit(cell, symbol).dimension,
  node: photoNode,
};

function photoNode(block: CellBlock, cell: PhotoCell, context: CompileContext): NodeOfForm {
  const early = [...cell.problems, ...(context.problems.get(block.id) ?? [])];
  return {
    inputs: [],
    signature: JSON.stringify(['photo', block.body, early]),
    compute: (): CellState => {
      const { state, troubles, warnings } = readPhoto(cell);
      const told = toldAt(block.id, [...early, ...troubles]);
      return Object.freeze({
        cellId: block.id,
        photo: state,
        results: new Map([...cell.symbols].map(([reading, symbol]) => [symbol, giveReading(reading, symbol, state, told[0])])),
        reads: [],
        problems: told,
        warnings: toldAt(block.id, warnings),
      });
    },
  };
}

const UNITS: Readonly<Record<PhotoReading, string>> = { share: '%', eccentricity: '1', rotation: '°', area: 'mm^2', final_area: 'mm^2' };

function unitOf(reading: PhotoReading): Unit {
  const unit = parseUnit(UNITS[reading]);
  return unit.ok ? unit.value : ONE;
}

function symbolUnit(cell: PhotoCell, symbol: string): Unit {
  const reading = nameOf(cell, symbol);
  return reading === undefined ? ONE : unitOf(reading);
}

function readPhoto(cell: PhotoCell): { readonly state: PhotoState; readonly troubles: readonly Problem[]; readonly warnings: readonly Problem[] } {
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
}

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

function giveReading(reading: PhotoReading, symbol: string, photo: PhotoState, trouble: Problem | undefined): SymbolState {
  const unit = unitOf(reading);
  if (trouble !== undefined) return Object.freeze({ status: 'problem', problem: trouble, unit });
  const open = (waitsFor: string): SymbolState => openState(unit, waitsFor);
  const { reading: read, uncertainty, metresPerDot } = photo;
  if (photo.picture === undefined) return open('the picture of the fracture');
  if (read === undefined || uncertainty === undefined) return open('the outline of section and final zone');
  const needsScale = reading === 'area' || reading === 'final_area';
  if (needsScale && metresPerDot === undefined) return open('the scale of the picture');
  if (reading === 'rotation' && read.rotation === null) return open('the place of the origins');
  const scaled = (dots: number, u: number): readonly [number, number] => {
    const square = (metresPerDot ?? Number.NaN) ** 2;
    return [dots * square, square * Math.hypot(u, 2 * dots * scaleUncertainty(photo))];
  };
  const [value, u] = {
    share: [read.finalShare, uncertainty.finalShare] as const,
    eccentricity: [read.eccentricity, uncertainty.eccentricity] as const,
    rotation: [read.rotation ?? Number.NaN, uncertainty.rotation] as const,
    area: scaled(read.sectionArea, uncertainty.sectionArea),
    final_area: scaled(read.finalArea, uncertainty.finalArea),
  }[reading];
  return Object.freeze({ status: 'value', estimate: measured(symbol, value, u, photo), unit });
}

/** Relative standard uncertainty of the length between the two points of the scale; the length itself counts as known. */
function scaleUncertainty({ scale: { points }, pointUncertainty = 0 }: PhotoState): number {
  const [from = { x: 0, y: 0 }, to = { x: 0, y: 0 }] = points;
  const dots = Math.hypot(to.x - from.x, to.y - from.y);
  return dots > 0 ? (Math.SQRT2 * pointUncertainty) / dots : 0;
}

/** An input of its own: what two readings of one picture have in common, their outlines and scale, is left out. */
function measured(symbol: string, value: number, u: number, { pointUncertainty = 0 }: PhotoState): Estimate {
  if (!(u > 0) || !Number.isFinite(u)) return exactly(value);
  const source = `points marked to ${Number(pointUncertainty.toPrecision(2))} dots`;
  return fromInput(Object.freeze({
    id: symbol, value,
    components: Object.freeze([Object.freeze({ kind: 'B', source, distribution: 'normal', standardUncertainty: u, degreesOfFreedom: Infinity } as const)]),
  }));
}
