import type { Problem } from '../problem/index.ts';
import type { Coverage, LineModel } from './types.ts';

/** Sentences about specimens and fits, built last, from data. Rows are counted from 1 for the reader. */

export function columnsUneven(): Problem {
  return {
    code: 'columns-uneven',
    what: 'The columns of stress, cycles and outcome are not equally long.',
    mend: 'Give every specimen a stress, a number of cycles and an outcome.',
  };
}

export function stressNotPositive(row: number): Problem {
  return {
    code: 'stress-not-positive',
    what: `Row ${row + 1} has no stress above zero.`,
    mend: 'Fill in its stress, or set its outcome to invalid.',
  };
}

export function cyclesNotPositive(row: number): Problem {
  return {
    code: 'cycles-not-positive',
    what: `Row ${row + 1} has no number of cycles above zero.`,
    mend: 'Fill in its cycles, or set its outcome to invalid.',
  };
}

export function tooFewSpecimens(have: number, need: number, what: string): Problem {
  return {
    code: 'specimens-too-few',
    what: `${what} needs at least ${need} broken specimens; there ${have === 1 ? 'is' : 'are'} ${have}.`,
    mend: 'Add specimens, or choose a simpler model.',
  };
}

export function tooFewLevels(have: number, need: number, what: string): Problem {
  return {
    code: 'levels-too-few',
    what: `${what} needs broken specimens at ${need} different stresses or more; here they lie at ${have}.`,
    mend: need > 2 ? 'Test at another stress, or choose a simpler model.' : 'Test at another stress too.',
  };
}

export function stressesTooClose(): Problem {
  return {
    code: 'levels-too-close',
    what: 'The stresses lie too close together to tell the terms of the line apart.',
    mend: 'Test at stresses further apart, or choose a simpler model.',
  };
}

export function allRunouts(runouts: number): Problem {
  return {
    code: 'all-runouts',
    what: `None of the ${runouts} specimens broke, so there is no life to draw a line through.`,
    mend: 'Test at a higher stress; a staircase tells of the strength at the runout life.',
  };
}

export function separated(): Problem {
  return {
    code: 'scatter-not-found',
    what: 'A line can pass through every broken specimen and leave every runout on its right side, so the scatter can be as small as one likes.',
    mend: 'Add replicates at one or more stresses.',
  };
}

export function notConverged(): Problem {
  return {
    code: 'fit-not-converged',
    what: 'The search for the best line did not come to an end, so its numbers are not to be relied on.',
    mend: 'Look for a slipped decimal point in the table, or choose a simpler model.',
  };
}

export function limitNotIdentified(): Problem {
  return {
    code: 'limit-not-identified',
    what: 'These specimens show no fatigue limit: a straight line down to zero stress fits them at least as well.',
    mend: 'Choose the linear model, or add runouts at a stress below the lowest that broke a specimen.',
  };
}

export function limitAtLevel(level: number): Problem {
  return {
    code: 'limit-at-level',
    what: `The best fatigue limit lies right at a tested stress, ${level.toPrecision(4)} MPa: the specimens there decide on it, and how sure it is can't be told.`,
    mend: 'Test between this stress and the next, or choose the linear model.',
  };
}

export function limitWeak(limit: number): Problem {
  return {
    code: 'limit-weak',
    what: `The specimens hardly tell where the fatigue limit lies: anything from 0 to ${limit.toPrecision(3)} MPa and more agrees with them.`,
    mend: 'Add specimens at low stress before the limit is used.',
  };
}

export function limitOnLogOnly(): Problem {
  return {
    code: 'limit-on-log',
    what: 'The model with a fatigue limit is drawn over the logarithm of the stress above that limit.',
    mend: 'Set stress to log.',
  };
}

export function runoutsLeftOut(runouts: number): Problem {
  return {
    code: 'runouts-left-out',
    what: `Least squares can't use ${runouts === 1 ? 'the unbroken specimen' : `the ${runouts} unbroken specimens`}, and without them the lives at low stress look too short.`,
    mend: 'Choose maximum likelihood.',
  };
}

