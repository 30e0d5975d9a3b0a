import { normalUpperTail } from './error-function.ts';

/** Layers of equal area under exp(−x²/2), the lowest one with the tail. */
export const LAYERS = 256;
/** Where the tail begins, for 256 layers. */
export const TAIL_START = 3.6541528853610088;

/** Right edges x of the layers (`edges[0]` is the width of the lowest one as if it were a box) and exp(−x²/2) there. */
export interface Ziggurat {
  readonly edges: Float64Array;
  readonly heights: Float64Array;
}

/**
 * Tables of the ziggurat method.
 * @source Marsaglia and Tsang, The ziggurat method for generating random variables, J. Stat. Softw. 5 (2000) no. 8: the
 * method; the tail's start is from memory, and a test shows that the layers close at the top.
 */
export function buildZiggurat(): Ziggurat {
  const edges = new Float64Array(LAYERS + 1);
  const heights = new Float64Array(LAYERS + 1);
  const area = TAIL_START * height(TAIL_START) + Math.sqrt(2 * Math.PI) * normalUpperTail(TAIL_START);
  edges[0] = area / height(TAIL_START);
  edges[1] = TAIL_START;
  for (let i = 1; i < LAYERS; i++) {
    const x = edges[i] ?? 0;
    // The last layer ends at the top, x = 0; rounding must not take its height above 1.
    edges[i + 1] = i + 1 === LAYERS ? 0 : Math.sqrt(-2 * Math.log(Math.min(1, height(x) + area / x)));
  }
  for (let i = 0; i <= LAYERS; i++) heights[i] = height(edges[i] ?? 0);
  return { edges, heights };
}

function height(x: number): number {
  return Math.exp(-0.5 * x * x);
}
