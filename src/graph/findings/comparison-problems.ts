import { composed, type Problem } from '../../core/problem/index.ts';

/** Sentences about groups that can't be compared, or not as well as it looks. */

/** Groups told by name. */
const MOST_NAMED = 12;

export function narrowLimits(first: number, second: number): Problem {
  return {
    code: 'comparison-narrow',
    what: `Limits and tests here are those of large samples; with ${first} and ${second} broken specimens the limits come out too narrow and the tests find differences too readily.`,
    mend: 'See whether least squares finds the same, or break more specimens.',
  };
}

export function scatterDiffers(): Problem {
  return {
    code: 'comparison-scatter',
    what: 'The lives of one group scatter more than those of the other, and more than chance explains; the tests of the lines take the scatter as the same.',
    mend: 'Trust the ratios, which take each group’s own scatter, more than the tests.',
  };
}

export function oneGroup(): Problem {
  return {
    code: 'comparison-one-group',
    what: 'There are no two groups to compare: the table names fewer than two.',
    mend: 'Say in a column `group` which specimens belong together.',
  };
}

export function sameGroup(name: string): Problem {
  return { code: 'comparison-same-group', what: composed`${name} is asked to be compared with itself.`, mend: 'Name two different groups.', key: 'asks' };
}

export function groupUnknown(name: string, groups: readonly string[]): Problem {
  return {
    code: 'comparison-group',
    what: `The table has no group “${name}”.`,
    mend: groups.length > 0 ? `Its groups are: ${groups.slice(0, MOST_NAMED).join(', ')}.` : 'Add a column group.',
    key: 'asks',
  };
}

export function limitNotCompared(): Problem {
  return {
    code: 'comparison-limit',
    what: 'Groups are compared by straight or curved lines; lines with a fatigue limit can’t be compared here.',
    mend: 'Choose the straight line, and compare the strengths at the life of the runouts.',
  };
}

export function manyGroups(count: number): Problem {
  return {
    code: 'comparison-many-groups',
    what: `All ${count} groups together are too many to be tested at once.`,
    mend: 'Compare two at a time, or put groups together.',
  };
}
