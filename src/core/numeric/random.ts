import { buildZiggurat, LAYERS, TAIL_START } from './ziggurat.ts';

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

const { edges, heights } = buildZiggurat();
/** Low bits of a word that choose the layer; a constant of this module, so that it costs nothing. */
const LAYER_MASK = LAYERS - 1;

/**
 * A random source from a seed; of the seed its integer part modulo 2³² counts.
 * Normal draws are by the ziggurat; its frequent branch stands inside the closure, where it is inlined.
 * @source generator xoshiro128** 1.1 by Blackman and Vigna, ACM Trans. Math. Softw. 47 (2021) 36, its state filled by a
 * 32-bit splitmix; from memory.
 */
export function createRandom(seed: number): Random {
  const next = wordSource(seed);
  const uniform = (): number => ((next() >>> 6) * 67108864 + (next() >>> 6) + 0.5) / 4503599627370496;
  const normal = (): number => {
    for (;;) {
      const word = next();
      // Layer from the low bits; the place across it, with its sign, from 23 other bits and 30 of the next word.
      const layer = word & LAYER_MASK;
      const across = ((word >> 9) * 1073741824 + (next() >>> 2) + 0.5) / 4503599627370496;
      const x = across * (edges[layer] ?? 0);
      if (Math.abs(x) < (edges[layer + 1] ?? 0)) return x;
      const drawn = beyondLayer(layer, x, uniform);
      if (drawn !== undefined) return drawn;
    }
  };
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

/** Words of 32 random bits, as signed integers. */
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
    return word;
  };
}

/** The rare case: x lies where its layer is not wholly under the curve, or in the tail. Undefined: draw again. */
function beyondLayer(layer: number, x: number, uniform: () => number): number | undefined {
  if (layer === 0) return Math.sign(x) * drawTail(uniform);
  const below = heights[layer] ?? 0;
  const above = heights[layer + 1] ?? 0;
  return below + uniform() * (above - below) < Math.exp(-0.5 * x * x) ? x : undefined;
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
 * @source Marsaglia and Tsang, A simple method for generating gamma variables, ACM Trans. Math. Softw. 26 (2000) 363;
 * from memory.
 */
function drawGamma(shape: number, uniform: () => number, normal: () => number): number {
  if (shape < 1) return drawGamma(shape + 1, uniform, normal) * uniform() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal();
    const root = 1 + c * x;
    const v = root * root * root;
    if (v <= 0) continue;
    const u = uniform();
    // The squeeze accepts most draws without a logarithm.
    if (u < 1 - 0.0331 * x * x * x * x || Math.log(u) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}
