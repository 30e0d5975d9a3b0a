/** Letters on the wall: as large as what is shown there allows. */

const SMALLEST = 16;
const SHARES = [1, 0.92, 0.85, 0.78, 0.72, 0.66, 0.61, 0.56, 0.52, 0.48, 0.44, 0.4, 0.3];
/** Below what reads well from the last row, for a table that would otherwise be cut off at its side. */
const SMALLER = [14.5, 13, 11.5];
/** In a narrower window, px, lines and tables scroll on their own, as they do on the sheet. */
const NARROW = 960;

/** Letters of the page, px, for a window, from large to small. */
export function sizesFor(width: number, height: number): readonly number[] {
  const largest = Math.max(SMALLEST + 4, Math.min(height / 22, width / 40));
  return [...new Set(SHARES.map((share) => Math.max(SMALLEST, Math.round(largest * share * 2) / 2)))];
}

/** The same for what is taller than the window at any size: only its width has to fit, and the rest comes screen by screen. */
export function sizesAcross(width: number, height: number): readonly number[] {
  const sizes = sizesFor(width, height);
  return width < NARROW ? sizes : [...sizes.slice(Math.floor(sizes.length / 2)), ...SMALLER];
}

/**
 * The first of these that fits, else the last. Smaller ones fit wherever a larger one does. Each question lays the page out anew:
 * `likely`, which is what fitted last, is asked first, and then those next to it.
 */
export function largestFitting<Size>(sizes: readonly Size[], fits: (size: Size) => boolean, likely = sizes[0]): Size | undefined {
  let [from, to] = [0, sizes.length - 1];
  let at = Math.max(0, sizes.indexOf(likely as Size));
  const seen = { fitting: false, larger: false };
  for (let stride = 1; from < to; stride *= 2) {
    const asked = Math.min(Math.max(at, from), to - 1);
    if (fits(sizes[asked] as Size)) [to, seen.fitting] = [asked, true];
    else [from, seen.larger] = [asked + 1, true];
    // Between one that fits and one that doesn't the middle is asked; until then one goes on, ever further.
    if (seen.fitting && seen.larger) at = Math.floor((from + to) / 2);
    else at = seen.fitting ? asked - stride : asked + stride;
  }
  return sizes[from];
}

/** Height of the letters of a picture, px, in a window of this width. */
export function lettersFor(width: number): number {
  return Math.max(14, Math.min(28, 0.0155 * width));
}
