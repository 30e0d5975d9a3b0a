/** Letters on the wall: as large as what is shown there allows. */

/** Letters of the page, px, in the largest size for a window: a thirtieth of its height or a fortieth of its width. */
export function sizesFor(width: number, height: number): readonly number[] {
  const largest = Math.max(SMALLEST + 4, Math.min(height / 22, width / 40));
  const sizes = SHARES.map((share) => Math.max(SMALLEST, Math.round(largest * share * 2) / 2));
  return [...new Set(sizes)];
}

const SMALLEST = 16;
const SHARES = [1, 0.92, 0.85, 0.78, 0.72, 0.66, 0.61, 0.56, 0.52, 0.48, 0.44, 0.4, 0.3];

/** The first of these sizes that fits, else the last. Smaller ones fit wherever a larger one does. */
export function largestFitting(sizes: readonly number[], fits: (size: number) => boolean): number {
  let [from, to] = [0, sizes.length - 1];
  while (from < to) {
    const middle = Math.floor((from + to) / 2);
    if (fits(sizes[middle] ?? 0)) to = middle;
    else from = middle + 1;
  }
  return sizes[from] ?? SMALLEST;
}

/** Height of the letters of a picture, px, in a window of this width. */
export function lettersFor(width: number): number {
  return Math.max(14, Math.min(28, 0.0155 * width));
}
