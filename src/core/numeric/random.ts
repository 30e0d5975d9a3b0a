import { LAYERS, normalZiggurat, studentZiggurat, type Ziggurat } from './ziggurat.ts';

/** A source of random numbers that the seed fixes: the same seed gives the same numbers everywhere. */
export interface Random {
  /** Rectangular between 0 and 1, both excluded, in steps of 2⁻⁵². */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
  /** Chi-square with positive, finite degrees of freedom, whole or not. */
  chiSquare(degreesOfFreedom: number): number;
  fillNormal(target: Float64Array): void;
  /** Adds to each entry a sample between −halfWidth and halfWidth, both excluded, in 2³² steps: finer than any scale is read. */
  addUniform(target: Float64Array, halfWidth: number): void;
  /** Adds to each entry a normal sample with this standard deviation. */
  addNormal(target: Float64Array, deviation: number): void;
  /** Adds to each entry `scale` times a sample of Student's t; degrees of freedom positive, may be Infinity. */
  addStudent(target: Float64Array, scale: number, degreesOfFreedom: number): void;
}

const NORMAL = normalZiggurat();
/** By degrees of freedom; a sheet has few of them. */
const studentTables = new Map<number, Ziggurat>();
/** From here on t and the normal distribution are the same to a double. */
const NEARLY_NORMAL = 1e10;
/** Low bits of a word that choose the layer; a constant of this module, so that it costs nothing. */
const LAYER_MASK = LAYERS - 1;
const TO_26_BITS = 67108864;
const TO_30_BITS = 1073741824;
const TO_31_BITS = 2147483648;
const TO_52_BITS = 4503599627370496;

/**
 * A random source from a seed; of the seed its integer part modulo 2³² counts.
 * @source generator xoshiro128** 1.1 by Blackman and Vigna, ACM Trans. Math. Softw. 47 (2021) 36, its state filled by a
 * 32-bit splitmix; from memory.
 */
export function createRandom(seed: number): Random {
  return randomFrom(firstState(seed));
}

/** Sources from one seed that have no number of their sequence in common: each begins 2⁶⁴ words after the one before, the first where `createRandom` does. */
interface RandomStreams {
  /** Number `index` from 0, at its beginning. Quickest in rising order. */
  at(index: number): Random;
}

export function randomStreams(seed: number): RandomStreams {
  let [reached, state] = [0, firstState(seed)];
  return {
    at: (index) => {
      if (index < reached) [reached, state] = [0, firstState(seed)];
      for (; reached < index; reached++) state = jumped(state);
      return randomFrom(state.slice());
    },
  };
}

/** Which states a jump adds up: the coefficients of x to the power 2⁶⁴ modulo the characteristic polynomial of the generator's step. */
const JUMP = Uint32Array.of(0x8764000b, 0xf542d2d3, 0x6fa035c3, 0x77f2db5b);

/**
 * The state 2⁶⁴ steps on.
 * @source the jump of xoshiro128 by Blackman and Vigna; its constants from memory, held by a test that works the steps out by squaring their matrix.
 */
export function jumped(from: Int32Array): Int32Array {
  const sum = new Int32Array(4);
  let [a, b, c, d] = [...from] as [number, number, number, number];
  for (const word of JUMP) {
    for (let bit = 0; bit < 32; bit++) {
      // All bits of the word where this one is set, else none.
      const mask = -((word >>> bit) & 1);
      sum[0] = (sum[0] as number) ^ (a & mask);
      sum[1] = (sum[1] as number) ^ (b & mask);
      sum[2] = (sum[2] as number) ^ (c & mask);
      sum[3] = (sum[3] as number) ^ (d & mask);
      const shifted = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= shifted;
      d = (d << 11) | (d >>> 21);
    }
  }
  return sum;
}

/**
 * A source that goes on from a state, which it changes. Normal and t samples are by the ziggurat. The loops over many samples hold the generator's
 * four words in variables of their own, which the engine keeps in registers as whole numbers (read one by one: taken apart as a list they are not known to
 * be any), and give them back where a rare branch or another loop goes on: hence one long function.
 */
