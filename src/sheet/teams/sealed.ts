import { createRandom } from '../../core/numeric/index.ts';

/** How a sealed text begins; eight digits of its salt follow, and four for each of its signs. */
const FORM = /^sealed ([0-9A-F]{8}) ((?:[0-9A-F]{4})+)$/u;
const UNIT = 0x10000;

/**
 * A text so that nobody reads it in passing: what is right of a question, in a team's file. It is no lock, for the page opens it, and so does whoever reads how.
 * @param salt makes equal texts differ from file to file
 */
export function sealed(text: string, salt: number): string {
  return `sealed ${digits(salt >>> 0, 8)} ${mixed([...text].flatMap(unitsOf), salt).map((unit) => digits(unit, 4)).join('')}`;
}

/** The text that was sealed; any other as it is. */
export function opened(text: string | undefined): string | undefined {
  const [, salt, data] = FORM.exec(text ?? '') ?? [];
  if (salt === undefined || data === undefined) return text;
  const units = (data.match(/.{4}/gu) ?? []).map((one) => Number.parseInt(one, 16));
  return mixed(units, Number.parseInt(salt, 16)).map((unit) => String.fromCharCode(unit)).join('');
}

function unitsOf(sign: string): readonly number[] {
  return Array.from({ length: sign.length }, (_none, i) => sign.charCodeAt(i));
}

/** The same twice gives back what was there. */
function mixed(units: readonly number[], salt: number): readonly number[] {
  const random = createRandom(salt);
  return units.map((unit) => unit ^ Math.floor(random.uniform() * UNIT));
}

function digits(number: number, length: number): string {
  return number.toString(16).toUpperCase().padStart(length, '0');
}
