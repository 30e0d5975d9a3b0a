/** Ten fracture surfaces whose share is known from how they are drawn, and a hand that marks them. All invented. */
import { createRandom } from '../../src/core/numeric/index.ts';
import type { Place } from './finger.ts';
import { ellipse, round, type DrawnFracture } from './fracture-pictures.ts';

export type Shape = 'a circle' | 'an ellipse' | 'straight from point to point';

export interface KnownFracture extends DrawnFracture {
  readonly name: string;
  /** Area of the final zone over that of the section, on the surface itself. */
  readonly share: number;
  readonly shapes: readonly [section: Shape, final: Shape];
  /** How many points of each are marked. */
  readonly points: readonly [section: number, final: number];
  /** Standard deviation of the hand on the glass, px, each way. */
  readonly hand: number;
}

const SIZE = { width: 1200, height: 900 };
const BAR = { x: 600, y: 420, radius: 370 };
const LENS: readonly [Shape, Shape] = ['a circle', 'an ellipse'];

/** A final zone of that share of a section of `area`, an ellipse `flat` times as short as long. */
function zone(area: number, { share, flat, x, y, turn = 0 }: { readonly share: number; readonly flat: number; readonly x: number; readonly y: number; readonly turn?: number }): readonly Place[] {
  const long = Math.sqrt((share * area) / (Math.PI * flat));
  return ellipse({ x, y, long, short: long * flat, turn });
}

const DISC = Math.PI * BAR.radius ** 2;

/** Seen by a camera that stands aside by an angle, twelve radii away: a square-on picture's places as they come then. */
function aslant(border: readonly Place[], degrees: number): readonly Place[] {
  const [cosine, sine, away] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180), 12 * BAR.radius];
  return border.map(({ x, y }) => {
    const [across, down] = [x - BAR.x, y - BAR.y];
    const nearness = away / (away + across * sine);
    return { x: BAR.x + across * cosine * nearness, y: BAR.y + down * nearness };
  });
}

/** What lies beyond a straight front at `at` radii from the middle: a segment, its arc first. Share (arccos h − h √(1 − h²))/π, any table of plane figures. */
function segment(at: number): { readonly border: readonly Place[]; readonly share: number } {
  const half = Math.acos(at);
  const border = Array.from({ length: 181 }, (_, i) => {
    const angle = half * (i / 90 - 1);
    return { x: BAR.x + BAR.radius * Math.cos(angle), y: BAR.y + BAR.radius * Math.sin(angle) };
  });
  return { border, share: (half - at * Math.sqrt(1 - at * at)) / Math.PI };
}

/** A strip, and a band across it between two crack fronts that bow outwards by parabolas: their segments have 2/3 of chord times rise. */
const STRIP = { left: 150, right: 1050, top: 300, bottom: 560 };
function band(from: number, to: number, rise: number): { readonly border: readonly Place[]; readonly share: number } {
  const width = STRIP.right - STRIP.left;
  const along = (y: number, way: 1 | -1): readonly Place[] => Array.from({ length: 61 }, (_, i) => {
    const t = way * (i / 30 - 1);
    return { x: STRIP.left + (width * (1 + t)) / 2, y: y - way * rise * (1 - t * t) };
  });
  const border = [...along(STRIP.top + from, 1), ...along(STRIP.top + to, -1)];
  return { border, share: (width * (to - from) + 2 * (2 / 3) * width * rise) / (width * (STRIP.bottom - STRIP.top)) };
}

const rectangle = (top: number, bottom: number): readonly Place[] => [{ x: STRIP.left, y: top }, { x: STRIP.right, y: top }, { x: STRIP.right, y: bottom }, { x: STRIP.left, y: bottom }];
const OVAL = { x: 600, y: 420, long: 460, short: 330, turn: 0.3 };
const [BOW, CUT] = [band(90, 170, 30), segment(0.35)];

