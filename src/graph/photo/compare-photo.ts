import { standardUncertainty } from '../../core/estimate/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { parseUnit, sameDimension } from '../../core/units/index.ts';
import type { PhotoCell } from '../../sheet/types.ts';
import type { CompileContext } from '../compiled-types.ts';
import { unknownSymbol } from '../showing-node.ts';
import type { Estimates } from '../step.ts';
import * as problems from './photo-problems.ts';
import { readPhoto, valueRead } from './read-photo.ts';
import type { Agreement, HalfState, PhotoState, PlaceState } from './types.ts';

/** Two values agree within so many standard uncertainties of their difference. */
const AGREED = 2;

interface Compared<State> {
  readonly state: State;
  readonly warnings: readonly Problem[];
}

/** A picture beside that of the other half of the fracture: both were one surface, so that their shares agree where both were marked rightly. */
export function besideOtherHalf(photo: PhotoState, cell: PhotoCell): Compared<HalfState> {
  const { state: other } = readPhoto(cell);
  const [one, two] = [shareOf(photo), shareOf(other)];
  const agreement = one === undefined || two === undefined ? undefined : agreementOf(one, two);
  return {
    state: { cellId: cell.id, label: cell.label ?? '', photo: other, ...(two && { share: two.value }), ...(agreement && { agreement }) },
    warnings: agreement === undefined || agreement.agrees ? [] : [problems.halvesDiffer()],
  };
}

/** The section in a picture against that of the specimen where it is written to have broken. Undefined where the sheet names neither. */
export function atItsPlace(photo: PhotoState, { brokeAt, sectionThere }: PhotoCell, known: Estimates): Compared<PlaceState> | undefined {
  if (brokeAt === undefined) return undefined;
  const expected = sectionThere === undefined ? undefined : known.get(sectionThere);
  const read = photo.reading === undefined || photo.uncertainty === undefined || photo.metresPerDot === undefined
    ? undefined
    : valueRead('area', photo.reading, photo.uncertainty, photo);
  const agreement = read === undefined || expected === undefined ? undefined : agreementOf(read, { value: expected.value, u: standardUncertainty(expected) });
  return {
    state: {
      brokeAt, isKnown: known.has(brokeAt), ...(sectionThere === undefined ? {} : { sectionThere }), ...(read && { area: read.value }), ...(agreement && { agreement }),
    },
    warnings: agreement === undefined || agreement.agrees ? [] : [problems.otherSection()],
  };
}

/** What is wrong with the names of the other half and of the place. */
export function placeProblems({ id, halfOf, brokeAt, sectionThere }: PhotoCell, other: PhotoCell | undefined, { names, dimensions }: CompileContext): readonly Problem[] {
  const area = parseUnit('mm^2');
  const dimension = sectionThere === undefined ? undefined : dimensions.get(sectionThere);
  return [
    ...(halfOf !== undefined && (other === undefined || halfOf === id) ? [problems.noOtherHalf(halfOf, [...names.photos.keys()].filter((name) => name !== id))] : []),
    ...(brokeAt === undefined || names.definitions.has(brokeAt) ? [] : [{ ...unknownSymbol(brokeAt, 'where it broke'), key: 'broke_at' }]),
    ...(sectionThere === undefined || names.definitions.has(sectionThere) ? [] : [{ ...unknownSymbol(sectionThere, 'the section there'), key: 'section_there' }]),
    ...(dimension !== undefined && area.ok && !sameDimension(dimension, area.value.dimension) ? [problems.noSectionArea(sectionThere ?? '')] : []),
  ];
}

function shareOf(photo: PhotoState): { readonly value: number; readonly u: number } | undefined {
  const { reading, uncertainty } = photo;
  return reading === undefined || uncertainty === undefined ? undefined : valueRead('share', reading, uncertainty, photo);
}

/** Of two values that have nothing in common. */
function agreementOf(one: { readonly value: number; readonly u: number }, other: { readonly value: number; readonly u: number }): Agreement {
  const apart = Math.abs(one.value - other.value) / Math.hypot(one.u, other.u);
  return { apart, agrees: apart <= AGREED };
}
