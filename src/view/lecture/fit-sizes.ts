/** Letters on the wall: as large as what is shown there allows. */

const SMALLEST = 16;
const SHARES = [1, 0.96, 0.92, 0.88, 0.85, 0.78, 0.72, 0.66, 0.61, 0.56, 0.52, 0.48, 0.44, 0.4, 0.3];
/** In a narrower window, px, nobody looks from the last row: lines and tables scroll on their own, as they do on the sheet. */
const NARROW = 960;
/** What the last row can read, of a wall 1280 px wide and 720 high; of figures their fine print. */
const [LAST_ROW, FINE_PRINT] = [28, 20];

/** A wall in the measure of one that is 1280 by 720. */
function scaleOf(width: number, height: number): number {
  return Math.min(width / 1280, height / 720);
}

/** Below this nothing is set, px; what has no room then comes screen by screen. */
function leastFor(width: number, height: number): number {
  return width < NARROW ? SMALLEST : Math.max(SMALLEST, LAST_ROW * scaleOf(width, height));
}

/** Letters of the page, px, for a window, from large to small. */
export function sizesFor(width: number, height: number): readonly number[] {
  const least = leastFor(width, height);
  const largest = Math.max(least + 4, Math.min(height / 22, width / 40));
  return [...new Set(SHARES.map((share) => Math.max(least, Math.round(largest * share * 2) / 2)))];
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

/** Height of the letters of a picture, px, in such a window: at most, and at least. */
export function lettersFor(width: number, height: number): { readonly most: number; readonly least: number } {
  if (width < NARROW) return { most: Math.max(14, 0.0155 * width), least: 12 };
  const least = FINE_PRINT * scaleOf(width, height);
  return { most: 1.2 * least, least };
}
