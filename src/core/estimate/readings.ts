/** Statistics of repeated readings, the same whatever the order they stand in. */
export interface ReadingStatistics {
  readonly mean: number;
  /** Readings less their mean, in the order given. */
  readonly deviations: readonly number[];
  /** Experimental standard deviation s; 0 for a single reading. */
  readonly standardDeviation: number;
  /** s/√n: the type A standard uncertainty of the mean. */
  readonly standardUncertainty: number;
  /** n − 1. */
  readonly degreesOfFreedom: number;
}

/**
 * Type A evaluation of n ≥ 1 readings.
 * @source JCGM 100:2008, 4.2.1 to 4.2.3.
 */
export function summariseReadings(readings: readonly number[]): ReadingStatistics {
  const n = readings.length;
  // Summed in order of size, so that the same readings in another order give the same bits.
  const first = sumBySize(readings.map((reading) => reading / n));
  const mean = first + sumBySize(readings.map((reading) => reading - first)) / n;
  const deviations = readings.map((reading) => reading - mean);
  const largest = Math.max(...deviations.map(Math.abs));
  const degreesOfFreedom = n - 1;
  const scaled = sumBySize(deviations.map((deviation) => (deviation / largest) ** 2));
  const standardDeviation = largest === 0 || n === 1 ? 0 : largest * Math.sqrt(scaled / degreesOfFreedom);
  return { mean, deviations, standardDeviation, standardUncertainty: standardDeviation / Math.sqrt(n), degreesOfFreedom };
}

function sumBySize(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b).reduce((sum, value) => sum + value, 0);
}
