import { exponentialOfSquare } from './error-function.ts';

/** Up to here erfc is 1 less what erf is. */
const NEAR = 0.46875;

/** Upper tail of the standard normal distribution beyond x ≥ 0, relative accuracy kept far out: the exponent is that of x itself. */
export function normalUpperTail(x: number): number {
  const z = x * Math.SQRT1_2;
  return z <= NEAR ? 0.5 * (1 - z * ratio(NEAR_ABOVE, NEAR_BELOW, z * z)) : 0.5 * exponentialOfSquare(x, -0.5) * scaledErfc(z);
}

/**
 * exp(x²)·erfc(x) for x ≥ 0, to about 1e-16 relative: one division, no exponential from half on, and no underflow.
 * @source W. J. Cody, Rational Chebyshev approximations for the error function, Math. Comp. 23 (1969) 631; coefficients from memory, held by tests
 * against the series and the continued fraction of `error-function.ts`.
 */
export function scaledErfc(x: number): number {
  if (x <= NEAR) {
    const square = x * x;
    return Math.exp(square) * (1 - (x * ratio(NEAR_ABOVE, NEAR_BELOW, square)));
  }
  if (x <= 4) return ratio(MIDDLE_ABOVE, MIDDLE_BELOW, x);
  const inverse = 1 / (x * x);
  return (ONE_OVER_ROOT_PI - inverse * ratio(FAR_ABOVE, FAR_BELOW, inverse)) / x;
}

const ONE_OVER_ROOT_PI = 1 / Math.sqrt(Math.PI);

/** Of two polynomials, the highest power first. */
function ratio(above: Float64Array, below: Float64Array, x: number): number {
  let a = above[0] as number;
  let b = below[0] as number;
  for (let i = 1; i < above.length; i++) {
    a = a * x + (above[i] as number);
    b = b * x + (below[i] as number);
  }
  return a / b;
}

const NEAR_ABOVE = Float64Array.of(0.18577770618460315, 3.1611237438705655, 113.86415415105016, 377.485237685302, 3209.3775891384694);
const NEAR_BELOW = Float64Array.of(1, 23.601290952344122, 244.02463793444417, 1282.6165260773723, 2844.236833439171);
const MIDDLE_ABOVE = Float64Array.of(
  2.1531153547440383e-8, 0.5641884969886701, 8.883149794388377, 66.11919063714163, 298.6351381974001,
  881.952221241769, 1712.0476126340707, 2051.0783778260716, 1230.3393547979972,
);
const MIDDLE_BELOW = Float64Array.of(
  1, 15.744926110709835, 117.6939508913125, 537.1811018620099, 1621.3895745666903,
  3290.7992357334597, 4362.619090143247, 3439.3676741437216, 1230.3393548037495,
);
const FAR_ABOVE = Float64Array.of(0.016315387137302097, 0.30532663496123236, 0.36034489994980445, 0.12578172611122926, 0.016083785148742275, 0.0006587491615298378);
const FAR_BELOW = Float64Array.of(1, 2.568520192289822, 1.8729528499234673, 0.5279051029514285, 0.06051834131244132, 0.0023352049762686918);
