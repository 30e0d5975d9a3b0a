/** A value as it is shown, times ten to `exponent`. Plain digits with ASCII minus and point, ungrouped. */
export interface RoundedValue {
  readonly number: string;
  /** Two significant digits, to the same decimal place as `number`; absent where there is no uncertainty. */
  readonly uncertainty?: string;
  /** 0 for sizes from 0.001 up to a million. */
  readonly exponent: number;
}

const UNCERTAINTY_DIGITS = 2;
const EXACT_DIGITS = 5;
/** An uncertainty is itself known to two figures at most, and so is what is made of it; one more for what is reckoned with it. */
export const FIGURES_OF_UNCERTAINTIES = 3;
/** Digits that a double certainly has; beyond them is conversion and rounding. */
const DOUBLE_DIGITS = 15;
const LEAST_PLAIN = -3;
const LEAST_POWER = 6;

/** digits × 10^place, digits whole. */
interface Decimal {
  readonly digits: number;
  readonly place: number;
}

/**
 * A value rounded by its uncertainty: the uncertainty to two significant digits, the value to the same decimal place.
 * Without uncertainty (or with one that is lost in the value's own rounding) five significant digits, trailing zeros after
 * the point left out. Halves are rounded away from zero, in decimal.
 * @param value in the unit shown, finite
 * @param u standard uncertainty in that unit, finite, ≥ 0
 * @param exactDigits figures of a value without uncertainty
 * @source JCGM 100:2008, 7.2.6 (at most two significant digits of u).
 * @example roundByUncertainty(312.4319, 2.148) // { number: '312.4', uncertainty: '2.1', exponent: 0 }
 */
export function roundByUncertainty(value: number, u: number, exactDigits = EXACT_DIGITS): RoundedValue {
  if (!Number.isFinite(value) || !Number.isFinite(u) || u < 0) throw new RangeError(`nothing to round: ${value} ± ${u}`);
  if (u <= Math.abs(value) * 10 ** -DOUBLE_DIGITS) return roundExact(value, exactDigits);
  const uncertainty = toDigits(u, UNCERTAINTY_DIGITS);
  const rounded = toPlace(value, uncertainty.place);
  const size = rounded.digits > uncertainty.digits ? rounded : uncertainty;
  const exponent = shownExponent(size);
  return {
    number: withSign(value, plain(rounded, exponent)),
    uncertainty: plain(uncertainty, exponent),
    exponent,
  };
}

function roundExact(value: number, exactDigits: number): RoundedValue {
  if (value === 0) return { number: '0', exponent: 0 };
  const rounded = toDigits(Math.abs(value), exactDigits);
  const exponent = shownExponent(rounded);
  const digits = plain(rounded, exponent);
  return { number: withSign(value, digits.includes('.') ? digits.replace(/\.?0+$/u, '') : digits), exponent };
}

/** A positive number to so many significant digits. */
function toDigits(value: number, count: number): Decimal {
  const rounded = toPlace(value, leadingPlace(value) - count + 1);
  // 0.996 to two digits is 1.0, not 1.00.
  return rounded.digits === 10 ** count ? { digits: rounded.digits / 10, place: rounded.place + 1 } : rounded;
}

/** The size of a number to a decimal place, by its first 15 significant digits. */
function toPlace(value: number, place: number): Decimal {
  const [mantissa = '0', power = '0'] = Math.abs(value).toExponential(DOUBLE_DIGITS - 1).split('e');
  const digits = Number(mantissa.replace('.', ''));
  const dropped = place - (Number(power) - DOUBLE_DIGITS + 1);
  if (digits === 0 || dropped > DOUBLE_DIGITS) return { digits: 0, place };
  if (dropped <= 0) return { digits: digits * 10 ** -dropped, place };
  return { digits: Math.floor((digits + 0.5 * 10 ** dropped) / 10 ** dropped), place };
}

/** Place of the first significant digit. */
function leadingPlace(value: number): number {
  return Number(value.toExponential(DOUBLE_DIGITS - 1).split('e')[1]);
}

/** Power of ten taken out of a number of this size. */
function shownExponent({ digits, place }: Decimal): number {
  const leading = place + String(digits).length - 1;
  return leading < LEAST_PLAIN || leading >= LEAST_POWER ? leading : 0;
}

/** Digits with a point, after taking out ten to `exponent`. */
function plain({ digits, place }: Decimal, exponent: number): string {
  const decimals = exponent - place;
  const text = String(digits);
  if (decimals <= 0) return digits === 0 ? text : text + '0'.repeat(-decimals);
  const padded = text.padStart(decimals + 1, '0');
  return `${padded.slice(0, -decimals)}.${padded.slice(-decimals)}`;
}

function withSign(value: number, digits: string): string {
  return value < 0 && /[1-9]/u.test(digits) ? `-${digits}` : digits;
}
