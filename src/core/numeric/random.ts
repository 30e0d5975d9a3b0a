import { buildZiggurat, LAYERS, TAIL_START, type Ziggurat } from './ziggurat.ts';

/** A source of random numbers that the seed fixes: the same seed gives the same numbers everywhere. */
export interface Random {
  /** Rectangular between 0 and 1, both excluded, in steps of 2⁻⁵². */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
  /** Chi-square with positive, finite degrees of freedom, whole or not. */
  chiSquare(degreesOfFreedom: number): number;
  fillUniform(target: Float64Array): void;
  fillNormal(target: Float64Array): void;
}

const layers: Ziggurat = buildZiggurat();

/**
 * A random source from a seed; of the seed its value modulo 2³² counts, and its integer part.
 * @source generator xoshiro128** 1.1 by Blackman and Vigna, ACM Trans. Math. Softw. 47 (2021) 36, its state filled by a
 * 32-bit splitmix; from memory.
 */
export function createRandom(seed: number): Random {
  const next = wordSource(seed);
  const uniform = (): number => ((next() >>> 6) * 67108864 + (next() >>> 6) + 0.5) / 4503599627370496;
  const normal = (): number => drawNormal(next, uniform);
  return {
    uniform,
    normal,
    chiSquare: (degreesOfFreedom) => 2 * drawGamma(degreesOfFreedom / 2, uniform, normal),
    fillUniform(target) {
      for (let i = 0; i < target.length; i++) target[i] = uniform();
    },
    fillNormal(target) {
      for (let i = 0; i < target.length; i++) target[i] = normal();
    },
  };
}

/** Words of 32 random bits, 0 … 2³² − 1. */
function wordSource(seed: number): () => number {
  let spread = Math.trunc(seed) | 0;
  const fill = (): number => {
    spread = (spread + 0x9e3779b9) | 0;
    let z = Math.imul(spread ^ (spread >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return z ^ (z >>> 15);
  };
  let a = fill();
  let b = fill();
  let c = fill();
  let d = fill();
  return () => {
    const scrambled = Math.imul(b, 5);
    const word = Math.imul((scrambled << 7) | (scrambled >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return word >>> 0;
  };
}

/** Layer and sign come from one word's low bits, the place within the layer from others, so that they don't depend on each other. */
function drawNormal(next: () => number, uniform: () => number): number {
  const { edges, heights } = layers;
  for (;;) {
    const word = next();
    const layer = word & (LAYERS - 1);
    const sign = (word & LAYERS) === 0 ? 1 : -1;
    // 23 bits of this word and 30 of the next make 53.
    const x = (((word >>> 9) * 1073741824 + (next() >>> 2) + 0.5) / 9007199254740992) * (edges[layer] ?? 0);
    if (x < (edges[layer + 1] ?? 0)) return sign * x;
    if (layer === 0) return sign * drawTail(uniform);
    const below = heights[layer] ?? 0;
    const above = heights[layer + 1] ?? 0;
    if (below + uniform() * (above - below) < Math.exp(-0.5 * x * x)) return sign * x;
  }
}

/** A normal draw beyond the start of the tail (Marsaglia 1964). */
function drawTail(uniform: () => number): number {
  for (;;) {
    const beyond = -Math.log(uniform()) / TAIL_START;
    if (-2 * Math.log(uniform()) > beyond * beyond) return TAIL_START + beyond;
  }
}

/**
 * A gamma draw of the given shape.
 * @source Marsaglia and Tsang, A simple method for generating gamma variables, ACM Trans. Math. Softw. 26 (2000) 363; from memory.
 */
function drawGamma(shape: number, uniform: () => number, normal: () => number): number {
  if (shape < 1) return drawGamma(shape + 1, uniform, normal) * uniform() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal();
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}
