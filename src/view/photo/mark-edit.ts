import type { BorderShape } from '../../core/mechanics/index.ts';
import {
  MARK_KEYS, readPoints, readScaleMark, turnRight, writePoints, writeScaleMark, type EditCommand, type MarkKey, type MarkPoint, type PhotoCell,
} from '../../sheet/index.ts';

/** The points of one kind of mark; none where their text can't be read, which the cell says. */
export function pointsOf(cell: PhotoCell, key: MarkKey): readonly MarkPoint[] {
  const typed = cell[key] ?? '';
  const read = key === 'scale' ? readScaleMark(typed) : readPoints(typed, key);
  if (!read.ok) return [];
  return 'points' in read.value ? read.value.points : read.value;
}

export function scaleLength(cell: PhotoCell): string {
  const read = readScaleMark(cell.scale ?? '');
  return read.ok ? read.value.length : '';
}

/** Other points for one kind of mark; the key goes with the last of them. */
export function setPoints(cell: PhotoCell, key: MarkKey, points: readonly MarkPoint[]): EditCommand {
  const text = key === 'scale' ? writeScaleMark({ points, length: scaleLength(cell) }) : writePoints(points);
  return { do: 'set key', cellId: cell.id, key, value: text === '' ? undefined : text };
}

/** How a border goes between its points. */
export function setShape(cell: PhotoCell, key: 'outline' | 'final', shape: BorderShape): EditCommand {
  return { do: 'set key', cellId: cell.id, key: `${key}_shape`, value: shape };
}

export function setScaleLength(cell: PhotoCell, length: string): EditCommand {
  const text = writeScaleMark({ points: pointsOf(cell, 'scale'), length: length.trim() });
  return { do: 'set key', cellId: cell.id, key: 'scale', value: text === '' ? undefined : text };
}

/** Another picture: what was marked in the one before goes with it. */
export function setPicture(cell: PhotoCell, picture: string): EditCommand {
  const gone = MARK_KEYS.filter((key) => cell[key] !== undefined).map((key) => [key, undefined] as const);
  return { do: 'set keys', cellId: cell.id, values: new Map([...gone, ['picture', picture]]) };
}

/** The picture turned by a quarter, and its marks with it. */
export function setTurned(cell: PhotoCell, picture: string, to: 'right' | 'left', size: { readonly width: number; readonly height: number }): EditCommand {
  const turned = (points: readonly MarkPoint[]): readonly MarkPoint[] =>
    to === 'right' ? turnRight(points, size.height) : points.map(({ x, y }) => ({ x: y, y: size.width - x }));
  const marks = MARK_KEYS.filter((key) => cell[key] !== undefined).map((key) => {
    const points = turned(pointsOf(cell, key));
    return [key, key === 'scale' ? writeScaleMark({ points, length: scaleLength(cell) }) : writePoints(points)] as const;
  });
  return { do: 'set keys', cellId: cell.id, values: new Map([...marks, ['picture', picture]]) };
}

/** A place for the picture of the other half, which is marked as this one is and was broken at the same place. */
export function addOtherHalf({ id, label, outlineShape, finalShape, brokeAt, sectionThere }: PhotoCell): EditCommand {
  const lines = [
    `label: ${JSON.stringify(`${label ?? 'Fracture surface'}, the other half`)}`, `half_of: ${id}`, `outline_shape: ${outlineShape}`, `final_shape: ${finalShape}`,
    ...(brokeAt === undefined ? [] : [`broke_at: ${brokeAt}`]), ...(sectionThere === undefined ? [] : [`section_there: ${sectionThere}`]),
  ];
  return { do: 'insert', after: id, source: ['```photo', ...lines, '```', ''].join('\n') };
}
