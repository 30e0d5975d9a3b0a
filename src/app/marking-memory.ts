import { readScheme, writtenScheme, type MarkingScheme } from '../returns/index.ts';

/** Where the marking scheme of each sheet is kept, by its title; reading it may throw where the browser keeps nothing. */
export type MarkingMemory = () => Pick<Storage, 'getItem' | 'setItem'>;

const SCHEMES = 'spanlife-marking';
/** Schemes of so many sheets are remembered. */
const MOST_SCHEMES = 20;

function schemesIn(memory: MarkingMemory): readonly (readonly [string, unknown])[] {
  try {
    const stored: unknown = JSON.parse(memory().getItem(SCHEMES) ?? '[]');
    return Array.isArray(stored) ? stored.filter((one): one is [string, unknown] => Array.isArray(one) && typeof one[0] === 'string') : [];
  } catch {
    // What can't be read is none: points are one for each step then.
    return [];
  }
}

export function schemeOf(memory: MarkingMemory, title: string): MarkingScheme {
  return readScheme(schemesIn(memory).find(([one]) => one === title)?.[1]);
}

export function keepScheme(memory: MarkingMemory, title: string, scheme: MarkingScheme): void {
  const others = schemesIn(memory).filter(([one]) => one !== title);
  try {
    memory().setItem(SCHEMES, JSON.stringify([[title, writtenScheme(scheme)], ...others].slice(0, MOST_SCHEMES)));
  } catch {
    // A browser that keeps nothing has the scheme as long as the page is open.
  }
}
