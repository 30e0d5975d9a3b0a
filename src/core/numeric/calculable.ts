/**
 * Sizes that the sheet reckons with: beyond them a change of unit, a square or a coverage factor may leave the range of doubles
 * (about 5e-324 to 1.8e308), and digits would be shown that are none.
 */
const LARGEST = 1e300;
const SMALLEST = 1e-300;

/** Whether a number is zero, or of a size that can be reckoned with and shown in any unit. */
export function isCalculable(value: number): boolean {
  const size = Math.abs(value);
  return size === 0 || (size >= SMALLEST && size <= LARGEST);
}
