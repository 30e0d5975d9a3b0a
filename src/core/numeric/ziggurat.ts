import { studentCumulative, studentDensity } from './sampling-distributions.ts';
import { normalUpperTail } from './scaled-complement.ts';

/** Layers of equal area under a curve, the lowest one with the tail. */
export const LAYERS = 256;
/** Where the tail of exp(−x²/2) begins, for 256 layers. */
const NORMAL_TAIL_START = 3.6541528853610088;

/** A curve that falls from 1 at x = 0 and is the same on both sides. */
interface Curve {
  readonly height: (x: number) => number;
  /** The x at which it has fallen to a height. */
  readonly inverse: (height: number) => number;
  /** Area beyond x, on one side. */
  readonly tail: (x: number) => number;
}

/** Right edges x of the layers (`edges[0]` is the width of the lowest one as if it were a box) and the curve's heights there. */
export interface Ziggurat {
  readonly edges: Float64Array;
  readonly heights: Float64Array;
  readonly height: (x: number) => number;
  /** A sample beyond the start of the tail. */
  readonly sampleTail: (uniform: () => number) => number;
}

/**
 * The normal distribution.
 * @source Marsaglia and Tsang, The ziggurat method for generating random variables, J. Stat. Softw. 5 (2000) no. 8: the
 * method; the tail's start is from memory, and a test shows that the layers close at the top. Tail: Marsaglia 1964.
 */
export function normalZiggurat(): Ziggurat {
  const curve: Curve = {
    height: (x) => Math.exp(-0.5 * x * x),
    inverse: (height) => Math.sqrt(-2 * Math.log(height)),
    tail: (x) => Math.sqrt(2 * Math.PI) * normalUpperTail(x),
  };
  return {
    ...layersFrom(curve, NORMAL_TAIL_START),
    height: curve.height,
    sampleTail: (uniform) => {
      for (;;) {
        const beyond = -Math.log(uniform()) / NORMAL_TAIL_START;
        if (-2 * Math.log(uniform()) > beyond * beyond) return NORMAL_TAIL_START + beyond;
      }
    },
  };
}

/**
 * Student's t, by the same method: it samples as fast as the normal distribution.
 * The logarithm of the density is concave in ln x, so that beyond its start the tail lies below the power of x that touches
 * it there; samples from that power are let pass by the ratio of the two.
 * @param degreesOfFreedom positive, finite
 */
export function studentZiggurat(degreesOfFreedom: number): Ziggurat {
  const power = (degreesOfFreedom + 1) / 2;
  const top = studentDensity(0, degreesOfFreedom);
  const curve: Curve = {
    height: (x) => Math.exp(-power * Math.log1p((x * x) / degreesOfFreedom)),
    inverse: (height) => Math.sqrt(degreesOfFreedom * Math.expm1(-Math.log(height) / power)),
    tail: (x) => studentCumulative(-x, degreesOfFreedom) / top,
  };
  const start = tailStart(curve);
  const steepness = (2 * power * start * start) / (degreesOfFreedom + start * start);
  const atStart = curve.height(start);
  return {
    ...layersFrom(curve, start),
    height: curve.height,
    sampleTail: (uniform) => {
      for (;;) {
        const stretch = uniform() ** (-1 / (steepness - 1));
        const x = start * stretch;
        if (uniform() * atStart < curve.height(x) * stretch ** steepness) return x;
      }
    },
  };
}

/** The start of the tail from which layers of equal area just reach the top: halved down, in ln x. */
function tailStart(curve: Curve): number {
  let [low, high] = [1, 2];
  while (closing(curve, high) > 0) high *= high;
  for (let step = 0; step < 100 && high / low > 1 + 1e-15; step++) {
    const middle = Math.sqrt(low * high);
    if (closing(curve, middle) > 0) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}

/** By how much the uppermost layer ends above the top. */
function closing(curve: Curve, start: number): number {
  const area = start * curve.height(start) + curve.tail(start);
  let x = start;
  for (let i = 1; i < LAYERS; i++) {
    const height = curve.height(x) + area / x;
    if (i === LAYERS - 1 || height >= 1) return height - 1;
    x = curve.inverse(height);
  }
  return 0;
}

function layersFrom(curve: Curve, start: number): { readonly edges: Float64Array; readonly heights: Float64Array } {
  const edges = new Float64Array(LAYERS + 1);
  const area = start * curve.height(start) + curve.tail(start);
  edges[0] = area / curve.height(start);
  edges[1] = start;
  for (let i = 1; i < LAYERS; i++) {
    const x = edges[i] ?? 0;
    // The last layer ends at the top, x = 0; rounding must not take its height above 1.
    edges[i + 1] = i + 1 === LAYERS ? 0 : curve.inverse(Math.min(1, curve.height(x) + area / x));
  }
  return { edges, heights: edges.map((x) => curve.height(x)) };
}
