import { describe, expect, it } from 'vitest';
import {
  chiSquareCumulative, chiSquareQuantile, createRandom, normalCumulative, randomStreams, studentCumulative, studentQuantile, type Random,
} from '../../../src/core/numeric/index.ts';
import { jumped } from '../../../src/core/numeric/random.ts';
import { LAYERS, normalZiggurat, studentZiggurat } from '../../../src/core/numeric/ziggurat.ts';

const SAMPLES = 400_000;
/** A fixed seed either passes or fails for ever; the bounds are those of a test at one in ten thousand. */
const SEED = 20240607;
const BEYOND_CHANCE = 1e-4;

/** Chi-square of counts in cells that should be equally full. */
function evenness(values: Iterable<number>, cells: number, cellOf: (value: number) => number): number {
  const counts = new Float64Array(cells);
  let total = 0;
  for (const value of values) {
    const cell = cellOf(value);
    counts[cell] = (counts[cell] ?? 0) + 1;
    total++;
  }
  const expected = total / cells;
  return counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
}

/** Neither more uneven nor more even than chance allows. */
function isLikely(statistic: number, cells: number): boolean {
  return statistic > chiSquareQuantile(BEYOND_CHANCE, cells - 1) && statistic < chiSquareQuantile(1 - BEYOND_CHANCE, cells - 1);
}

/** Draws that are worked out at once: of those between two, what is known of the two is known. */
const BLOCK = 16;

/**
 * The cell of each of the sorted draws by its cumulative probability, and how far that is from the share of draws before it at most, or a block more. It rises,
 * so one whose neighbours at both ends of a block are in one cell is in that cell as well, and the distance within is no more than from either end to the other.
 */
function blocksOf(sorted: Float64Array, cumulative: (value: number) => number, count: number): { readonly cells: Int32Array; readonly apart: number } {
  const cells = new Int32Array(sorted.length);
  const at = (i: number): number => cumulative(sorted[i] ?? Number.NaN);
  const cellOf = (p: number): number => Math.min(count - 1, Math.floor(p * count));
  let apart = 0;
  for (let from = 0; from < sorted.length; from += BLOCK) {
    const to = Math.min(from + BLOCK, sorted.length);
    const [low, high] = [at(from), at(to - 1)];
    apart = Math.max(apart, high - from / sorted.length, to / sorted.length - low);
    const isOne = cellOf(low) === cellOf(high);
    for (let i = from; i < to; i += 1) cells[i] = isOne ? cellOf(low) : cellOf(at(i));
  }
  return { cells, apart };
}

function sampled(fill: (random: Random, target: Float64Array) => void): Float64Array {
  const target = new Float64Array(SAMPLES);
  fill(createRandom(SEED), target);
  return target;
}

const uniforms = sampled((random, target) => random.addUniform(target.fill(0.5), 0.5));
const normals = sampled((random, target) => random.addNormal(target, 1));

function moment(values: Float64Array, power: number): number {
  return values.reduce((sum, value) => sum + value ** power, 0) / values.length;
}

describe('uniform draws', () => {
  it('fill a thousand cells evenly, and pairs of neighbours a square', () => {
    expect(isLikely(evenness(uniforms, 1000, (u) => Math.floor(u * 1000)), 1000)).toBe(true);
    const pairs = Array.from({ length: SAMPLES / 2 }, (_, i) => i);
    const square = evenness(pairs, 900, (i) => Math.floor((uniforms[2 * i] ?? 0) * 30) * 30 + Math.floor((uniforms[2 * i + 1] ?? 0) * 30));
    expect(isLikely(square, 900)).toBe(true);
  });
  it('use their last bits, too', () => {
    expect(isLikely(evenness(uniforms, 256, (u) => Math.floor(u * 2 ** 32) % 256), 256)).toBe(true);
    const random = createRandom(SEED);
    const single = Float64Array.from({ length: SAMPLES }, () => random.uniform());
    expect(isLikely(evenness(single, 256, (u) => Math.floor(u * 2 ** 51) % 256), 256)).toBe(true);
  });
  it('never reach 0 or 1', () => {
    expect(uniforms.every((u) => u > 0 && u < 1)).toBe(true);
  });
  it('do not follow one another (first ten serial correlations)', () => {
    for (let lag = 1; lag <= 10; lag++) {
      let sum = 0;
      for (let i = lag; i < SAMPLES; i++) sum += ((uniforms[i] ?? 0) - 0.5) * ((uniforms[i - lag] ?? 0) - 0.5);
      expect(Math.abs((12 * sum) / SAMPLES) * Math.sqrt(SAMPLES)).toBeLessThan(4.5);
    }
  });
});

