import type { Point } from '../drawings/markup.ts';

/** Values over a grid: `values[row * columns + column]`, NaN where there is none. */
interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly values: Float64Array;
}

/** A place on an edge of the grid, by which lines of neighbouring cells are joined. */
interface Crossing extends Point {
  readonly edge: string;
}

/**
 * The lines along which a grid has one value, in grid coordinates (column, row): by marching squares, the value taken to
 * change evenly along the edges. Cells with a corner without value are left out.
 */
export function levelLines({ columns, rows, values }: Grid, level: number): readonly (readonly Point[])[] {
  const segments: (readonly [Crossing, Crossing])[] = [];
  const at = (column: number, row: number): number => values[row * columns + column] ?? Number.NaN;
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const corners = [at(column, row), at(column + 1, row), at(column + 1, row + 1), at(column, row + 1)];
      if (corners.some(Number.isNaN)) continue;
      const [a = 0, b = 0, c = 0, d = 0] = corners;
      const found = [
        crossing(a, b, level, (share) => ({ x: column + share, y: row, edge: `h ${column} ${row}` })),
        crossing(b, c, level, (share) => ({ x: column + 1, y: row + share, edge: `v ${column + 1} ${row}` })),
        crossing(d, c, level, (share) => ({ x: column + share, y: row + 1, edge: `h ${column} ${row + 1}` })),
        crossing(a, d, level, (share) => ({ x: column, y: row + share, edge: `v ${column} ${row}` })),
      ].filter((place) => place !== undefined);
      const [first, second, third, fourth] = found;
      if (first === undefined || second === undefined) continue;
      if (third === undefined || fourth === undefined) segments.push([first, second]);
      // A saddle: the middle says which corners belong together.
      else if ((a + b + c + d) / 4 > level === a > level) segments.push([first, second], [third, fourth]);
      else segments.push([first, fourth], [second, third]);
    }
  }
  return joined(segments);
}

function crossing(from: number, to: number, level: number, place: (share: number) => Crossing): Crossing | undefined {
  return from > level === to > level ? undefined : place((level - from) / (to - from));
}

function joined(segments: readonly (readonly [Crossing, Crossing])[]): Point[][] {
  const byEdge = new Map<string, number[]>();
  segments.forEach((ends, i) => ends.forEach(({ edge }) => byEdge.set(edge, [...(byEdge.get(edge) ?? []), i])));
  const used = new Set<number>();
  const follow = (from: Crossing): Crossing[] => {
    const line: Crossing[] = [];
    for (let end: Crossing | undefined = from; end !== undefined;) {
      const { edge }: Crossing = end;
      const next: number | undefined = byEdge.get(edge)?.find((i) => !used.has(i));
      const ends: readonly [Crossing, Crossing] | undefined = next === undefined ? undefined : segments[next];
      if (next !== undefined) used.add(next);
      end = ends?.find((other) => other.edge !== edge);
      if (end !== undefined) line.push(end);
    }
    return line;
  };
  return segments.flatMap(([a, b], i) => {
    if (used.has(i)) return [];
    used.add(i);
    return [[...follow(a).toReversed(), a, b, ...follow(b)]];
  });
}
