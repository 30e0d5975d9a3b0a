import { fail, ok, type Result } from '../core/problem/index.ts';
import { parseQuantity, type Unit } from '../core/units/index.ts';

/** Which values are allowed or usual, SI, with the words that say so. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
  readonly lowIncluded: boolean;
  readonly highIncluded: boolean;
  readonly words: string;
}

/** Reads `> 0`, `>= 0`, `< 0`, `0 .. 1`, `2 mm .. 20 mm` or `any`; numbers without unit are taken in the given one. */
export function parseBounds(text: string, unit: Unit): Result<Bounds> {
  const trimmed = text.trim();
  const open = { low: -Infinity, high: Infinity, lowIncluded: true, highIncluded: true };
  if (trimmed === 'any') return ok({ ...open, words: 'any value' });
  const sided = /^(>=|<=|>|<)\s*(.+)$/.exec(trimmed);
  if (sided !== null) {
    const [, sign = '', quantity = ''] = sided;
    const value = parseQuantity(quantity, unit);
    if (!value.ok) return value;
    const included = sign.endsWith('=');
    const words = `${SIDE_WORDS[sign] ?? ''} ${quantity}`;
    return sign.startsWith('>')
      ? ok({ ...open, low: value.value.value, lowIncluded: included, words })
      : ok({ ...open, high: value.value.value, highIncluded: included, words });
  }
  const [first, second, ...rest] = trimmed.split('..');
  if (first === undefined || second === undefined || rest.length > 0) {
    return fail({
      code: 'bounds',
      what: `“${text}” is no range of values.`,
      mend: 'Write it as 2 mm .. 20 mm, > 0, >= 0 or any.',
    });
  }
  const low = parseQuantity(first, unit);
  if (!low.ok) return low;
  const high = parseQuantity(second, unit);
  if (!high.ok) return high;
  return ok({ ...open, low: low.value.value, high: high.value.value, words: `between ${first.trim()} and ${second.trim()}` });
}

const SIDE_WORDS: Readonly<Record<string, string>> = {
  '>': 'greater than',
  '>=': 'at least',
  '<': 'less than',
  '<=': 'at most',
};

export function satisfies(value: number, bounds: Bounds): boolean {
  const aboveLow = bounds.lowIncluded ? value >= bounds.low : value > bounds.low;
  const belowHigh = bounds.highIncluded ? value <= bounds.high : value < bounds.high;
  return aboveLow && belowHigh;
}
