/**
 * Lives of specimens of steel whose strength, limit, fraction, surface and stress are sampled from the laws that the rotating-bending sheet
 * states, worked out apart from the sheet, and how many of them its 95 % interval holds.
 */
import { createRandom } from '../../src/core/numeric/index.ts';
import type { SheetStates } from '../../src/graph/index.ts';
import { numberOf, solved, uncertaintyOf } from '../worksheets/solved.ts';

/** k_a = a·S_ut^b with S_ut in MPa, at most 1; table 6-2 as the sheet cites it. */
const SURFACES = {
  polished: [1, 0],
  ground: [1.58, -0.085],
  machined: [4.51, -0.265],
  'hot-rolled': [57.7, -0.718],
  forged: [272, -0.995],
} as const satisfies Readonly<Record<string, readonly [a: number, b: number]>>;

/** Fit to the published curve as the sheet cites it, S_ut in MPa. */
const fractionAt = (strength: number): number => (strength < 483 ? 0.9 : 1.06 - 4.1e-4 * strength + 1.5e-7 * strength ** 2);

/** All in MPa. */
interface Line {
  readonly strength: number;
  readonly fraction: number;
  readonly limit: number;
}

const MOST_LIMIT = 700;
const limitOf = (strength: number): number => Math.min(0.5 * strength, MOST_LIMIT);
const surfaceOf = ([a, b]: readonly [number, number], strength: number): number => Math.min(1, a * strength ** b);

/** Decimal logarithm of the life at a stress in MPa; infinite below the limit. */
function life(stress: number, { strength, fraction, limit }: Line): number {
  const [top, bottom] = [Math.log10(fraction * strength), Math.log10(limit)];
  return stress < limit ? Infinity : 3 + ((Math.log10(stress) - top) * 3) / (bottom - top);
}

export type Surface = keyof typeof SURFACES;
const isSurface = (name: string): name is Surface => name in SURFACES;

/** The load that has about this median life by the decimal logarithm, from the sheet's stress at its own load. */
export async function loadFor(settings: Readonly<Record<string, string>>, lgN: number): Promise<string> {
  const states = await solved(settings);
  const [top, bottom] = [numberOf(states, 'f_u') * numberOf(states, 'S_ut'), numberOf(states, 'S_e')];
  const stress = 10 ** (Math.log10(top) + ((lgN - 3) / 3) * Math.log10(bottom / top));
  return `${(numberOf(states, 'F') * stress) / numberOf(states, 'sigma_a')} N`;
}

/** Shares of sampled lives: below the sheet's interval, in it (above its lower end where it has no upper one), and those that break at all. */
export interface SampledShares {
  readonly below: number;
  readonly inside: number;
  readonly broken: number;
}

/** @param settings texts of blanks and choices of the rotating-bending sheet; a material of steel */
export async function sampledLives(settings: Readonly<Record<string, string>>, samples: number): Promise<{ readonly shares: SampledShares; readonly states: SheetStates }> {
  const states = await solved(settings);
  const surface = settings['surface'] ?? 'polished';
  if (!isSurface(surface)) throw new Error(`no surface ${surface}`);
  const low = Math.log10(numberOf(states, 'N_lo'));
  const high = states.symbol('N_hi')?.status === 'value' ? Math.log10(numberOf(states, 'N_hi')) : Infinity;
  const relative = (symbol: string): number => uncertaintyOf(states, symbol) / numberOf(states, symbol);
  const [strength0, stress0, size] = [numberOf(states, 'S_ut') / 1e6, numberOf(states, 'sigma_a') / 1e6, numberOf(states, 'k_b')];
  const shares = ['S_ut', 'c_a', 'c_e', 'r_f', 'sigma_a'].map(relative);
  const scatter = numberOf(states, 's');
  const random = createRandom(7);
  const normals = new Float64Array(shares.length + 1);
  let [below, inside, broken] = [0, 0, 0];
  for (let i = 0; i < samples; i += 1) {
    random.fillNormal(normals);
    const [c = 1, a = 1, e = 1, f = 1, x = 1] = shares.map((share, k) => 1 + share * (normals[k] ?? 0));
    const strength = strength0 * c;
    const line = { strength, fraction: f * fractionAt(strength), limit: a * e * size * surfaceOf(SURFACES[surface], strength) * limitOf(strength) };
    const lgN = life(stress0 * x, line) + scatter * (normals[shares.length] ?? 0);
    below += lgN < low ? 1 : 0;
    inside += lgN >= low && lgN <= high ? 1 : 0;
    broken += lgN < Infinity ? 1 : 0;
  }
  return { shares: { below: below / samples, inside: inside / samples, broken: broken / samples }, states };
}
