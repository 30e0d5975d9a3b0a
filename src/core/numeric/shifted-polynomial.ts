import type { Matrix } from './symmetric.ts';

/** Middle of the range of x, and the power of two at or above its half width: dividing by it rounds nothing. */
export function spanOf(x: ArrayLike<number>): { centre: number; scale: number } {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < x.length; i++) {
    const value = x[i] as number;
    if (value < low) low = value;
    if (value > high) high = value;
    if (Number.isNaN(value)) return { centre: Number.NaN, scale: Number.NaN };
  }
  return { centre: (low + high) / 2, scale: 2 ** Math.ceil(Math.log2((high - low) / 2)) };
}

/** Transform from coefficients of ((x − centre)/scale)ʲ, j = 0…degree, to those of xᵏ: row k is what each j adds to k. */
export function powersOfShifted(degree: number, centre: number, scale: number): Matrix {
  let power = [1];
  const byPower = [power];
  for (let j = 1; j <= degree; j++) {
    const before = power;
    power = Array.from({ length: j + 1 }, (_, k) => ((before[k - 1] ?? 0) - centre * (before[k] ?? 0)) / scale);
    byPower.push(power);
  }
  return byPower.map((_, k) => byPower.map((row) => row[k] ?? 0));
}
