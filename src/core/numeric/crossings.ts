import { findPeak, findRoot } from './root.ts';

/** Where a function is zero between two arguments. All ascending. */
export interface Crossings {
  /** It passes through zero. */
  readonly roots: readonly number[];
  /** It touches zero from one side: a double root, on the edge of none and two. */
  readonly touches: readonly number[];
  /** It stays zero from here to there. */
  readonly flats: readonly (readonly [from: number, to: number])[];
  /** It changes its sign without being zero: a jump or a pole. */
  readonly jumps: readonly number[];
}

interface Place {
  readonly x: number;
  readonly y: number;
}

/** Beside a true zero, rounding of the argument leaves no more than this, however steep f is here. */
const STEEPEST_ZERO = 1e-9;
/** How closely golden sections find the bottom of a dip: a parabola is flat within the root of a rounding error. */
const DIP_SHARE = 1e-9;
const HALVINGS = 60;

/**
 * All zeros of f over a grid. Between two neighbours of the grid one passage, one dip with two passages or one touch is found;
 * what swings faster wants a finer grid. NaN where f has no value; the edges of such gaps are found by halving.
 * @param f scaled so that 1 is a large value of it
 * @param xs ascending; @param ys f there, perhaps worked out in bulk (differing from f by rounding at most)
 * @param tolerance what counts as zero
 */
export function findCrossings(f: (x: number) => number, xs: Float64Array, ys: Float64Array, tolerance = 1e-12): Crossings {
  const found = { roots: [] as number[], touches: [] as number[], flats: [] as [number, number][], jumps: [] as number[] };
  for (const run of runsOf(f, xs, ys)) {
    const isZero = run.map(({ y }) => Math.abs(y) <= tolerance);
    run.forEach((place, i) => {
      const next = run[i + 1];
      if (isZero[i] === true) {
        if (isZero[i - 1] === true) return;
        let last = i;
        while (isZero[last + 1] === true) last++;
        const end = run[last];
        if (end === undefined || last - i < 2) found.roots.push(place.x);
        else found.flats.push([edge(f, run[i - 1], place, tolerance), edge(f, run[last + 1], end, tolerance)]);
        return;
      }
      if (next !== undefined && isZero[i + 1] === false && place.y > 0 !== next.y > 0) cross(f, place.x, next.x, tolerance, found);
      else if (isDip(run, i, tolerance)) dip(f, [run[i - 1] ?? place, place, next ?? place], tolerance, found);
    });
  }
  return {
    roots: ascending(found.roots), touches: ascending(found.touches).filter((x) => !found.roots.some((root) => near(root, x))),
    flats: found.flats.toSorted(([a], [b]) => a - b), jumps: ascending(found.jumps),
  };
}

/** The stretches where f has values, each closed by its last place with one. */
function runsOf(f: (x: number) => number, xs: Float64Array, ys: Float64Array): Place[][] {
  const runs: Place[][] = [];
  let run: Place[] = [];
  xs.forEach((x, i) => {
    const y = ys[i] ?? Number.NaN;
    const [before, after] = [xs[i - 1], xs[i + 1]];
    if (!Number.isFinite(y)) return;
    if (run.length === 0 && before !== undefined) run.push(...lastPlace(f, x, before));
    run.push({ x, y });
    if (after !== undefined && Number.isFinite(ys[i + 1])) return;
    if (after !== undefined) run.push(...lastPlace(f, x, after));
    runs.push(run);
    run = [];
  });
  return runs;
}

/** The place with a value that is nearest to where there is none. */
function lastPlace(f: (x: number) => number, inside: number, outside: number): Place[] {
  let [a, b] = [inside, outside];
  let y = Number.NaN;
  for (let i = 0; i < HALVINGS && Math.abs(b - a) > Number.EPSILON * Math.abs(a); i++) {
    const middle = (a + b) / 2;
    const there = f(middle);
    if (Number.isFinite(there)) [a, y] = [middle, there];
    else b = middle;
  }
  return Number.isFinite(y) ? [{ x: a, y }] : [];
}

/** End of a stretch that stays zero, between its last place of the grid and the next one. */
function edge(f: (x: number) => number, outside: Place | undefined, inside: Place, tolerance: number): number {
  let [a, b] = [inside.x, outside?.x ?? inside.x];
  for (let i = 0; i < HALVINGS && Math.abs(b - a) > 4 * Number.EPSILON * Math.abs(a); i++) {
    const middle = (a + b) / 2;
    if (Math.abs(f(middle)) <= tolerance) a = middle;
    else b = middle;
  }
  return a;
}

function cross(f: (x: number) => number, low: number, high: number, tolerance: number, found: { roots: number[]; jumps: number[] }): void {
  const root = findRoot(f, low, high);
  // Worked out in bulk, an end may lie on the other side of zero by a rounding error.
  const at = root ?? [low, high].find((end) => Math.abs(f(end)) <= tolerance);
  if (at === undefined) return;
  (Math.abs(f(at)) <= Math.max(tolerance, STEEPEST_ZERO) ? found.roots : found.jumps).push(at);
}

/** Nearer to zero than its neighbours, and so near that the bottom between them may reach it. */
function isDip(run: readonly Place[], i: number, tolerance: number): boolean {
  const here = Math.abs(run[i]?.y ?? Infinity);
  const sides = [run[i - 1], run[i + 1]].flatMap((side) => (side === undefined ? [] : [Math.abs(side.y) * (side.y > 0 === (run[i]?.y ?? 0) > 0 ? 1 : -1)]));
  return sides.length > 0 && sides.every((side) => side >= here) && here <= 2 * Math.max(...sides.map((side) => side - here)) + tolerance;
}

function dip(
  f: (x: number) => number, [left, place, right]: readonly [Place, Place, Place], tolerance: number, found: { roots: number[]; touches: number[]; jumps: number[] },
): void {
  const side = Math.sign(place.y);
  const height = (x: number): number => {
    const y = f(x);
    return Number.isNaN(y) ? -Infinity : -side * y;
  };
  const bottom = findPeak(height, left.x, right.x, DIP_SHARE * (right.x - left.x));
  if (bottom.value > tolerance) {
    cross(f, left.x, bottom.at, tolerance, found);
    cross(f, bottom.at, right.x, tolerance, found);
  } else if (bottom.value >= -tolerance) found.touches.push(bottom.at);
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));
}

function ascending(values: readonly number[]): number[] {
  return values.toSorted((a, b) => a - b).filter((x, i, all) => i === 0 || !near(all[i - 1] ?? Number.NaN, x));
}
