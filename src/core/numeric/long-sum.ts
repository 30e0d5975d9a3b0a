/** 2²⁷ + 1: parts a double into halves whose products are exact. */
const SPLIT = 134217729;

/**
 * A sum of products to about twice double precision: what rounding takes from each product and each sum is summed beside it.
 * Holds while no product overflows or comes near underflow; then it is as good as a plain sum.
 * @source Ogita, Rump and Oishi, Accurate sum and dot product, SIAM J. Sci. Comput. 26 (2005) 1955, algorithm 5.3 (Dot2),
 * with the exact product of Dekker (1971) and the exact sum of Knuth; from memory.
 */
export class LongSum {
  private high = 0;
  private low = 0;

  clear(): this {
    this.high = 0;
    this.low = 0;
    return this;
  }

  add(value: number): void {
    const sum = this.high + value;
    const own = sum - this.high;
    this.low += this.high - (sum - own) + (value - own);
    this.high = sum;
  }

  addProduct(a: number, b: number): void {
    const product = a * b;
    const aSplit = SPLIT * a;
    const aHigh = aSplit - (aSplit - a);
    const aLow = a - aHigh;
    const bSplit = SPLIT * b;
    const bHigh = bSplit - (bSplit - b);
    const bLow = b - bHigh;
    this.add(product);
    this.low += aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow);
  }

  get value(): number {
    return this.high + this.low;
  }

  /** What `value` leaves out. */
  get rest(): number {
    return this.high - this.value + this.low;
  }
}
