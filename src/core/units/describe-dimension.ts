import { coherentUnit } from './coherent-unit.ts';
import {
  ANGLE_DIMENSION,
  CURRENT_DIMENSION,
  DIMENSIONLESS,
  FORCE_DIMENSION,
  FREQUENCY_DIMENSION,
  LENGTH_DIMENSION,
  MASS_DIMENSION,
  MOMENT_DIMENSION,
  STRESS_DIMENSION,
  TEMPERATURE_DIMENSION,
  TIME_DIMENSION,
  sameDimension,
} from './dimension.ts';
import type { Dimension } from './types.ts';

interface DimensionWords {
  readonly dimension: Dimension;
  readonly words: string;
  /** Units of both systems that a reader would write. */
  readonly units: readonly string[];
  readonly article?: 'an';
}

const WORDS: readonly DimensionWords[] = [
  { dimension: DIMENSIONLESS, words: 'number without unit', units: [] },
  { dimension: LENGTH_DIMENSION, words: 'length', units: ['mm', 'in'] },
  { dimension: [2, 0, 0, 0, 0, 0], words: 'area', units: ['mm^2', 'in^2'], article: 'an' },
  { dimension: [3, 0, 0, 0, 0, 0], words: 'volume', units: ['mm^3', 'in^3'] },
  { dimension: [4, 0, 0, 0, 0, 0], words: 'second moment of area', units: ['mm^4', 'in^4'] },
  { dimension: MASS_DIMENSION, words: 'mass', units: ['kg', 'lb'] },
  { dimension: FORCE_DIMENSION, words: 'force', units: ['N', 'lbf'] },
  { dimension: STRESS_DIMENSION, words: 'stress', units: ['MPa', 'ksi'] },
  { dimension: MOMENT_DIMENSION, words: 'bending moment (force times length)', units: ['N\u00b7m', 'lbf\u00b7in'] },
  { dimension: [0, 1, -2, 0, 0, 0], words: 'force per length', units: ['N/mm', 'lbf/in'] },
  {
    dimension: [-0.5, 1, -2, 0, 0, 0],
    words: 'stress intensity (stress times root of length)',
    units: ['MPa\u00b7m^0.5', 'ksi\u00b7in^0.5'],
  },
  { dimension: TIME_DIMENSION, words: 'time', units: ['s', 'min', 'h'] },
  { dimension: FREQUENCY_DIMENSION, words: 'speed of rotation (1/time)', units: ['rev/min', 'Hz'] },
  { dimension: ANGLE_DIMENSION, words: 'angle', units: ['\u00b0', 'rad'], article: 'an' },
  { dimension: [0, 0, -1, 0, 0, 1], words: 'angle per time', units: ['rad/s', '\u00b0/s'], article: 'an' },
  { dimension: TEMPERATURE_DIMENSION, words: 'temperature', units: ['\u00b0C', '\u00b0F'] },
  { dimension: [2, 1, -3, -1, 0, 0], words: 'voltage', units: ['V', 'mV'] },
  { dimension: CURRENT_DIMENSION, words: 'electric current', units: ['A', 'mA'], article: 'an' },
  { dimension: [2, 1, -3, -2, 0, 0], words: 'electric resistance', units: ['\u03a9', 'k\u03a9'], article: 'an' },
  { dimension: [2, 1, -3, 0, 0, 0], words: 'power', units: ['W'] },
  { dimension: [1, 0, -1, 0, 0, 0], words: 'speed', units: ['m/s', 'in/s'] },
  { dimension: [1, 0, -2, 0, 0, 0], words: 'acceleration', units: ['m/s^2', 'in/s^2'], article: 'an' },
  { dimension: [-3, 1, 0, 0, 0, 0], words: 'density', units: ['kg/m^3', 'lb/in^3'] },
];

function wordsFor(dimension: Dimension): DimensionWords | undefined {
  return WORDS.find((entry) => sameDimension(entry.dimension, dimension));
}

/**
 * The kind of quantity in a student's words, without an article: `length`, `stress`, `bending moment (force times
 * length)`; where it has no name, `quantity in m/N`.
 */
export function describeDimension(dimension: Dimension): string {
  return wordsFor(dimension)?.words ?? `quantity in ${coherentUnit(dimension).name}`;
}

/** The same with its article: `a length`, `an area`. */
export function describeDimensionWithArticle(dimension: Dimension): string {
  return `${wordsFor(dimension)?.article ?? 'a'} ${describeDimension(dimension)}`;
}

/** Units that a reader would write for this dimension; empty where only its own unit can be named. */
export function usualUnits(dimension: Dimension): readonly string[] {
  return wordsFor(dimension)?.units ?? [];
}