const DRAWN: readonly Omit<KnownFracture, 'width' | 'height'>[] = [
  { name: 'round bar, zone off the middle', share: 0.2, section: round(BAR), final: zone(DISC, { share: 0.2, flat: 0.8, x: 660, y: 470, turn: 0.6 }), shapes: LENS, points: [4, 5], hand: 0.7 },
  { name: 'round bar, few points, a small zone near the rim', share: 0.06, section: round(BAR), final: zone(DISC, { share: 0.06, flat: 0.7, x: 800, y: 300, turn: 0.9 }), shapes: LENS, points: [4, 5], hand: 0.7 },
  { name: 'round bar, many points', share: 0.139, section: round(BAR), final: zone(DISC, { share: 0.139, flat: 0.9, x: 560, y: 330 }), shapes: LENS, points: [8, 10], hand: 0.7 },
  { name: 'round bar, an unsteady hand', share: 0.11, section: round(BAR), final: zone(DISC, { share: 0.11, flat: 0.9, x: 640, y: 330 }), shapes: LENS, points: [8, 8], hand: 2.5 },
  { name: 'round bar, a large zone in the middle', share: 0.55, section: round(BAR), final: zone(DISC, { share: 0.55, flat: 0.95, x: 590, y: 430 }), shapes: LENS, points: [6, 8], hand: 1.5 },
  { name: 'bar of elliptical section', share: 0.25, section: ellipse(OVAL), final: zone(Math.PI * OVAL.long * OVAL.short, { share: 0.25, flat: 0.6, x: 660, y: 430, turn: 0.5 }), shapes: ['an ellipse', 'an ellipse'], points: [6, 6], hand: 0.7 },
  { name: 'round bar seen aslant by 25°', share: 0.15, section: aslant(round(BAR), 25), final: aslant(zone(DISC, { share: 0.15, flat: 0.8, x: 520, y: 480 }), 25), shapes: ['an ellipse', 'an ellipse'], points: [6, 6], hand: 0.7 },
  { name: 'round bar bent one way, a segment marked from point to point', share: CUT.share, section: round(BAR), final: CUT.border, shapes: ['a circle', 'straight from point to point'], points: [4, 9], hand: 1 },
  { name: 'strip, a straight band', share: 80 / 260, section: rectangle(STRIP.top, STRIP.bottom), final: rectangle(390, 470), shapes: ['straight from point to point', 'straight from point to point'], points: [4, 4], hand: 0.7 },
  { name: 'strip, a band between bowed fronts', share: BOW.share, section: rectangle(STRIP.top, STRIP.bottom), final: BOW.border, shapes: ['straight from point to point', 'straight from point to point'], points: [4, 12], hand: 1 },
];

export const KNOWN: readonly KnownFracture[] = DRAWN.map((one) => ({ ...SIZE, ...one, section: dense(one.section), final: dense(one.final) }));

/** With places along its straight sides too, at most so many dots apart. */
function dense(border: readonly Place[], apart = 4): readonly Place[] {
  return border.flatMap((at, i) => {
    const next = border[(i + 1) % border.length] ?? at;
    const steps = Math.max(1, Math.ceil(Math.hypot(next.x - at.x, next.y - at.y) / apart));
    return Array.from({ length: steps }, (_, k) => ({ x: at.x + ((next.x - at.x) * k) / steps, y: at.y + ((next.y - at.y) * k) / steps }));
  });
}

/** Where a hand marks a border: at its sharp corners, and else about evenly along what lies between them, off by its own unsteadiness. */
export function markedBy(hand: (deviation: number) => number, border: readonly Place[], count: number, deviation: number): readonly Place[] {
  const corners = cornersOf(border);
  const begins = corners.length === 0 ? [Math.round(border.length * (0.05 + 0.02 * hand(1))) + border.length] : corners;
  // The longer what lies between two corners, the more of the other points it gets.
  const others = (upTo: number): number => Math.round(((count - begins.length) * (upTo - (begins[0] ?? 0))) / border.length);
  return begins.flatMap((begin, k) => {
    const end = begins[k + 1] ?? (begins[0] ?? 0) + border.length;
    const points = 1 + others(end) - others(begin);
    return Array.from({ length: points }, (_, i) => {
      const along = i === 0 ? 0 : (i + 0.1 * hand(1)) / points;
      const place = border[(begin + Math.round(along * (end - begin))) % border.length] ?? { x: Number.NaN, y: Number.NaN };
      return { x: place.x + hand(deviation), y: place.y + hand(deviation) };
    });
  });
}

/** Places at which a border turns by more than half a right angle. */
function cornersOf(border: readonly Place[]): readonly number[] {
  return border.flatMap((at, i) => {
    const [before, after] = [border.at(i - 1) ?? at, border[(i + 1) % border.length] ?? at];
    const turn = Math.atan2((at.x - before.x) * (after.y - at.y) - (at.y - before.y) * (after.x - at.x), (at.x - before.x) * (after.x - at.x) + (at.y - before.y) * (after.y - at.y));
    return Math.abs(turn) > Math.PI / 4 ? [i] : [];
  });
}

/** Normal deviations from a fixed seed. */
export function steady(seed: number): (deviation: number) => number {
  const random = createRandom(seed);
  return (deviation) => deviation * Math.sqrt(-2 * Math.log(1 - random.uniform())) * Math.cos(2 * Math.PI * random.uniform());
}
