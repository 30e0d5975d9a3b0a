import * as v from 'valibot';
import { didYouMean } from '../../core/problem/index.ts';
import { BORDER_SHAPES } from '../../core/mechanics/index.ts';
import { present } from '../fields.ts';
import type { Fields, Slip } from '../fields.ts';
import type { KeyOf } from '../keys.ts';
import type { PhotoCell } from '../types.ts';
import { PHOTO_READINGS, type PhotoReading } from './readings.ts';

const SHAPE = v.picklist(BORDER_SHAPES);
const shapeSlip = (key: string): Slip => (typed) => ({
  code: 'border-shape-unknown',
  what: `\`${key}\` takes the words circle, ellipse and corners only, not \`${typed}\`.`,
  mend: `Write such as \`${key}: circle\`, or delete the line: the border then goes straight from point to point.`,
});

/** The keys of a picture's cell as text; marks are read by the graph. */
export function readPhotoCell(fields: Fields<KeyOf<'photo'>>): { readonly fields: Omit<PhotoCell, 'id' | 'unknownKeys' | 'problems' | 'label' | 'note'> } {
  const symbols = new Map<PhotoReading, string>();
  for (const [reading, symbol] of fields.mapping('symbols') ?? []) {
    const known = PHOTO_READINGS.find((name) => name === reading);
    if (known === undefined) {
      fields.tell('photo-reading-unknown', 'symbols', `A picture gives no \`${reading}\`.`, `${didYouMean(reading, PHOTO_READINGS)}It gives: ${PHOTO_READINGS.join(', ')}.`);
    } else if (fields.isSymbol('symbols', symbol)) symbols.set(known, symbol);
  }
  return {
    fields: {
      kind: 'photo',
      picture: fields.text('picture') ?? '',
      symbols,
      outlineShape: fields.formed('outline_shape', SHAPE, shapeSlip('outline_shape')) ?? 'corners',
      finalShape: fields.formed('final_shape', SHAPE, shapeSlip('final_shape')) ?? 'corners',
      ...present({
        scale: fields.text('scale'),
        outline: fields.text('outline'),
        final: fields.text('final'),
        origins: fields.text('origins'),
        halfOf: fields.text('half_of'),
        brokeAt: fields.text('broke_at'),
        sectionThere: fields.text('section_there'),
      }),
    },
  };
}
