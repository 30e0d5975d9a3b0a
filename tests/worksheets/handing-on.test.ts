/**
 * No number is typed twice between the shipped sheets: a blank whose quantity another sheet has, worked out or typed, takes it over from there, or
 * stands in a list with the reason why it is another quantity. What a blank may be offered, in whose words, is listed too: one symbol, one meaning.
 */
import { describe, expect, test } from 'vitest';
import { parseUnit, sameDimension } from '../../src/core/units/index.ts';
import { cellsOf, parseSheet, type GivenCell } from '../../src/sheet/index.ts';
import { neutral, SHIPPED } from '../shipped.ts';

interface Place {
  readonly sheet: string;
  readonly symbol: string;
  readonly label: string;
  readonly unit: string;
  readonly given?: GivenCell;
}

const documents = SHIPPED.map((sheet) => ({ sheet, document: parseSheet(neutral(sheet)) }));
const places: readonly Place[] = documents.flatMap(({ sheet, document }) => [
  ...cellsOf(document, 'given').map((given) => ({ sheet, symbol: given.symbol, label: given.label ?? '', unit: given.unit, given })),
  ...cellsOf(document, 'step').map(({ symbol, label, unit }) => ({ sheet, symbol, label: label ?? '', unit: unit ?? '' })),
]);
const blanks = places.flatMap((place) => (place.given === undefined ? [] : [{ ...place, given: place.given }]));
const symbolsOf = new Map(SHIPPED.map((sheet) => [sheet, new Set(places.filter((place) => place.sheet === sheet).map(({ symbol }) => symbol))]));

const MATERIAL = 'comes with the material, whose list is the same in every sheet, own materials included';
const HANDBOOK = 'a usual value or a line of a handbook, set by a choice; a line that was fitted is taken over as a line';
const READ = 'read anew each time, at this machine';
const BROKEN = 'measured on this machine’s broken specimen, which is another one';
const STRIP = 'of the strip';

/** Blanks whose symbol and dimension another sheet has for another quantity. */
const ANOTHER: Readonly<Record<string, string>> = {
  'alternating-bending t': STRIP,
  'alternating-bending x_s': 'measured from the clamp',
  'alternating-bending n': 'each machine’s own speed',
  'alternating-bending x_w': 'a place along the strip, no place of a weight',
  'alternating-bending N_obs': BROKEN,
  'alternating-bending a_K': BROKEN,
  'alternating-bending Y_K': BROKEN,
  'rotating-bending N_obs': BROKEN,
  'rotating-bending a_K': BROKEN,
  'rotating-bending Y_K': BROKEN,
  'rotating-bending F_0': READ,
  'load-verification F_0': READ,
  'loading-lever F_0': READ,
  'loading-lever F_i': 'read at the indicator; what has the symbol elsewhere is a force of inertia',
  'rotating-bending n': 'each machine’s own speed',
  'rotating-bending m_h': 'with the shaft, which hangs on no lever',
  'loading-lever m_h': 'without the shaft',
  'loading-lever h': 'the arm of the hanger, no height of a section',
  'loading-lever x_max': 'travel of the weights, no place of a stress',
  'load-verification E': 'of the gauged bar, which is no specimen',
  'load-verification k_i': 'set on the indicator of the gauges, no factor of a life',
  'specimen r': 'a radius; what has the symbol elsewhere is a closure',
  'sn-line S_x': 'a question to the line',
  'staircase sigma_a': 'of the shaft in service, no specimen’s',
  'specimen S_ut': MATERIAL,
  ...Object.fromEntries(['rotating-bending', 'alternating-bending'].flatMap((sheet) => ['S_ut', 'S_y', 'E', 'S_n'].map((symbol) => [`${sheet} ${symbol}`, MATERIAL]))),
  ...Object.fromEntries(['rotating-bending', 'alternating-bending'].flatMap((sheet) =>
    ['c_a', 'c_e', 'r_f', 'f', 'c_l', 'A_0', 'B_0', 's_0'].map((symbol) => [`${sheet} ${symbol}`, HANDBOOK]))),
};

