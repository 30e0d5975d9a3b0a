import type { Problem } from '../problem/index.ts';

/** Sentences about staircases, built last, from data. Rows are counted from 1. */

export function tooShort(tests: number): Problem {
  return {
    code: 'staircase-too-short',
    what: `A staircase can't be worked out from ${tests} ${tests === 1 ? 'test' : 'tests'}.`,
    mend: 'Go on testing until there are at least one fracture and one runout; 15 tests are a usual least number.',
  };
}

export function oneOutcome(broken: boolean): Problem {
  return {
    code: 'staircase-one-outcome',
    what: broken ? 'Every specimen broke, so the strength lies somewhere below.' : 'No specimen broke, so the strength lies somewhere above.',
    mend: broken ? 'Go on one step lower after each fracture.' : 'Go on one step higher after each runout.',
  };
}

export function levelNotPositive(row: number): Problem {
  return {
    code: 'staircase-level',
    what: `Row ${row + 1} has no level above zero.`,
    mend: 'Fill in its level, or set its outcome to invalid.',
  };
}

export function oneLevel(): Problem {
  return {
    code: 'staircase-one-level',
    what: 'All tests were made at one level, so there is no step.',
    mend: 'Change the level by one step after every test.',
  };
}

export function offSteps(row: number, step: number): Problem {
  return {
    code: 'staircase-off-steps',
    what: `The level in row ${row + 1} is not a whole number of steps of ${Number(step.toPrecision(3))} from the others.`,
    mend: 'Keep one step throughout; the estimate by counting then holds.',
  };
}

/** @param levels those of the tests that count */
export function unequalSteps(levels: readonly number[], step: number): Problem {
  const sorted = [...new Set(levels)].sort((a, b) => a - b);
  const gaps = sorted.slice(1).map((level, i) => level - (sorted[i] ?? level));
  const short = (value: number): number => Number(value.toPrecision(3));
  return {
    code: 'staircase-unequal',
    what: `The levels lie ${short(Math.min(...gaps))} to ${short(Math.max(...gaps))} apart, but counting is made for equal steps: it counts them here as if each step were ${short(step)}, which is not exact.`,
    mend: 'Let the sheet go on with maximum likelihood, which takes every test at its own level; the lower limit does so anyway.',
  };
}

export function wrongMove(rows: readonly number[], isListed: boolean): Problem {
  const names = rows.slice(0, 5).map((row) => row + 1).join(', ') + (rows.length > 5 ? ', …' : '');
  return {
    code: 'staircase-wrong-move',
    what: `The level of ${rows.length === 1 ? 'row' : 'rows'} ${names} doesn't follow from the test before: ${isListed ? 'down in the list of levels after a fracture, up after a runout' : 'one step down after a fracture, one up after a runout'}.`,
    mend: 'Check the order of the rows; the estimate by counting needs the rule kept.',
  };
}

export function suspendedLeftOut(count: number): Problem {
  return {
    code: 'staircase-suspended',
    what: `${count} suspended ${count === 1 ? 'test says' : 'tests say'} nothing about the strength at the full life and ${count === 1 ? 'is' : 'are'} left out.`,
    mend: 'Repeat them to the full number of cycles.',
  };
}

export function fewTests(tests: number, least: number): Problem {
  return {
    code: 'staircase-few',
    what: `${tests} tests are fewer than the ${least} that a first estimate of the strength rests on.`,
    mend: 'Use the mean with care and the standard deviation not at all.',
  };
}

export function spreadTooSmall(term: number): Problem {
  return {
    code: 'staircase-spread-small',
    what: `The levels spread too little for the formula of the standard deviation (${term.toPrecision(2)} instead of 0.3 or more); 0.53 of the step is put in its place.`,
    mend: 'Take a smaller step if there are more tests to come.',
  };
}

export function stepUnsuitable(ratio: number): Problem {
  return {
    code: 'staircase-step',
    what: `The step is ${ratio.toPrecision(2)} times the standard deviation; the method holds between 0.5 and 2.`,
    mend: ratio > 2 ? 'Take a smaller step.' : 'Take a larger step.',
  };
}

export function separatedLevels(highestRunout: number, lowestFracture: number): Problem {
  return {
    code: 'staircase-separated',
    what: `Fractures and runouts don't overlap (runouts up to ${highestRunout}, fractures from ${lowestFracture}), so maximum likelihood finds no standard deviation.`,
    mend: 'Take a smaller step, or add tests.',
  };
}