describe('normal draws', () => {
  it('fill a thousand cells of equal probability evenly', () => {
    expect(isLikely(evenness(normals, 1000, (z) => Math.min(999, Math.floor(normalCumulative(z) * 1000))), 1000)).toBe(true);
  });
  it('have the moments 0, 1, 0, 3, 0, 15', () => {
    // Standard deviations of the sample moments: √((m₂ₖ − mₖ²)/n).
    const expected = [[1, 0, 1], [2, 1, 2], [3, 0, 15], [4, 3, 96], [5, 0, 945], [6, 15, 10170]] as const;
    for (const [power, value, variance] of expected) {
      expect(Math.abs(moment(normals, power) - value)).toBeLessThan(4 * Math.sqrt(variance / SAMPLES));
    }
  });
  it('reach into the tails as often as they should', () => {
    for (const limit of [3, 3.6541528853610088, 4]) {
      const beyond = normals.reduce((count, z) => count + (Math.abs(z) > limit ? 1 : 0), 0);
      const expected = 2 * normalCumulative(-limit) * SAMPLES;
      expect(Math.abs(beyond - expected)).toBeLessThan(4 * Math.sqrt(expected) + 1);
    }
  });
  it('come from layers that close at the top', () => expect(unevenLayers(normalZiggurat())).toBeLessThan(1e-9));
});

describe('draws of Student’s t', () => {
  it.each([0.6, 1, 2, 3, 4, 9.5, 30, 500])('with %s degrees of freedom fill cells of equal probability evenly, the outermost too', (degreesOfFreedom) => {
    const samples = sampled((random, target) => random.addStudent(target, 1, degreesOfFreedom));
    const blocks = blocksOf(samples.slice().sort(), (t) => studentCumulative(t, degreesOfFreedom), 1000);
    expect(isLikely(evenness(blocks.cells, 1000, (cell) => cell), 1000)).toBe(true);
    // Kolmogorov and Smirnov: √n times the greatest distance passes 2.2 once in ten thousand samples (their limiting distribution).
    expect(blocks.apart * Math.sqrt(SAMPLES)).toBeLessThan(2.2);
    for (const p of [1e-3, 1e-4, 1e-5]) {
      const limit = studentQuantile(1 - p, degreesOfFreedom);
      const beyond = samples.reduce((count, t) => count + (Math.abs(t) > limit ? 1 : 0), 0);
      expect(Math.abs(beyond - 2 * p * SAMPLES)).toBeLessThan(4 * Math.sqrt(2 * p * SAMPLES) + 1);
    }
  });
  it('come from layers that close at the top', () => {
    for (const degreesOfFreedom of [0.6, 1, 3, 30, 1e6]) expect(unevenLayers(studentZiggurat(degreesOfFreedom))).toBeLessThan(1e-9);
  });
  it('are normal ones with degrees of freedom without end', () => {
    const samples = sampled((random, target) => random.addStudent(target, 1, Infinity));
    // By hand: to compare so many one by one takes the library a second.
    expect(samples.findIndex((t, i) => !Object.is(t, normals[i]))).toBe(-1);
  });
});

/** By what share the areas of the layers differ at most. */
function unevenLayers({ edges, heights }: ReturnType<typeof normalZiggurat>): number {
  const area = (edges[0] ?? 0) * (heights[1] ?? 0);
  const areas = Array.from({ length: LAYERS - 1 }, (_, i) => (edges[i + 1] ?? 0) * ((heights[i + 2] ?? 0) - (heights[i + 1] ?? 0)));
  return Math.max(...areas.map((one) => Math.abs(one / area - 1)));
}

describe('chi-square draws', () => {
  it.each([0.7, 1, 2, 4, 9.5, 60])('with %s degrees of freedom fill cells of equal probability evenly', (degreesOfFreedom) => {
    const random = createRandom(SEED);
    const values = Array.from({ length: 60_000 }, () => random.chiSquare(degreesOfFreedom));
    expect(isLikely(evenness(values, 100, (x) => Math.min(99, Math.floor(100 * chiSquareCumulative(x, degreesOfFreedom)))), 100)).toBe(true);
  });
});