function randomFrom(state: Int32Array): Random {
  const next = (): number => {
    const b = state[1] as number;
    const scrambled = Math.imul(b, 5);
    const word = Math.imul((scrambled << 7) | (scrambled >>> 25), 9);
    let c = (state[2] as number) ^ (state[0] as number);
    let d = (state[3] as number) ^ b;
    state[1] = b ^ c;
    state[0] = (state[0] as number) ^ d;
    c ^= b << 9;
    d = (d << 11) | (d >>> 21);
    state[2] = c;
    state[3] = d;
    return word;
  };
  const uniform = (): number => 0.5 + ((next() >> 6) * TO_26_BITS + (next() >>> 6) + 0.5) / TO_52_BITS;
  /**
   * The place that two words give: taken where it lies under the curve or in the tail, else others are tried. Layer from the low bits; the place
   * across it, with its sign, from 23 other bits and 30 of the next word.
   */
  const settled = (table: Ziggurat, first: number, second: number): number => {
    const { edges, heights } = table;
    let word = first;
    let more = second;
    for (;;) {
      const layer = word & LAYER_MASK;
      const x = (((word >> 9) * TO_30_BITS + (more >>> 2) + 0.5) / TO_52_BITS) * (edges[layer] as number);
      if (Math.abs(x) < (edges[layer + 1] as number)) return x;
      if (layer === 0) return x < 0 ? -table.sampleTail(uniform) : table.sampleTail(uniform);
      const below = heights[layer] as number;
      if (below + uniform() * ((heights[layer + 1] as number) - below) < table.height(x)) return x;
      word = next();
      more = next();
    }
  };
  const sample = (table: Ziggurat): number => {
    const word = next();
    const more = next();
    const layer = word & LAYER_MASK;
    const x = (((word >> 9) * TO_30_BITS + (more >>> 2) + 0.5) / TO_52_BITS) * (table.edges[layer] as number);
    return Math.abs(x) < (table.edges[layer + 1] as number) ? x : settled(table, word, more);
  };
  const addSamples = (target: Float64Array, scale: number, table: Ziggurat): void => {
    const { edges } = table;
    let a = state[0] as number;
    let b = state[1] as number;
    let c = state[2] as number;
    let d = state[3] as number;
    for (let i = 0; i < target.length; i++) {
      let scrambled = Math.imul(b, 5);
      const word = Math.imul((scrambled << 7) | (scrambled >>> 25), 9);
      let shifted = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= shifted;
      d = (d << 11) | (d >>> 21);
      scrambled = Math.imul(b, 5);
      const more = Math.imul((scrambled << 7) | (scrambled >>> 25), 9);
      shifted = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= shifted;
      d = (d << 11) | (d >>> 21);
      const layer = word & LAYER_MASK;
      const x = (((word >> 9) * TO_30_BITS + (more >>> 2) + 0.5) / TO_52_BITS) * (edges[layer] as number);
      if (Math.abs(x) < (edges[layer + 1] as number)) {
        target[i] = (target[i] as number) + scale * x;
        continue;
      }
      state[0] = a;
      state[1] = b;
      state[2] = c;
      state[3] = d;
      target[i] = (target[i] as number) + scale * settled(table, word, more);
      a = state[0] as number;
      b = state[1] as number;
      c = state[2] as number;
      d = state[3] as number;
    }
    state[0] = a;
    state[1] = b;
    state[2] = c;
    state[3] = d;
  };
  return {
    uniform,
    normal: () => sample(NORMAL),
    chiSquare: (degreesOfFreedom) => 2 * gammaSample(degreesOfFreedom / 2, uniform, () => sample(NORMAL)),
    fillNormal(target) {
      for (let i = 0; i < target.length; i++) target[i] = sample(NORMAL);
    },
    addUniform(target, halfWidth) {
      let a = state[0] as number;
      let b = state[1] as number;
      let c = state[2] as number;
      let d = state[3] as number;
      const step = halfWidth / TO_31_BITS;
      for (let i = 0; i < target.length; i++) {
        const scrambled = Math.imul(b, 5);
        const word = Math.imul((scrambled << 7) | (scrambled >>> 25), 9);
        const shifted = b << 9;
        c ^= a;
        d ^= b;
        b ^= c;
        a ^= d;
        c ^= shifted;
        d = (d << 11) | (d >>> 21);
        // Signed words: the middle is zero.
        target[i] = (target[i] as number) + (word + 0.5) * step;
      }
      state[0] = a;
      state[1] = b;
      state[2] = c;
      state[3] = d;
    },
    addNormal: (target, deviation) => addSamples(target, deviation, NORMAL),
    addStudent: (target, scale, degreesOfFreedom) => addSamples(target, scale, studentTable(degreesOfFreedom)),
  };
}

function studentTable(degreesOfFreedom: number): Ziggurat {
  if (degreesOfFreedom > NEARLY_NORMAL) return NORMAL;
  let table = studentTables.get(degreesOfFreedom);
  if (table === undefined) studentTables.set(degreesOfFreedom, (table = studentZiggurat(degreesOfFreedom)));
  return table;
}

/** Four words of 32 bits, never all zero. */
function firstState(seed: number): Int32Array {
  let spread = Math.trunc(seed) | 0;
  return Int32Array.from({ length: 4 }, () => {
    spread = (spread + 0x9e3779b9) | 0;
    let z = Math.imul(spread ^ (spread >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return z ^ (z >>> 15);
  });
}

/**
 * A gamma sample of the given shape.
 * @source Marsaglia and Tsang, A simple method for generating gamma variables, ACM Trans. Math. Softw. 26 (2000) 363;
 * from memory.
 */
function gammaSample(shape: number, uniform: () => number, normal: () => number): number {
  if (shape < 1) return gammaSample(shape + 1, uniform, normal) * uniform() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal();
    const root = 1 + c * x;
    const v = root * root * root;
    if (v <= 0) continue;
    const u = uniform();
    // The squeeze accepts most samples without a logarithm.
    if (u < 1 - 0.0331 * x * x * x * x || Math.log(u) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}
