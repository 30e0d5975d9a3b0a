import { STRIP_SHAPES, waistedShape, waistFits, type StripShape, type StripSupport, type Waist } from '../../core/mechanics/index.ts';
import { spokenSymbol } from './lettering.ts';
import type { FigureValue, Frame, MovablePlace, Run, ValueText } from './types.ts';

/** What a value means in the drawings of a strip that is bent by a set stroke. */
export type StripRole =
  | 'length' | 'height' | 'amplitude' | 'offset' | 'lower' | 'upper' | 'section' | 'moment' | 'stress' | 'local' | 'width' | 'wide' | 'radius' | 'waist';

export const STRIP_ROLES: readonly StripRole[] = ['length', 'height', 'amplitude', 'offset', 'lower', 'upper', 'section', 'moment', 'stress', 'local', 'width', 'wide', 'radius', 'waist'];

export type StripValues = Partial<Readonly<Record<StripRole, FigureValue>>>;

/** How a strip is supported, with the forms of width that a drawing knows. */
export type StripForm = StripSupport | 'waisted';

/** A strip bent by a set stroke, ready to be drawn; lengths in metres. Every number is finite. */
export interface StripFigure {
  readonly support: StripForm;
  /** Deflection, moment and stress along it. */
  readonly shape: StripShape;
  /** Width at the clamp; undefined where it is not known. */
  readonly width: number | undefined;
  /** The waist of a strip that has one. */
  readonly waist: Waist | undefined;
  readonly toScale: boolean;
  readonly length: number;
  readonly height: number;
  /** Deflection amplitude and offset of the driven point, upwards positive; undefined where they have no value or may not be seen. */
  readonly amplitude: number | undefined;
  readonly offset: number;
  readonly section: number | undefined;
  readonly values: StripValues;
  readonly movable: readonly MovablePlace[];
  /** The ends of the stroke that the reader may move up and down. */
  readonly ends: readonly StrokeEnd[];
  readonly notes: readonly (readonly Run[])[];
  readonly lengthText: ValueText;
  readonly momentText: ValueText;
  readonly stressText: ValueText;
}

interface StrokeEnd extends MovablePlace {
  /** +1 for the upper end, −1 for the lower. */
  readonly side: 1 | -1;
}

const LARGEST = 1e100;

/** Stand in for a length and a height that are missing; said to be not to scale. */
const SCHEMATIC = { length: 1, height: 0.04 } as const;

/** The end of a specimen that holds the drive and so the free length. */
const DRIVEN: Readonly<Record<StripForm, string>> = {
  cantilever: 'drive', guided: 'drive', tapered: 'drive', waisted: 'drive', centre: 'right support',
};

export const isStripForm = (word: string): word is StripForm => word === 'waisted' || Object.hasOwn(STRIP_SHAPES, word);

/** The figure from the sheet's values; what is no finite number counts as missing. */
export function stripFigureFrom(support: StripForm, values: StripValues, texts: Pick<StripFigure, 'lengthText' | 'momentText' | 'stressText'>): StripFigure {
  const [length, height, section] = [known(values.length), known(values.height), known(values.section)];
  const waist = support === 'waisted' ? waistOf(values, length) : undefined;
  const sound = length !== undefined && height !== undefined && length > 1e-100 && height > 0 && height < length && (support !== 'waisted' || waist !== undefined);
  const amplitude = known(values.amplitude);
  const missing = (['length', 'height', 'amplitude'] as const)
    .flatMap((role) => (values[role] !== undefined && known(values[role]) === undefined && !values[role].hidden ? [values[role].symbol] : []));
  return {
    support,
    shape: shapeOf(support, waist, length),
    width: waist?.wide ?? known(values.width),
    waist,
    toScale: sound,
    length: sound ? length : SCHEMATIC.length,
    height: sound ? height : SCHEMATIC.height,
    amplitude: sound && amplitude !== undefined ? Math.abs(amplitude) : undefined,
    offset: sound ? (known(values.offset) ?? 0) : 0,
    section: sound && section !== undefined && section >= 0 && section <= length ? section : undefined,
    values,
    movable: sound ? placesOf(support, values, { length, height, section }, texts.lengthText) : [],
    ends: sound && amplitude !== undefined ? endsOf(values, length, texts.lengthText) : [],
    notes: support === 'waisted' && waist === undefined ? [['Not to scale: the waist has no values, or does not fit.']] : notesOf(sound, missing, values, section, length),
    ...texts,
  };
}

