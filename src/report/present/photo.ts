import { composed } from '../../core/problem/index.ts';
import type { PhotoCell } from '../../sheet/types.ts';
import { PHOTO_READINGS, type PhotoReading } from '../../sheet/index.ts';
import type { PhotoState } from '../../graph/index.ts';
import type { PhotoMarks } from '../photo-marks.ts';
import { isSymbolHidden } from './hidden.ts';
import { notesOf } from './notes.ts';
import { figures } from './number.ts';
import { photoSays, UNTOLD } from './photo-words.ts';
import { presentSymbol } from './result.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext, PresentedPhoto } from './types.ts';

/** A picture with its marks, what is read from them, and what the trade takes that for. */
export function presentPhoto(cell: PhotoCell, context: PresentContext): PresentedPhoto {
  const photo = context.states.cell(cell.id)?.photo;
  const notes = notesOf(cell, context);
  const base = { ...notes, gives: givesOf(cell, context) };
  if (photo?.picture === undefined) return { ...base, facts: [], says: [], untold: '', alternative: '' };
  const { picture, section, final, origins, scale } = photo;
  const facts = factsOf(photo);
  const marks: Omit<PhotoMarks, 'idPrefix'> = { width: picture.width, height: picture.height, section, final, origins, scale };
  return {
    ...base,
    picture: { address: `data:image/jpeg;base64,${picture.base64}`, width: picture.width, height: picture.height },
    marks,
    facts,
    says: photoSays(photo),
    untold: photo.reading === undefined ? '' : UNTOLD,
    alternative: alternativeOf(notes.label, facts),
  };
}

const PREFIXES: Readonly<Record<PhotoReading, string>> = {
  share: '\\frac{A_{\\text{final}}}{A_{\\text{section}}} =',
  eccentricity: '',
  rotation: '',
  area: 'A_{\\text{section}} =',
  final_area: 'A_{\\text{final}} =',
};

function givesOf(cell: PhotoCell, context: PresentContext): PresentedPhoto['gives'] {
  return PHOTO_READINGS.flatMap((reading) => {
    const symbol = cell.symbols.get(reading);
    const result = symbol === undefined ? undefined : presentSymbol(symbol, context);
    if (symbol === undefined || result === undefined) return [];
    const symbolTex = symbolOf(symbol);
    return [{ symbol, symbolTex, prefixTex: `${symbolTex} = ${PREFIXES[reading]}`, result, hidden: isSymbolHidden(symbol, context) }];
  });
}

/** Three figures at most: a border drawn by hand gives no more. */
function factsOf({ reading, origins, metresPerDot, section, borders, pointUncertainty }: PhotoState): PresentedPhoto['facts'] {
  const facts: { name: string; text: string }[] = [...bordersOf(borders, pointUncertainty)];
  const area = (dots: number): string => (metresPerDot === undefined ? '' : `${figures(dots * (metresPerDot * 1e3) ** 2, 3)} mm²`);
  if (reading !== undefined) {
    facts.push({ name: 'Final zone', text: `${figures(reading.finalShare * 100, 3)} % of the section` });
    if (metresPerDot !== undefined) facts.push({ name: 'Areas', text: `section ${area(reading.sectionArea)}, final zone ${area(reading.finalArea)}` });
    facts.push({ name: 'Its middle', text: `${figures(reading.eccentricity, 2)} radii from the middle of the section` });
    if (reading.rotation !== null) facts.push({ name: 'Turned', text: turnText(reading.rotation) });
  } else if (section.length >= 3 && metresPerDot === undefined) facts.push({ name: 'Scale', text: 'not set: shares need none, areas do' });
  if (origins.length > 0) facts.push({ name: 'Origins', text: origins.length === 1 ? 'one is marked' : `${origins.length} are marked` });
  return facts;
}

const SHAPES = { circle: 'a circle', ellipse: 'an ellipse', corners: 'straight sides' } as const;

/** What the areas rest on: a reader sees three points on a round bar taken for a triangle. */
function bordersOf({ outline, final }: PhotoState['borders'], pointUncertainty = Infinity): PresentedPhoto['facts'] {
  const told = ([['section', outline], ['final zone', final]] as const).flatMap(([name, laid]) => {
    if (laid === undefined) return [];
    const { shape, points, misfit, isCut } = laid;
    const off = misfit > 2 * pointUncertainty ? `, which they lie ${figures(misfit, 2)} dots off: is it one?` : '';
    return [`${name}: ${SHAPES[shape]} through ${points} points${off}${isCut ? ', without what of it lies beyond the rim' : ''}`];
  });
  return told.length === 0 ? [] : [{ name: 'Borders', text: told.join('; ') }];
}

function turnText(rotation: number): string {
  const degrees = Math.round((rotation * 180) / Math.PI);
  if (degrees === 0) return 'opposite the origins';
  return `${Math.abs(degrees)}° ${degrees > 0 ? 'clockwise' : 'anticlockwise'}, as seen here, from the place opposite the origins`;
}

function alternativeOf(label: string, facts: PresentedPhoto['facts']): string {
  const said = facts.map(({ name, text }) => `${name}: ${text}`).join('; ');
  return composed`${label === '' ? 'Picture of a fracture surface' : label}. ${said === '' ? 'Nothing is marked in it yet.' : `${said}.`}`;
}
