import { sortNumbers } from './sort-numbers.ts';

/** Fewer values than this are sorted at once. */
const FEW = 5000;
const SELECTION = 4000;

/**
 * The `count` lowest and the `count` highest of the values, each in rising order, without sorting those between.
 * A sample says below which value the lowest surely lie; only what lies there is sorted.
 * @param values no NaN; left as they are; @param count whole, 1 … values.length
 */
export function endValues(values: Float64Array, count: number): { readonly lowest: Float64Array; readonly highest: Float64Array } {
  const size = values.length;
  const sorted = size < FEW || count > size / 4 ? undefined : endsBySelection(values, count);
  if (sorted !== undefined) return sorted;
  const all = sortNumbers(values.slice());
  return { lowest: all.slice(0, count), highest: all.slice(size - count) };
}

function endsBySelection(values: Float64Array, count: number): ReturnType<typeof endValues> | undefined {
  const size = values.length;
  const selection = new Float64Array(SELECTION);
  for (let i = 0; i < SELECTION; i++) selection[i] = values[Math.floor((i * size) / SELECTION)] as number;
  sortNumbers(selection);
  const share = count / size;
  // Five standard deviations of chance beyond the place itself.
  const place = Math.min(SELECTION - 1, Math.ceil(SELECTION * share + 5 * Math.sqrt(SELECTION * share * (1 - share))) + 5);
  const [lowTo, highFrom] = [selection[place] ?? Number.NaN, selection[SELECTION - 1 - place] ?? Number.NaN];
  // Room for as many as five standard deviations of chance more can bring; what is written beyond an array's end is lost.
  const room = Math.ceil((size / SELECTION) * (place + 1 + 5 * Math.sqrt(place + 1)));
  const lowest = new Float64Array(room);
  const highest = new Float64Array(room);
  let [low, high] = [0, 0];
  for (let i = 0; i < size; i++) {
    const value = values[i] as number;
    if (value <= lowTo) lowest[low++] = value;
    if (value >= highFrom) highest[high++] = value;
  }
  // Too few or too many only where the values come in an order that the sample's steps fall in with, or many are the same.
  if (Math.min(low, high) < count || Math.max(low, high) > room) return undefined;
  return { lowest: sortNumbers(lowest.subarray(0, low)).subarray(0, count), highest: sortNumbers(highest.subarray(0, high)).subarray(high - count) };
}
