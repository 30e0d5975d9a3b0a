/** Half the logarithm of 2π. */
const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);
/** From here on Stirling's series with eight terms is exact to double precision. */
const SERIES_START = 10;
/** B₂ₖ/(2k(2k−1)), k = 1…8, with the Bernoulli numbers B₂ₖ. */
const STIRLING = [
  1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156, -3617 / 122400,
];

/**
 * Error of Stirling's formula, lnΓ(z + 1) − [(z + ½) ln z − z + ½ ln 2π], for z > 0.
 * Probabilities are built on this and not on differences of lnΓ, which lose digits for large arguments.
 * @source Loader, Fast and accurate computation of binomial probabilities (2000): the idea; the series is DLMF 5.11.1;
 * both from memory.
 */
function stirlingError(z: number): number {
  let error = 0;
  let x = z;
  for (; x < SERIES_START; x++) error += (x + 0.5) * Math.log1p(1 / x) - 1;
  let power = 1 / x;
  for (const coefficient of STIRLING) {
    error += coefficient * power;
    power /= x * x;
  }
  return error;
}

/**
 * x ln(x/m) + m − x, ≥ 0, without cancellation where x is near m; the difference x − m is handed over, since it may be
 * known better than by subtracting.
 */
function deviance(x: number, m: number, difference: number): number {
  if (Math.abs(difference) >= 0.1 * (x + m)) return x * Math.log(x / m) - difference;
  const v = difference / (x + m);
  let sum = difference * v;
  let term = 2 * x * v;
  for (let k = 3; ; k += 2) {
    term *= v * v;
    const next = sum + term / k;
    if (next === sum) return sum;
    sum = next;
  }
}

/**
 * Logarithm of the gamma function for x > 0, absolute error about 1e-15 near its zeros at 1 and 2, relative elsewhere.
 * @source Stirling's series, DLMF 5.11.1, after shifting the argument upwards; from memory.
 */
export function logGamma(x: number): number {
  if (!(x > 0)) return x === 0 ? Infinity : Number.NaN;
  return stirlingError(x) + (x - 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI;
}

/** xᵃ yᵇ / B(a, b) with y = 1 − x: x times the density that belongs to `incompleteBeta`, divided by y. */
export function betaKernel(a: number, b: number, x: number, y: number): number {
  if (x <= 0 || y <= 0) return 0;
  const n = a + b;
  const excess = a * y - b * x;
  const distance = deviance(a, n * x, excess) + deviance(b, n * y, -excess);
  const exponent = stirlingError(n) - stirlingError(a) - stirlingError(b) - distance;
  return Math.exp(exponent) * Math.sqrt((a / n) * (b / (2 * Math.PI)));
}

/** xᵃ exp(−x) / Γ(a). */
export function gammaKernel(a: number, x: number): number {
  if (x <= 0 || x === Infinity) return 0;
  return Math.exp(-stirlingError(a) - deviance(a, x, a - x)) * Math.sqrt(a / (2 * Math.PI));
}
