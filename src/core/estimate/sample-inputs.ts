import { factorSemidefinite, type Random } from '../numeric/index.ts';
import { addComponents, sampleInput, studentScale } from './sample.ts';
import { sharedCauses } from './estimate.ts';
import { inputUncertainty, pairedReadings, statedCoefficient } from './input.ts';
import { correlationMatrix } from './together.ts';
import type { Component, Input } from './types.ts';

/** Rows F with F·Fᵀ the correlation matrix: F times independent normal samples are correlated ones. */
type Factor = readonly (readonly number[])[];

/**
 * Samples of all inputs, `count` of each, by their ids; entries at the same place belong together.
 *
 * - Independent inputs: each by itself (`sampleInput`).
 * - Inputs measured with one instrument: its deviation is sampled once for all of them.
 * - Givens read in pairs: their type A parts as a multivariate t with the covariance of the means and n − 1 degrees of
 *   freedom, the other components independent. A simplification: JCGM 102:2011, 5.3.2 has n less the number of quantities;
 *   with n − 1 each given keeps the distribution it has alone.
 * - Stated coefficients: where every input is one component, normal or t with the same degrees of freedom (parameters of a
 *   fit), multivariate normal or t. Otherwise each input keeps its own distribution and its samples are put in the order of
 *   correlated normal samples (a normal copula); the coefficient is then that of the normal samples, and what comes out is
 *   a few hundredths nearer to zero where the distributions are far from normal.
 *
 * @source JCGM 101:2008, 6.4.8 (multivariate normal), 6.4.9 (t).
 */
export function sampleInputs(inputs: readonly Input[], random: Random, count: number): Map<string, Float64Array> {
  const columns = inputs.map(() => new Float64Array(count));
  inputSource(inputs)(random, columns);
  return new Map(inputs.map((input, i) => [input.id, columns[i] ?? new Float64Array(count)]));
}

/** Fills one column for each input, all of one length; call after call they go on with fresh samples. */
export type InputSource = (random: Random, columns: readonly Float64Array[]) => void;

/** Samples of inputs in blocks, as `sampleInputs` makes them at once; a copula puts in order block by block. */
export function inputSource(inputs: readonly Input[]): InputSource {
  const causes = commonCauses(inputs);
  const fills = clusters(inputs).map((cluster) => {
    const places = cluster.map((input) => inputs.indexOf(input));
    const fill = clusterSource(cluster.map((input) => withoutCauses(input, causes)));
    return (random: Random, columns: readonly Float64Array[]): void => fill(random, places.map((place) => columns[place] ?? new Float64Array()));
  });
  // Kept from call to call: memory of its own for each block costs more than the samples in it.
  let room = new Float64Array();
  return (random, columns) => {
    for (const fill of fills) fill(random, columns);
    if (causes.size === 0) return;
    const count = columns[0]?.length ?? 0;
    if (room.length < count) room = new Float64Array(count);
    const deviations = room.length === count ? room : room.subarray(0, count);
    for (const cause of causes.values()) addCause(cause, random, columns, deviations);
  };
}

/** The deviation that several inputs have in common, by the inputs' places: one sample, of the size and sign that it has in each. */
interface CommonCause {
  readonly component: Component;
  readonly sizes: ReadonlyMap<number, number>;
}

/** Inputs with stated coefficients are left to these: a coefficient holds for the whole uncertainty. */
function commonCauses(inputs: readonly Input[]): ReadonlyMap<string, CommonCause> {
  const free = inputs.filter((input) => !inputs.some((other) => other !== input && statedCoefficient(input, other) !== undefined));
  const shared = sharedCauses(free.map((input) => ({ input })));
  const causes = new Map<string, { component: Component; sizes: Map<number, number> }>();
  for (const input of free) {
    for (const component of input.components) {
      if (component.common === undefined || !shared.has(component.common)) continue;
      const cause = causes.get(component.common) ?? { component, sizes: new Map<number, number>() };
      cause.sizes.set(inputs.indexOf(input), Math.sign(input.value) * component.standardUncertainty);
      causes.set(component.common, cause);
    }
  }
  return causes;
}

function withoutCauses(input: Input, causes: ReadonlyMap<string, CommonCause>): Input {
  const own = input.components.filter(({ common }) => common === undefined || !causes.has(common));
  return own.length === input.components.length ? input : { ...input, components: own };
}

/** @param deviations room for as many as a column has */
function addCause({ component, sizes }: CommonCause, random: Random, columns: readonly Float64Array[], deviations: Float64Array): void {
  deviations.fill(0);
  addComponents([{ ...component, standardUncertainty: 1 }], random, deviations);
  for (const [place, size] of sizes) {
    const column = columns[place];
    if (column !== undefined) addTimes(column, size, deviations);
  }
}

function addTimes(column: Float64Array, size: number, deviations: Float64Array): void {
  for (let k = 0; k < column.length; k++) column[k] = (column[k] as number) + size * (deviations[k] as number);
}

