/**
 * The largest size that the sheet reckons with: beyond it a change of unit, a square or a coverage factor may leave the range of doubles
 * (about 1.8e308), and digits would be shown that are none.
 */
const LARGEST = 1e300;

/** Whether a number is finite, and of a size that can be reckoned with and shown in any unit. */
export function isCalculable(value: number): boolean {
  return Math.abs(value) <= LARGEST;
}