describe('seeds', () => {
  it('the same seed gives the same draws, another seed others', () => {
    const first = (seed: number): number[] => {
      const random = createRandom(seed);
      return Array.from({ length: 500 }, () => random.normal());
    };
    expect(first(7)).toEqual(first(7));
    expect(first(7)).not.toEqual(first(8));
    expect(first(0)).not.toEqual(first(1));
  });
  it('draws one by one are those of a filled column', () => {
    const again = createRandom(SEED);
    expect(Float64Array.from({ length: 50 }, () => again.normal())).toEqual(normals.slice(0, 50));
  });
  it('a column filled in parts is the column filled at once', () => {
    for (const fill of [
      (random: Random, target: Float64Array): void => random.addUniform(target.fill(0.5), 0.5),
      (random: Random, target: Float64Array): void => random.addNormal(target.fill(0), 1),
      (random: Random, target: Float64Array): void => random.addStudent(target.fill(0), 1, 3),
    ]) {
      const random = createRandom(SEED);
      const [whole, parts] = [new Float64Array(5000), new Float64Array(5000)];
      fill(createRandom(SEED), whole);
      fill(random, parts.subarray(0, 1733));
      fill(random, parts.subarray(1733));
      expect(parts).toEqual(whole);
    }
  });
  it('neighbouring seeds are not alike', () => {
    const first = Array.from({ length: 20_000 }, (_, seed) => createRandom(seed).uniform());
    expect(isLikely(evenness(first, 100, (u) => Math.floor(u * 100)), 100)).toBe(true);
  });
});

describe('streams of one seed', () => {
  const BITS = 128n;
  const WORD = (1n << 32n) - 1n;

  /** One step of xoshiro128, on 128 bits as one number (the first word lowest): written out here once more, by its definition. */
  function step(state: bigint): bigint {
    let [a = 0n, b = 0n, c = 0n, d = 0n] = [0n, 32n, 64n, 96n].map((place) => (state >> place) & WORD);
    const shifted = (b << 9n) & WORD;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = ((d << 11n) | (d >> 21n)) & WORD;
    return a | (b << 32n) | (c << 64n) | (d << 96n);
  }

  /** Images of the single bits: a linear map of 128 bits. */
  const apply = (images: readonly bigint[], state: bigint): bigint => images.reduce((sum, image, bit) => (((state >> BigInt(bit)) & 1n) === 1n ? sum ^ image : sum), 0n);

  it('begin 2⁶⁴ words apart: the jump is the step’s matrix squared 64 times', () => {
    let images = Array.from({ length: Number(BITS) }, (_, bit) => step(1n << BigInt(bit)));
    for (let squared = 0; squared < 64; squared++) images = images.map((image) => apply(images, image));
    for (const state of [Int32Array.of(1, 0, 0, 0), Int32Array.of(-5, 77, 123456789, -987654321)]) {
      const whole = [...state].reduce((sum, word, i) => sum | (BigInt(word >>> 0) << BigInt(32 * i)), 0n);
      const expected = apply(images, whole);
      expect([...jumped(state)].map((word) => word >>> 0)).toEqual([0n, 32n, 64n, 96n].map((place) => Number((expected >> place) & WORD)));
    }
  });

  it('are the same in whatever order they are asked for, the first the source of the seed itself', () => {
    const streams = randomStreams(5);
    const ten = (random: Random): number[] => Array.from({ length: 10 }, () => random.normal());
    const rising = [0, 1, 2, 7].map((index) => ten(streams.at(index)));
    expect([7, 2, 0, 1].map((index) => ten(streams.at(index)))).toEqual([rising[3], rising[2], rising[0], rising[1]]);
    expect(rising[0]).toEqual(ten(createRandom(5)));
    expect(new Set(rising.flat()).size).toBe(40);
  });

  it('put one behind the other fill cells of equal probability evenly, and pairs across two of them a square', () => {
    const streams = randomStreams(SEED);
    const columns = Array.from({ length: 40 }, (_, index) => {
      const column = new Float64Array(10_000);
      streams.at(index).addNormal(column, 1);
      return column.map(normalCumulative);
    });
    expect(isLikely(evenness(columns.flatMap((column) => [...column]), 1000, (p) => Math.min(999, Math.floor(p * 1000))), 1000)).toBe(true);
    const pairs = columns.slice(1).flatMap((column, index) => Array.from(column, (p, i) => [p, columns[index]?.[i] ?? 0] as const));
    const counts = evenness(pairs.keys(), 900, (i) => Math.min(29, Math.floor((pairs[i]?.[0] ?? 0) * 30)) * 30 + Math.min(29, Math.floor((pairs[i]?.[1] ?? 0) * 30)));
    expect(isLikely(counts, 900)).toBe(true);
  });
});
