import type { Problem } from '../problem/index.ts';
import { numberText } from '../units/index.ts';

/** Sentences about readings and correlation, built last, from data; tests pin them. */

export function readingsMissing(): Problem {
  return {
    code: 'readings-none',
    what: 'There is no reading to work with.',
    mend: 'Type at least one value.',
    key: 'readings',
  };
}

export function readingsOutOfRange(): Problem {
  return {
    code: 'readings-too-large',
    what: 'The value or its uncertainty is too large to reckon with (up to 1e300 in SI units).',
    mend: 'Look for a slipped decimal point or exponent.',
    key: 'readings',
  };
}

export function coefficientOutOfRange(id: string, other: string, coefficient: number): Problem {
  return {
    code: 'correlation-range',
    what: `The correlation coefficient of ${id} with ${other} can't be ${numberText(coefficient)}.`,
    mend: 'Write a number from -1 to 1; 0 where the two have nothing in common.',
    cell: id,
    key: 'correlated',
  };
}

export function coefficientTwice(id: string, other: string, own: number, theirs: number): Problem {
  return {
    code: 'correlation-twice',
    what: `${id} states ${numberText(own)} as its correlation with ${other}, while ${other} states ${numberText(theirs)}.`,
    mend: 'Take one of the two out, or make them the same.',
    cell: id,
    key: 'correlated',
  };
}

export function coefficientWithItself(id: string): Problem {
  return {
    code: 'correlation-self',
    what: `${id} states a correlation with itself.`,
    mend: 'Name another quantity there, or take the line out.',
    cell: id,
    key: 'correlated',
  };
}

export function coefficientsImpossible(ids: readonly string[]): Problem {
  return {
    code: 'correlation-impossible',
    what: `The correlation coefficients of ${ids.join(', ')} can't all hold at once.`,
    mend: 'Two that each follow a third closely follow each other: state that, too, or bring the coefficients nearer to 0.',
    cell: ids[0] ?? '',
    key: 'correlated',
  };
}

export function togetherUnequal(id: string, count: number, other: string, otherCount: number, group: string): Problem {
  const counts = `${id} has ${readings(count)} and ${other} has ${readings(otherCount)}`;
  return {
    code: 'together-unequal',
    what: `${id} and ${other} are read together (${group}), but ${counts}.`,
    mend: 'Give both the same number of readings, in the same order, or take one of them out of the group.',
    cell: id,
    key: 'together',
  };
}

function readings(count: number): string {
  return count === 0 ? 'a stated uncertainty instead of readings' : count === 1 ? '1 reading' : `${count} readings`;
}