export function fewSpecimens(n: number, least: number): Problem {
  return {
    code: 'specimens-few',
    what: `${n} specimens are fewer than the ${least} that even a preliminary line should rest on.`,
    mend: 'Take the limits seriously: they are wide for this reason.',
  };
}

/** @param held in how many of 100 simulated cases limits value ∓ 1.96 se held the truth; `beyond`: in fewer than so many */
export function limitsNarrow(failures: number, coverage: Coverage, model: LineModel): Problem {
  const size = model === 'limit' ? 'of curves with as many parameters and broken specimens' : 'of this size';
  const about = coverage.beyond ? 'fewer than' : 'about';
  return {
    code: 'limits-narrow',
    what: `With ${failures} broken specimens, limits of 1.96 standard errors are too narrow: in simulations ${size}, such 95 % limits held the truth `
      + `in ${about} ${Math.round(coverage.parameters)} of 100 cases for the line, and in ${about} ${Math.round(coverage.s)} for s.`,
    mend: failures > (model === 'linear' ? 2 : 3) ? 'Use the limits adjusted for the number of specimens.' : 'Add specimens that break.',
  };
}

/** @param held least and most of 100 simulated cases in which adjusted limits held the truth; undefined where they can't be had */
export function fewFailures(failures: number, coverage: readonly [least: number, most: number] | undefined): Problem {
  const [least = 0, most = 0] = coverage ?? [];
  return {
    code: 'failures-few',
    what: coverage === undefined
      ? `With ${failures} broken specimens, limits can't be adjusted for their number, and what says 95 % holds the truth far less often.`
      : `With ${failures} broken specimens, Weibull limits hold only nearly what they say: in simulations of six specimens, 95 % limits held the truth `
        + `in ${Math.floor(least)} to ${Math.ceil(most)} of 100 cases.`,
    mend: coverage === undefined ? 'Add specimens that break before any limit is used.' : 'More broken specimens mend it.',
  };
}

export function scatterNone(): Problem {
  return {
    code: 'scatter-none',
    what: 'All specimens lie on the line as good as exactly, which real tests never do.',
    mend: 'Check whether the lives were measured or worked out.',
  };
}

export function influential(rows: readonly number[]): Problem {
  const names = rows.slice(0, 5).map((row) => row + 1).join(', ') + (rows.length > 5 ? ', …' : '');
  return {
    code: 'specimens-influential',
    what: `${rows.length === 1 ? `Row ${names} stands` : `Rows ${names} stand`} apart and ${rows.length === 1 ? 'pulls' : 'pull'} the line more than the others.`,
    mend: 'Check the test record; leave a specimen out only for a reason found there.',
  };
}

export function lackOfFitFound(p: number): Problem {
  return {
    code: 'lack-of-fit',
    what: `The means of the replicates stray from the line more than their scatter explains (p = ${p.toPrecision(2)}).`,
    mend: 'Try the quadratic model, or fit a shorter range of stress.',
  };
}

export function risingLine(): Problem {
  return {
    code: 'line-rising',
    what: 'By this line, a higher stress gives a longer life.',
    mend: 'Check the columns for mixed-up rows; test over a wider range of stress.',
  };
}

export function lifeNotReached(cycles: number): Problem {
  return {
    code: 'life-not-reached',
    what: `The line has no falling part that reaches ${cycles.toPrecision(3)} cycles.`,
    mend: 'Ask for a life inside the tested range.',
  };
}

export function thresholdFew(have: number, need: number): Problem {
  return {
    code: 'threshold-few',
    what: `A distribution with a threshold needs at least ${need} broken specimens, and is worth little below thirty; there are ${have}.`,
    mend: 'Test more specimens, or choose a distribution without a threshold.',
  };
}

export function thresholdNone(): Problem {
  return {
    code: 'threshold-none',
    what: 'These lives show no threshold: none is more likely than one above zero.',
    mend: 'Choose the Weibull distribution with two parameters.',
  };
}

export function thresholdUnbounded(): Problem {
  return {
    code: 'threshold-unbounded',
    what: 'No threshold can be found: the nearer it lies to the shortest life, the more likely these lives become, without end.',
    mend: 'Choose a distribution without a threshold; only many more specimens could tell one.',
  };
}