function clusterSource(cluster: readonly Input[]): InputSource {
  const [only, ...others] = cluster;
  if (only !== undefined && others.length === 0) return (random, [column = new Float64Array()]) => sampleInput(only, random, column);
  if (!hasStated(cluster)) return pairedSource(cluster);
  const common = commonDegreesOfFreedom(cluster);
  return common === undefined ? rankedSource(cluster) : ellipticalSource(cluster, common);
}

/** Inputs that have to be sampled at once, in the order of their first members. */
function clusters(inputs: readonly Input[]): readonly (readonly Input[])[] {
  const found: Input[][] = [];
  for (const input of inputs) {
    const touching = found.filter((cluster) => cluster.some((member) => areTied(member, input)));
    const [first, ...others] = touching;
    if (first === undefined) found.push([input]);
    else {
      first.push(...others.flat(), input);
      for (const other of others) found.splice(found.indexOf(other), 1);
    }
  }
  return found;
}

function areTied(a: Input, b: Input): boolean {
  const stated = statedCoefficient(a, b);
  return stated === undefined ? pairedReadings(a, b) > 0 : stated !== 0;
}

function hasStated(cluster: readonly Input[]): boolean {
  return cluster.some((a) => cluster.some((b) => a !== b && statedCoefficient(a, b) !== undefined));
}

/** The degrees of freedom that all inputs share, where each is a single normal or t component. */
function commonDegreesOfFreedom(cluster: readonly Input[]): number | undefined {
  const each = cluster.map(({ components }) => {
    const [only, ...more] = components;
    if (only === undefined || more.length > 0) return undefined;
    return only.distribution === 'normal' ? Infinity : only.distribution === 't' ? only.degreesOfFreedom : undefined;
  });
  return each.every((degreesOfFreedom) => degreesOfFreedom === each[0]) ? each[0] : undefined;
}

function pairedSource(cluster: readonly Input[]): InputSource {
  const fromReadings = cluster.map((input) => {
    return { ...input, components: input.components.filter(({ kind }) => kind === 'A') };
  });
  const degreesOfFreedom = fromReadings[0]?.components[0]?.degreesOfFreedom ?? Infinity;
  const together = ellipticalSource(fromReadings, degreesOfFreedom);
  return (random, columns) => {
    together(random, columns);
    for (const [i, { components }] of cluster.entries()) {
      addComponents(components.filter(({ kind }) => kind === 'B'), random, columns[i] ?? new Float64Array());
    }
  };
}

function ellipticalSource(cluster: readonly Input[], degreesOfFreedom: number): InputSource {
  const factor = factorOf(cluster);
  const uncertainties = cluster.map(inputUncertainty);
  const normals = new Float64Array(factor[0]?.length ?? 0);
  return (random, columns) => {
    for (let k = 0; k < (columns[0]?.length ?? 0); k++) {
      random.fillNormal(normals);
      const scale = studentScale(degreesOfFreedom, random);
      for (const [i, { value }] of cluster.entries()) {
        const column = columns[i];
        if (column !== undefined) column[k] = value + (uncertainties[i] ?? 0) * scale * dot(factor[i] ?? [], normals);
      }
    }
  };
}

function rankedSource(cluster: readonly Input[]): InputSource {
  const factor = factorOf(cluster);
  const normals = new Float64Array(factor[0]?.length ?? 0);
  return (random, columns) => {
    const guides = columns.map((column) => new Float64Array(column.length));
    for (let k = 0; k < (columns[0]?.length ?? 0); k++) {
      random.fillNormal(normals);
      for (const [i, guide] of guides.entries()) guide[k] = dot(factor[i] ?? [], normals);
    }
    for (const [i, input] of cluster.entries()) {
      const column = columns[i] ?? new Float64Array();
      sampleInput(input, random, column);
      orderAs(guides[i] ?? column, column);
    }
  };
}

/** Rearranges `column` so that its entries are in the same order of size as those of `guide`. */
function orderAs(guide: Float64Array, column: Float64Array): void {
  const sortedGuide = guide.slice().sort();
  const sorted = column.slice().sort();
  for (let k = 0; k < column.length; k++) column[k] = sorted[rank(sortedGuide, guide[k] ?? 0)] ?? 0;
}

/** Place of a value in a sorted column that holds it. */
function rank(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length - 1;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((sorted[middle] ?? 0) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Coefficients that cannot all hold (`checkTogether` tells the reader) are weakened in equal measure until they can. */
function factorOf(cluster: readonly Input[]): Factor {
  const matrix = correlationMatrix(cluster);
  for (let tenths = 10; tenths > 0; tenths--) {
    const factor = factorSemidefinite(matrix.map((row, i) => row.map((r, j) => (i === j ? r : (r * tenths) / 10))));
    if (factor !== undefined) return factor;
  }
  return matrix.map((row, i) => row.map((_, j) => (i === j ? 1 : 0)));
}

function dot(row: readonly number[], normals: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < normals.length; j++) sum += (row[j] ?? 0) * (normals[j] ?? 0);
  return sum;
}
