import type { Outcome } from '../../core/fatigue/index.ts';
import { valuesOf } from '../../core/rows/index.ts';
import type { TableState } from '../table/index.ts';

/** Digits of a stress and a life that count: units typed otherwise leave rounding in the last ones. */
const DIGITS = 12;

/**
 * Fingerprint of specimens: the same for the same stresses, lives and outcomes in whatever order and unit they stand, and
 * another one, but for a chance of one in 10¹⁹, as soon as one of them differs. 16 hexadecimal digits.
 */
export function fingerprintOf(stressMpa: ArrayLike<number>, cycles: ArrayLike<number>, outcomes: readonly Outcome[]): string {
  const rows = outcomes.map((outcome, i) => `${(stressMpa[i] ?? 0).toPrecision(DIGITS)} ${(cycles[i] ?? 0).toPrecision(DIGITS)} ${outcome}\n`);
  return fnv64(rows.sort().join(''));
}

/** The same of the rows of a table that a fit was given, but for invalid ones. */
export function fingerprintOfRows(table: TableState, rows: ArrayLike<number>): string {
  const has = (name: string): boolean => table.columns.some((column) => column.name === name);
  const [stresses, cycles] = ['S', 'N'].map((name) => valuesOf(table.all, name) as readonly number[]);
  const outcomes = has('outcome') ? (valuesOf(table.all, 'outcome') as readonly Outcome[]) : undefined;
  const counted = Array.from(rows).filter((row) => outcomes?.[row] !== 'invalid');
  return fingerprintOf(
    counted.map((row) => (stresses?.[row] ?? 0) / 1e6),
    counted.map((row) => cycles?.[row] ?? 0),
    counted.map((row) => outcomes?.[row] ?? 'fracture'),
  );
}

const WORD = 2 ** 32;

/**
 * FNV-1a of 64 bits over the characters' codes, two bytes each where they need them, in two words of 32 bits.
 * @source Fowler, Noll, Vo and Eastlake, The FNV Non-Cryptographic Hash Algorithm (offset basis and prime).
 */
export function fnv64(text: string): string {
  let [high, low] = [0xcbf29ce4, 0x84222325];
  const take = (byte: number): void => {
    low = (low ^ byte) >>> 0;
    // Times the prime 2⁴⁰ + 0x1b3.
    const product = low * 0x1b3;
    high = (high * 0x1b3 + Math.floor(product / WORD) + ((low << 8) >>> 0)) % WORD;
    low = product % WORD;
  };
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    take(code & 0xff);
    if (code > 0xff) take(code >>> 8);
  }
  return [high, low].map((word) => word.toString(16).padStart(8, '0')).join('');
}
