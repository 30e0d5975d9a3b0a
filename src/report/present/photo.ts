import { composed } from '../../core/problem/index.ts';
import type { PhotoCell } from '../../sheet/types.ts';
import { PHOTO_READINGS, type PhotoReading } from '../../sheet/index.ts';
import type { Agreement, HalfState, PhotoState } from '../../graph/index.ts';
import { isSymbolHidden } from './hidden.ts';
import { liveText } from './live.ts';
import { notesOf } from './notes.ts';
import { figures } from './number.ts';
import { photoSays, UNTOLD } from './photo-words.ts';
import { presentSymbol } from './result.ts';
import { symbolOf } from './symbol.ts';
import type { PresentedPhoto } from './photo-types.ts';
import type { PresentContext } from './types.ts';

/** A picture with its marks, what is read from them, and what the trade takes that for. */
export function presentPhoto(cell: PhotoCell, context: PresentContext): PresentedPhoto {
  const photo = context.states.cell(cell.id)?.photo;
  const notes = notesOf(cell, context);
  const base = { ...notes, gives: givesOf(cell, context) };
  if (photo?.picture === undefined) return { ...base, facts: [], says: [], untold: '', alternative: '' };
  const facts = factsOf(photo);
  const place = placeOf(photo, context);
  return {
    ...base,
    ...pictureOf(photo, notes.label, facts),
    facts,
    says: photoSays(photo),
    untold: photo.reading === undefined ? '' : UNTOLD,
    ...(photo.half?.photo.picture && { other: { label: photo.half.label, ...pictureOf(photo.half.photo, photo.half.label, factsOf(photo.half.photo)) } }),
    ...(place && { place }),
  };
}

function pictureOf({ picture, section, final, origins, scale }: PhotoState, label: string, facts: PresentedPhoto['facts']): Pick<PresentedPhoto, 'picture' | 'marks' | 'alternative'> {
  const alternative = alternativeOf(label, facts);
  if (picture === undefined) return { alternative };
  const { width, height, base64 } = picture;
  return { picture: { address: `data:image/jpeg;base64,${base64}`, width, height }, marks: { width, height, section, final, origins, scale }, alternative };
}

/** The line from the picture to the place of fracture: what the sheet has written there, and whether the section in the picture can be the one at that place. */
function placeOf({ place, section, metresPerDot }: PhotoState, context: PresentContext): PresentedPhoto['place'] {
  const cellId = place === undefined ? undefined : context.states.definedBy(place.brokeAt);
  if (place === undefined || cellId === undefined) return undefined;
  const { brokeAt, isKnown, sectionThere, area, agreement } = place;
  if (!isKnown) return { cellId, sentence: 'Where it broke is not written down yet.' };
  const at = `It broke at {=${brokeAt}}`;
  if (sectionThere === undefined || context.states.symbol(sectionThere)?.status !== 'value') return { cellId, sentence: liveText(`${at}.`, context) };
  const there = `${at}, where the section is {=${sectionThere}}`;
  if (agreement === undefined || area === undefined) {
    const missing = [...(section.length < 3 ? ['the outline'] : []), ...(metresPerDot === undefined ? ['the scale'] : [])];
    return { cellId, sentence: liveText(`${there}. With ${missing.length === 0 ? 'the final zone' : missing.join(' and ')} the section in the picture is held against that.`, context) };
  }
  return { cellId, sentence: liveText(`${there}; in the picture it is ${figures(area * 1e6, 3)} mm². ${agreementText('They', agreement)}.`, context) };
}

function agreementText(who: 'They' | 'they', { apart, agrees }: Agreement): string {
  return `${who} ${agrees ? 'agree' : 'do not agree'}: ${figures(apart, 2)} times the uncertainty of their difference apart, ${agrees ? 'within' : 'beyond'} 2`;
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
function factsOf({ reading, origins, metresPerDot, section, borders, pointUncertainty, half }: PhotoState): PresentedPhoto['facts'] {
  const facts: { name: string; text: string }[] = [...bordersOf(borders, pointUncertainty)];
  const area = (dots: number): string => (metresPerDot === undefined ? '' : `${figures(dots * (metresPerDot * 1e3) ** 2, 3)} mm²`);
  if (reading !== undefined) {
    facts.push({ name: 'Final zone', text: `${figures(reading.finalShare * 100, 3)} % of the section` });
    if (metresPerDot !== undefined) facts.push({ name: 'Areas', text: `section ${area(reading.sectionArea)}, final zone ${area(reading.finalArea)}` });
    facts.push({ name: 'Its middle', text: `${figures(reading.eccentricity, 2)} radii from the middle of the section` });
    if (reading.rotation !== null) facts.push({ name: 'Turned', text: turnText(reading.rotation) });
  } else if (section.length >= 3 && metresPerDot === undefined) facts.push({ name: 'Scale', text: 'not set: shares need none, areas do' });
  if (half !== undefined) facts.push({ name: 'Both halves', text: halvesText(half, reading?.finalShare) });
  if (origins.length > 0) facts.push({ name: 'Origins', text: origins.length === 1 ? 'one is marked' : `${origins.length} are marked` });
  return facts;
}

function halvesText({ label, share, agreement, photo }: HalfState, ours: number | undefined): string {
  const there = label === '' ? 'there' : composed`on “${label}”`;
  if (photo.picture === undefined) return `there is no picture ${there} yet`;
  if (agreement === undefined || share === undefined || ours === undefined) return `are compared once section and final zone are outlined ${share === undefined ? there : 'here'}`;
  const percent = (value: number): string => `${figures(value * 100, 3)} %`;
  return `${percent(ours)} here and ${percent(share)} ${there}; ${agreementText('they', agreement)}`;
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
