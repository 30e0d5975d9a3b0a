/**
 * What the types of the core hold those to who use it: `npm run types` reads this file, and a line marked `@ts-expect-error` that would compile is
 * an error. Nothing here is run but the frame.
 */
import { describe, expectTypeOf, test } from 'vitest';
import { exactly, type Component, type CoverageInterval, coverageInterval, type Estimate, factorInterval } from '../../src/core/estimate/index.ts';
import { fitMaximumLikelihood, lifeLimits, type FittedLine, type LifeLimits, type LimitKind, type LineFit, type Outcome, type Specimens } from '../../src/core/fatigue/index.ts';
import { evaluate, parseFormula, type Expression } from '../../src/core/formula/index.ts';
import { beamReactions, nominalBendingStress, solidRound, type Reactions, type Section } from '../../src/core/mechanics/index.ts';
import { fail, ok, type Problem, type Result } from '../../src/core/problem/index.ts';
import { parseQuantity, sameDimension, toSI, type Dimension, type Unit } from '../../src/core/units/index.ts';

/** Compiled and never called: lines in it that are wrong on purpose do nothing. */
const compiled = (_lines: () => unknown): void => {};

describe('a result', () => {
  test('has a value or a problem, and only after a look at which', () => {
    expectTypeOf(ok(1)).toEqualTypeOf<Result<number>>();
    expectTypeOf(parseFormula('1')).toEqualTypeOf<Result<Expression>>();
    compiled(() => {
      const result = parseFormula('1');
      // @ts-expect-error the value may not be there
      const value = (): unknown => result.value;
      // @ts-expect-error nor the problem
      const problem = (): unknown => result.problem;
      if (value() === problem()) return undefined;
      return result.ok ? expectTypeOf(result.value).toEqualTypeOf<Expression>() : expectTypeOf(result.problem).toEqualTypeOf<Problem>();
    });
  });

  test('a problem says how to mend it', () => {
    expectTypeOf<Problem>().toHaveProperty('mend').toEqualTypeOf<string>();
    // @ts-expect-error without a word on what to do
    compiled(() => fail({ code: 'x', what: 'y' }));
    // @ts-expect-error and is not changed by who gets it
    compiled(() => (problem: Problem) => (problem.what = 'z'));
  });
});

describe('units and dimensions', () => {
  test('a dimension has six exponents, none of which can be set', () => {
    expectTypeOf<Dimension['length']>().toEqualTypeOf<6>();
    // @ts-expect-error five are too few
    compiled(() => sameDimension([0, 0, 0, 0, 0], [0, 0, 0, 0, 0, 0]));
    compiled(() => (dimension: Dimension) => {
      // @ts-expect-error shared by every unit of its kind
      dimension[0] = 2;
    });
  });

  test('a number goes to SI by a unit, not by the name of one', () => {
    expectTypeOf(toSI).parameters.toEqualTypeOf<[value: number, unit: Unit]>();
    // @ts-expect-error
    compiled(() => toSI(6.3, 'mm'));
    // @ts-expect-error a text may be no quantity
    compiled(() => toSI(parseQuantity('6.3 mm', undefined as unknown as Unit).value.value, undefined as unknown as Unit));
  });
});

describe('estimates', () => {
  test('are no plain numbers, and are made by the core alone', () => {
    expectTypeOf(exactly(1)).toEqualTypeOf<Estimate>();
    expectTypeOf(coverageInterval).parameter(0).toEqualTypeOf<Estimate>();
    // @ts-expect-error
    compiled(() => coverageInterval(6.3));
    // @ts-expect-error a value without its sensitivities
    compiled(() => coverageInterval({ value: 6.3 }));
    // @ts-expect-error frozen
    compiled(() => (estimate: Estimate) => (estimate.value = 2));
  });

  test('a factor has no interval about zero, and degrees of freedom may not be claimed', () => {
    expectTypeOf(factorInterval(exactly(1))).toEqualTypeOf<CoverageInterval | undefined>();
    expectTypeOf<CoverageInterval['degreesOfFreedom']>().toEqualTypeOf<number | undefined>();
    expectTypeOf<Component['kind']>().toEqualTypeOf<'A' | 'B'>();
  });
});

describe('formulas', () => {
  test('are evaluated as trees, never as text', () => {
    expectTypeOf(evaluate).parameter(0).toEqualTypeOf<Expression>();
    // @ts-expect-error
    compiled(() => evaluate('1 + 1', { value: () => 0 }));
    // @ts-expect-error an operator that the language does not have
    compiled((): Expression => ({ kind: 'arithmetic', operator: '%', left: null as never, right: null as never, span: { start: 0, end: 0 } }));
  });
});

describe('mechanics', () => {
  test('a stress takes a section, not a diameter', () => {
    expectTypeOf(solidRound(0.006)).toEqualTypeOf<Section>();
    expectTypeOf(beamReactions({ span: 1, loads: [] })).toEqualTypeOf<Reactions>();
    // @ts-expect-error
    compiled(() => nominalBendingStress(10, 0.006));
    // @ts-expect-error a load has a place and a force
    compiled(() => beamReactions({ span: 1, loads: [{ force: 10 }] }));
  });
});

describe('fatigue', () => {
  test('what became of a specimen is one of four words', () => {
    expectTypeOf<Outcome>().toEqualTypeOf<'fracture' | 'runout' | 'suspended' | 'invalid'>();
    expectTypeOf<NonNullable<Specimens['outcomes']>[number]>().toEqualTypeOf<Outcome>();
    // @ts-expect-error
    compiled(() => fitMaximumLikelihood({ stressMpa: [1], cycles: [1], outcomes: ['broken'] }));
  });

  test('a fit may fail, and a limit may lie on one side only', () => {
    expectTypeOf(fitMaximumLikelihood).returns.toEqualTypeOf<Result<LineFit>>();
    expectTypeOf<LifeLimits['lower']>().toEqualTypeOf<number | null>();
    // @ts-expect-error
    compiled(() => (line: FittedLine) => lifeLimits(line, 300, { kind: 'median', confidence: 0.95 }).lower + 1);
    // @ts-expect-error without a share there is no tolerance limit
    compiled((): LimitKind => ({ kind: 'tolerance', confidence: 0.95 }));
    // @ts-expect-error limits at two s have no confidence that could be stated
    compiled((): LimitKind => ({ kind: 'two s', confidence: 0.95 }));
  });
});
