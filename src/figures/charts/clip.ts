import type { AxisScale } from './scales.ts';
import type { Band, CurvePoint } from './sn-curves.ts';

/** A place of a curve in the axes' own values. */
export interface Place {
  readonly life: number;
  readonly stress: number;
}

/** The pieces of a curve that lie within the lives of the axis, cut exactly at its ends. */
export function within(curve: readonly CurvePoint[], { domain }: AxisScale, stressPerMpa: number): Place[][] {
  const [low, high] = [Math.log10(domain[0]), Math.log10(domain[1])];
  const pieces: Place[][] = [];
  let piece: Place[] = [];
  const place = (point: CurvePoint): Place => ({ life: 10 ** point.logLife, stress: point.stressMpa * stressPerMpa });
  curve.forEach((point, i) => {
    const before = curve[i - 1];
    const isInside = point.logLife >= low && point.logLife <= high;
    if (before !== undefined) {
      const crossings = [low, high].flatMap((edge) => crossing(before, point, edge)).toSorted((a, b) => a.share - b.share);
      for (const { at } of crossings) {
        piece.push(place(at));
        if (piece.length > 1 && !isInside) {
          pieces.push(piece);
          piece = [];
        }
      }
    }
    if (isInside) piece.push(place(point));
  });
  return piece.length > 1 ? [...pieces, piece] : pieces;
}

function crossing(a: CurvePoint, b: CurvePoint, edge: number): { at: CurvePoint; share: number }[] {
  if ((a.logLife < edge) === (b.logLife < edge) || a.logLife === edge || b.logLife === edge) return [];
  const share = Number.isFinite(a.logLife) && Number.isFinite(b.logLife) ? (edge - a.logLife) / (b.logLife - a.logLife) : 0.5;
  return [{ at: { logLife: edge, stressMpa: a.stressMpa + share * (b.stressMpa - a.stressMpa) }, share }];
}

/** A band in the axes' own values; what lies beyond the lives of the axis ends at its edge. */
export function bandWithin({ lower, upper }: Band, { domain }: AxisScale, stressPerMpa: number): { stress: number; from: number; to: number }[] {
  const within = (logLife: number): number => Math.min(Math.max(10 ** logLife, domain[0]), domain[1]);
  return lower.flatMap((point, i) => {
    const other = upper[i];
    return other === undefined ? [] : [{ stress: point.stressMpa * stressPerMpa, from: within(point.logLife), to: within(other.logLife) }];
  });
}
