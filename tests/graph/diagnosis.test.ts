/** Slips planted over both machines' chains are found, and numbers at random are not explained. All setups and figures: `npm run bench -- diagnosis`. */
import { describe, expect, test } from 'vitest';
import { createRandom, explainedByChance, setUp, tellOf, typedAs, workingAt } from '../bench/diagnosis-study.ts';
import { ASIDE, ASKED, PLANTED } from '../bench/planted-slips.ts';
import { diagnose } from '../../src/core/diagnosis/index.ts';

const random = createRandom(7);
const at = {
  'rotating-bending': await setUp('rotating-bending', ASKED['rotating-bending'], random),
  'alternating-bending': await setUp('alternating-bending', ASKED['alternating-bending'], random),
};

describe('what a wrong result comes of', () => {
  test.each([['made with', PLANTED, 0.95], ['kept aside', ASIDE, 0.85]] as const)('the planted slip is told first: %s', (_name, set, share) => {
    const verdicts = set.map((planted) => tellOf(planted, at[planted.sheet], 4).verdict).filter((verdict) => verdict !== 'right');
    expect(verdicts.length).toBeGreaterThan(0.9 * set.length);
    expect(verdicts.filter((verdict) => verdict === 'first').length / verdicts.length).toBeGreaterThanOrEqual(share);
  });

  test.each([3, 4])('a number at random with %i figures is explained in 5 %% or less', (figures) => {
    // 5 % and three standard deviations of that count, for one step and for all of them; 500 numbers a step are the bench's.
    const COUNT = 40;
    const most = (count: number): number => 0.05 + 3 * Math.sqrt((0.05 * 0.95) / count);
    const shares: number[] = [];
    for (const sheet of ['rotating-bending', 'alternating-bending'] as const) {
      for (const symbol of ASKED[sheet]) {
        for (const reach of [2.5, 20]) {
          const share = explainedByChance(at[sheet], symbol, figures, random, COUNT, reach);
          expect(share, `${symbol} ${reach}`).toBeLessThan(most(COUNT));
          shares.push(share);
        }
      }
    }
    expect(shares.reduce((sum, share) => sum + share) / shares.length).toBeLessThan(most(COUNT * shares.length));
  });

  test('with two figures typed little is told, and nothing of what is right', () => {
    const working = workingAt(at['rotating-bending'], 'R_A');
    const half = typedAs((working.right / working.unit.factor) * 0.77, 1, working.unit.factor);
    expect(diagnose(working, half)).toBeUndefined();
  });
});
