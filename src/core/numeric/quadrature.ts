/** Nodes and weights: the integral is the sum of weight times value at the node. */
interface Rule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

const rules = new Map<number, Rule>();

/**
 * Gauss-Legendre rule with the given number of points on −1..1, exact for polynomials of degree 2·points − 1.
 * @source zeros of Legendre polynomials by Newton's method from Tricomi's start; Abramowitz and Stegun 25.4.29 (from memory).
 */
export function legendreRule(points: number): Rule {
  const known = rules.get(points);
  if (known !== undefined) return known;
  const nodes = new Float64Array(points);
  const weights = new Float64Array(points);
  for (let i = 0; i < points; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (points + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      let previous = 1;
      let value = x;
      for (let k = 2; k <= points; k++) {
        [previous, value] = [value, ((2 * k - 1) * x * value - (k - 1) * previous) / k];
      }
      slope = (points * (x * value - previous)) / (x * x - 1);
      const change = value / slope;
      x -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  const rule = { nodes, weights };
  rules.set(points, rule);
  return rule;
}

/** One rule on each piece between rising breaks, as points of the whole, each weighed by f there too: for integrals of many functions times one. */
export function weighedPoints(f: (x: number) => number, breaks: readonly number[], points: number): Rule {
  const rule = legendreRule(points);
  const nodes = new Float64Array(points * (breaks.length - 1));
  const weights = nodes.map((_, i) => {
    const piece = Math.floor(i / points);
    const low = breaks[piece] ?? 0;
    const half = ((breaks[piece + 1] ?? 0) - low) / 2;
    const at = (nodes[i] = low + half * (1 + (rule.nodes[i % points] ?? 0)));
    return half * (rule.weights[i % points] ?? 0) * f(at);
  });
  return { nodes, weights };
}

/** Integral of f from the first to the last of the rising breaks, one Gauss-Legendre rule on each piece. */
export function integrate(f: (x: number) => number, breaks: readonly number[], points = 16): number {
  const { nodes, weights } = legendreRule(points);
  let total = 0;
  for (let piece = 1; piece < breaks.length; piece++) {
    const low = breaks[piece - 1] ?? 0;
    const half = ((breaks[piece] ?? 0) - low) / 2;
    let sum = 0;
    for (let i = 0; i < points; i++) sum += (weights[i] ?? 0) * f(low + half * (1 + (nodes[i] ?? 0)));
    total += half * sum;
  }
  return total;
}