/** A waist whose four measures are known and fit. */
function waistOf(values: StripValues, length: number | undefined): Waist | undefined {
  const [place, narrow, wide, radius] = [known(values.waist), known(values.width), known(values.wide), known(values.radius)];
  if (place === undefined || narrow === undefined || wide === undefined || radius === undefined) return undefined;
  const waist = { place, narrow, wide, radius };
  return length !== undefined && waistFits(waist, length) ? waist : undefined;
}

function shapeOf(support: StripForm, waist: Waist | undefined, length: number | undefined): StripShape {
  if (support !== 'waisted') return STRIP_SHAPES[support];
  return waist === undefined || length === undefined ? STRIP_SHAPES.cantilever : waistedShape(waist, length);
}

function known(value: FigureValue | undefined): number | undefined {
  if (value?.si === undefined || value.hidden) return undefined;
  return Number.isFinite(value.si) && Math.abs(value.si) < LARGEST ? value.si : undefined;
}

/** A strip is longer than it is high, by more than this can be told from; and its section stands on it. */
const LONGER = 1.01;

function placesOf(
  support: StripForm, values: StripValues, { length, height, section }: { length: number; height: number; section: number | undefined }, lengthText: ValueText,
): MovablePlace[] {
  const places: MovablePlace[] = [];
  const origin = support === 'centre' ? 'the left support' : 'the clamp';
  const add = (name: string, position: number | undefined, given: string | undefined, reach: Frame): void => {
    if (position === undefined || given === undefined) return;
    const label = `${name.charAt(0).toUpperCase()}${name.slice(1)}, ${lengthText(position)} from ${origin}`;
    places.push({ name, position, label, moves: [{ symbol: given, sign: 1 }], reach });
  };
  add(DRIVEN[support], length, values.length?.given, { from: Math.max(LONGER * height, section ?? 0), to: Infinity });
  add('section', section, values.section?.given, { from: 0, to: length });
  return places;
}

/** The ends of a stroke keep apart, so that the upper one stays the upper one, m. */
const APART = 1e-9;

/**
 * The reading at the higher of the two ends belongs to the upper outline, whichever of the two it is. No stroke is longer than
 * the strip.
 */
function endsOf({ lower, upper }: StripValues, length: number, lengthText: ValueText): StrokeEnd[] {
  const [low, high] = [known(lower), known(upper)];
  if (low === undefined || high === undefined) return [];
  return [lower, upper].flatMap((value, index): StrokeEnd[] => {
    const position = index === 0 ? low : high;
    if (value?.given === undefined) return [];
    const side = (index === 1) === high >= low ? 1 : -1;
    const name = side === 1 ? 'upper end of the stroke' : 'lower end of the stroke';
    const other = index === 0 ? high : low;
    const reach = side === 1 ? { from: other + APART, to: other + length } : { from: other - length, to: other - APART };
    return [{ name, side, position, reach, label: `${name.charAt(0).toUpperCase()}${name.slice(1)}, read at ${lengthText(position)}`, moves: [{ symbol: value.given, sign: 1 }] }];
  });
}

function notesOf(sound: boolean, missing: readonly string[], { section: value }: StripValues, section: number | undefined, length: number | undefined): (readonly Run[])[] {
  const notes: (readonly Run[])[] = [];
  const list = missing.flatMap((symbol, index): Run[] => [index === 0 ? '' : ', ', { symbol }]);
  if (missing.length > 0) notes.push([sound ? 'No value yet for ' : 'Not to scale. No value yet for ', ...list, '.']);
  else if (!sound) notes.push(['Not to scale: the specimen has to be longer than it is high.']);
  if (sound && section !== undefined && value !== undefined && (section < 0 || section > (length ?? 0))) {
    notes.push([{ symbol: value.symbol }, ' lies beyond the free length.']);
  }
  return notes;
}

/** `L b = 80.13 mm` for sentences, or the symbol alone. */
export function namedValue(value: FigureValue): string {
  return value.hidden || value.si === undefined ? spokenSymbol(value.symbol) : `${spokenSymbol(value.symbol)} = ${value.text}`;
}

/** The greater of the lengths of two states that are both to scale: what both can be drawn over. */
export function longestOf(figure: StripFigure, held: StripFigure | undefined): number {
  return figure.toScale && held?.toScale === true ? Math.max(figure.length, held.length) : figure.length;
}
