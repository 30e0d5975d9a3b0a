/**
 * Of 100 invented staircases with as many tests, how many limits for 90 % of specimens with 95 % confidence held: least and most over
 * steps of 0.5 to 2 standard deviations, of the limits shown and of mean − k·sd.
 * @source tests/bench/coverage-staircase.bench.ts, 2000 staircases a step: standard error 0.5 at 95
 */
const COVERAGE: readonly (readonly [tests: number, least: number, most: number, factorLeast: number, factorMost: number])[] = [
  [6, 95.3, 100, 94.1, 100], [8, 94.7, 100, 83.5, 100], [12, 95, 99.2, 67.6, 100], [15, 94.6, 98.3, 67.3, 100],
  [18, 93.5, 98.2, 66.4, 100], [24, 95.8, 97, 67.3, 100], [30, 95, 96.1, 67.8, 99.9], [40, 93.7, 97.2, 70.2, 100],
];

export interface StaircaseCoverage {
  /** Tests of the simulated staircases that this holds for: as many as asked, or the most that were simulated. */
  readonly tests: number;
  readonly limit: readonly [least: number, most: number];
  readonly factor: readonly [least: number, most: number];
}

/** How often limits hold with as many tests, read between the simulated numbers along 1/n; undefined below the fewest of them. */
export function coverageOfStaircase(tests: number): StaircaseCoverage | undefined {
  const above = COVERAGE.findIndex(([simulated]) => simulated >= tests);
  const right = COVERAGE[above] ?? COVERAGE.at(-1);
  const left = right?.[0] === tests || above < 0 ? right : COVERAGE[above - 1];
  if (left === undefined || right === undefined) return undefined;
  const share = left === right ? 1 : (1 / left[0] - 1 / tests) / (1 / left[0] - 1 / right[0]);
  const at = (place: 1 | 2 | 3 | 4): number => left[place] + share * (right[place] - left[place]);
  return { tests: Math.min(tests, right[0]), limit: [at(1), at(2)], factor: [at(3), at(4)] };
}