/** What one of them takes over, by its symbol: what it is called there and where it comes from. */
const MEANINGS: Readonly<Record<string, readonly string[]>> = {
  A: ['Intercept of the line', 'S-N line, A'],
  B: ['S-N line, B', 'Slope of the line'],
  D: ['Grip diameter', 'Grip diameter, or of the bar beside the groove'],
  F: ['Load, indicated or marked on the weights', 'Pull of the lever at the yoke'],
  F_h: ['Load acting at the load points with no weights on (hanger, housings, lever)', 'Weight of what hangs at the specimen'],
  F_t: ['Load that is to be set', 'Load that was to be set'],
  K_t: ['Stress concentration factor', 'Stress concentration factor (1 for a smooth strip)', 'Stress concentration factor (1 for a smooth waist)'],
  L: ['Overall span between the supports'],
  M_s: ['Bending moment at the section', 'Bending moment at the waist', 'Bending moment between the load points'],
  N_r: ['Runout life, agreed before the first test', 'Runout life, agreed beforehand'],
  'S_x from sigma_a': ['Nominal stress amplitude', 'Nominal stress amplitude at the least diameter', 'The stress'],
  V_s: ['Shear force just right of the section', 'Shear force there'],
  W: ['Load on the specimen', 'Load on the specimen, all that hangs from the yoke'],
  'a from s_1': ['Left support to left load point', 'Support to load point, the same on both sides'],
  c_v: ['Factor of the last verification, true load over indicated', 'Factor of the verification, true load over indicated'],
  d: ['Diameter', 'Least diameter', 'Minimum diameter', 'Minimum diameter of the specimen', 'Minimum diameter, read around the bar'],
  g: ['Gravity where you stand'],
  k_F: ['Share of the load at the left load point'],
  n: ['Speed', 'Speed of the machines'],
  p_t: ['Least share of the highest stress at which a fracture counts'],
  q: ['Notch sensitivity'],
  rho: ['Profile radius of an hourglass', 'Profile radius of the waist'],
  s_1: ['Left support to left load point'],
  s_2: ['Left load point to right load point'],
  s_3: ['Right load point to right support'],
  x_f: ['Place of fracture, from the waist'],
  x_s: ['Section looked at (the thinnest), from the left support', 'Waist of the specimens, from the left support'],
};

function isSameQuantity(a: Place, b: Place): boolean {
  const [one, other] = [parseUnit(a.unit), parseUnit(b.unit)];
  return a.symbol === b.symbol && a.sheet !== b.sheet && one.ok && other.ok && sameDimension(one.value.dimension, other.value.dimension);
}

/** Where what a blank takes over may come from. */
function sourcesOf({ sheet, given }: (typeof blanks)[number]): readonly Place[] {
  const { symbol = '', beside } = given.elsewhere ?? {};
  return places.filter((place) => isSameQuantity({ ...place, symbol, sheet, unit: given.unit }, place) && (beside === undefined || symbolsOf.get(place.sheet)?.has(beside) === true));
}

const nameOf = ({ sheet, symbol }: Place): string => `${sheet} ${symbol}`;
const twice = blanks.filter((blank) => places.some((place) => isSameQuantity(blank, place)));
const takers = blanks.filter(({ given }) => given.elsewhere !== undefined);

describe('a number that another sheet has', () => {
  test('is taken over from there, or is another quantity for a reason', () => {
    expect(twice.length).toBeGreaterThan(60);
    expect(twice.filter((blank) => blank.given.elsewhere === undefined && ANOTHER[nameOf(blank)] === undefined).map(nameOf)).toEqual([]);
  });

  test('has no reason where it is taken over, or where no other sheet has it', () => {
    const typed = new Set(twice.filter(({ given }) => given.elsewhere === undefined).map(nameOf));
    expect(Object.keys(ANOTHER).filter((name) => !typed.has(name))).toEqual([]);
  });

  test('means the same wherever it may come from', () => {
    const words = new Map<string, Set<string>>();
    for (const taker of takers) {
      const from = sourcesOf(taker);
      expect(from.length, nameOf(taker)).toBeGreaterThan(0);
      const key = taker.given.elsewhere?.symbol === taker.symbol ? taker.symbol : `${taker.symbol} from ${taker.given.elsewhere?.symbol}`;
      words.set(key, new Set([...(words.get(key) ?? []), taker.label, ...from.map(({ label }) => label)]));
    }
    expect(Object.fromEntries([...words].map(([symbol, labels]) => [symbol, [...labels].sort()]).sort())).toEqual(MEANINGS);
  });
});
