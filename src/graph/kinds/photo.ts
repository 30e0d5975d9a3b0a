import { exactly, fromInput, type Estimate } from '../../core/estimate/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { ONE, parseUnit, type Unit } from '../../core/units/index.ts';
import type { PhotoReading } from '../../sheet/index.ts';
import type { CellBlock, PhotoCell } from '../../sheet/types.ts';
import { nameOf, type Form, type NodeOfForm } from '../form.ts';
import { definedInputs, toldAt, valuesOf } from '../inputs.ts';
import { atItsPlace, besideOtherHalf, placeProblems } from '../photo/compare-photo.ts';
import { readPhoto, valueRead } from '../photo/read-photo.ts';
import type { PhotoState } from '../photo/types.ts';
import type { CompileContext } from '../compiled-types.ts';
import { openState } from '../step.ts';
import type { CellState, SymbolState } from '../types.ts';

/** A picture: its marks alone give the sheet shares, places and areas; what else it reads of the sheet, these are held against. */
export const photoForm: Form<PhotoCell> = {
  symbols: ({ symbols }) => [...symbols.values()],
  addTo: ({ photos }, cell) => void photos.set(cell.id, cell),
  reads: symbolsBeside,
  dimension: (cell, symbol) => symbolUnit(cell, symbol).dimension,
  node: photoNode,
};

/** Where it broke, and the section there. */
function symbolsBeside({ brokeAt, sectionThere }: PhotoCell): readonly string[] {
  return [brokeAt, sectionThere].filter((symbol) => symbol !== undefined);
}

function photoNode(block: CellBlock, cell: PhotoCell, context: CompileContext): NodeOfForm {
  const reads = symbolsBeside(cell);
  const other = cell.halfOf === undefined ? undefined : context.names.photos.get(cell.halfOf);
  const early = [...cell.problems, ...(context.problems.get(block.id) ?? []), ...placeProblems(cell, other, context)];
  const inputs = definedInputs(reads, context);
  return {
    inputs,
    signature: JSON.stringify(['photo', block.body, inputs, early, other === undefined ? '' : marksOf(other)]),
    compute: (symbols): CellState => {
      const { state, troubles, warnings } = readPhoto(cell);
      const told = toldAt(block.id, [...early, ...troubles]);
      const half = other === undefined || early.length > 0 ? undefined : besideOtherHalf(state, other);
      const place = early.length > 0 ? undefined : atItsPlace(state, cell, valuesOf(reads, symbols));
      return Object.freeze({
        cellId: block.id,
        photo: Object.freeze({ ...state, ...(half && { half: half.state }), ...(place && { place: place.state }) }),
        results: new Map([...cell.symbols].map(([reading, symbol]) => [symbol, giveReading(reading, symbol, state, told[0])])),
        reads,
        problems: told,
        warnings: toldAt(block.id, [...warnings, ...(half?.warnings ?? []), ...(place?.warnings ?? [])]),
      });
    },
  };
}

/** What of the other picture is held against this one. */
function marksOf({ picture, outline, final, origins, outlineShape, finalShape, label }: PhotoCell): readonly (string | undefined)[] {
  return [picture, outline, final, origins, outlineShape, finalShape, label];
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
  const { value, u } = valueRead(reading, read, uncertainty, photo);
  return Object.freeze({ status: 'value', estimate: measured(symbol, value, u, photo), unit });
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
