import { rememberedTexts } from '../remembered/index.ts';
import { gammaKernel } from './gamma.ts';
import { chiSquareQuantile } from './sampling-distributions.ts';

/** Beyond these tails nothing reaches double precision. */
const TAIL = 1e-17;

/** Density of w = √(χ²/ν), a sample's standard deviation over the true one, with ν degrees of freedom. */
export function scaledChiDensity(w: number, degreesOfFreedom: number): number {
  return w > 0 ? (2 / w) * gammaKernel(degreesOfFreedom / 2, (degreesOfFreedom * w * w) / 2) : 0;
}

/** Where the density of √(χ²/ν) is more than nothing; searches ask for the same degrees of freedom many times. */
export function scaledChiRange(degreesOfFreedom: number): readonly [low: number, high: number] {
  return rangeOf(String(degreesOfFreedom));
}

const rangeOf = rememberedTexts(50, (text): readonly [number, number] => {
  const degreesOfFreedom = Number(text);
  const low = chiSquareQuantile(TAIL, degreesOfFreedom);
  // Quantiles near 1 are limited by the spacing of doubles below 1; a little more than 8 standard deviations is left out.
  const high = chiSquareQuantile(1 - 2 ** -53, degreesOfFreedom);
  return [Math.sqrt(low / degreesOfFreedom), Math.sqrt(high / degreesOfFreedom)];
});
