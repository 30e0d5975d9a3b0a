import fc from 'fast-check';
import type { Unit as MathUnit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { checkDimensions, type Expression } from '../../../src/core/formula/index.ts';
import { parseUnit, sameDimension, type Dimension } from '../../../src/core/units/index.ts';
import { GENTLE_TREE, inMathjs, math, numberTree, read } from './expressions.ts';

/** Units of the trade's symbols (their kinds: glossary of the trade, common practice, no published source). */
const UNITS: Readonly<Record<string, string>> = {
  F: 'N', R_A: 'N', d: 'mm', c: 'mm', s_1: 'mm', L: 'mm', I: 'mm^4', M: 'N*m', S_ut: 'MPa', S_e: 'MPa', E: 'GPa', f: '1', b: '1', N_e: '1',
  omega: 'rad/s', n: 'rev/min', theta: 'deg', T: 'K', t: 's',
};

function dimension(unit: string): Dimension {
  const parsed = parseUnit(unit);
  if (!parsed.ok) throw new Error(parsed.problem.what);
  return parsed.value.dimension;
}

const dimensionOf = (name: string): Dimension | undefined => {
  const unit = UNITS[name];
  return unit === undefined ? undefined : dimension(unit);
};

function check(text: string) {
  return checkDimensions(read(text), dimensionOf, Object.keys(UNITS));
}

describe('checkDimensions finds the kind of quantity', () => {
  it.each([
    ['pi*d^4/64', 'm^4'],
    ['M*c/I', 'Pa'],
    ['F*s_1', 'J'],
    ['4.51*(S_ut/unit(MPa))^(-0.265)', '1'],
    ['min(0.5*S_ut, 700*unit(MPa))', 'Pa'],
    ['sqrt(d*L)', 'm'],
    ['cbrt(d^3)', 'm'],
    ['(d^3)^(1/3)', 'm'],
    ['(d^4)^-0.5', '1/m^2'],
    ['d^(2 - 3*2)', 'm^-4'],
    ['d/s_1', '1'],
    ['unit(in)/unit(mm)', '1'],
    ['abs(-d) + macaulay(d - c) + u(d)', 'm'],
    ['best(d) + d', 'm'],
    ['mean(d, c, L)', 'm'],
    // The literal 0 fits every kind.
    ['if(d > 0, F, 0)', 'N'],
    ['max(0, d - c)', 'm'],
    ['0 + F', 'N'],
    ['0', '1'],
    ['if(d > 0, 0, 0)', '1'],
    ['sin(theta) + cos(0.5) + tan(theta)', '1'],
    ['atan(d/L)', 'rad'],
    ['omega/(2*pi*unit(rad)) + n', '1/s'],
    ['exp(-E/S_ut)*ln(N_e)', '1'],
    ['10^(3 + b*log10(S_e/unit(MPa)))', '1'],
    ['n*t', '1'],
  ])('%s is in %s', (text, unit) => {
    const result = check(text);
    if (!result.ok || result.value === 'truth') throw new Error(result.ok ? 'truth' : result.problem.what);
    expect(sameDimension(result.value, dimension(unit))).toBe(true);
    // Exact, not only near: what comes out of whole and halved exponents is whole.
    expect(result.value.map((exponent) => exponent === 0)).toEqual(dimension(unit).map((exponent) => exponent === 0));
  });

  it.each(['F < R_A', 'd > 0 and not (F <= 0)', '0 < d', 'abs(d - c) <= 2*u(d) or N_e > 3'])('%s is a truth', (text) => {
    expect(check(text)).toEqual({ ok: true, value: 'truth' });
  });
});

describe('checkDimensions refuses, naming both sides and one thing to do', () => {
  it.each<[text: string, code: string, underlined: string, what: string, mend: string]>([
    ['2*(F + d)', 'dimension-clash', '(F + d)', "Can't add d (length) to F (force).", 'Check the formula, or the unit of d.'],
    ['F - M/2', 'dimension-clash', 'F - M/2', "Can't subtract M/2 (bending moment, force times length) from F (force).", 'Check the formula, or the unit of M/2.'],
    ['d + 5', 'dimension-clash', 'd + 5', "Can't add 5 (number without unit) to d (length).", 'Give 5 a unit, for example 5*unit(mm).'],
    ['1 - d', 'dimension-clash', '1 - d', "Can't subtract d (length) from 1 (number without unit).", 'Give 1 a unit, for example 1*unit(mm).'],
    ['b + d', 'dimension-clash', 'b + d', "Can't add d (length) to b (number without unit).", 'Divide by a unit where its number is meant: d/unit(mm).'],
    ['min(0.5*S_ut, 700)', 'dimension-clash', 'min(0.5*S_ut, 700)', "Can't compare 0.5*S_ut (stress) with 700 (number without unit) in min( ).", 'Give 700 a unit, for example 700*unit(MPa).'],
    ['d < F', 'dimension-clash', 'd < F', "Can't compare d (length) with F (force).", 'Check the formula, or the unit of F.'],
    ['mean(d, F)', 'dimension-clash', 'mean(d, F)', "Can't take the mean of d (length) and F (force).", 'Check the formula, or the unit of F.'],
    ['if(d < c, d, F)', 'dimension-clash', 'if(d < c, d, F)', 'The two branches of if( ) are of different kinds: d (length) and F (force).', 'Check the formula, or the unit of F.'],
    ['if(d < F, 1, 2)', 'dimension-clash', 'd < F', "Can't compare d (length) with F (force).", 'Check the formula, or the unit of F.'],
    ['n + omega', 'dimension-clash', 'n + omega', "Can't add omega (angle per time) to n (speed of rotation, 1/time).", 'An angular velocity (rad/s) is not a frequency (1/s): divide omega by 2*pi*unit(rad) to get revolutions per time.'],
    ['theta < b', 'dimension-clash', 'theta < b', "Can't compare theta (angle) with b (number without unit).", 'Where the number of radians is meant, divide by it: theta/unit(rad).'],
    ['log10(f*S_ut) - log10(S_e)', 'dimension-argument', 'log10(f*S_ut)', 'log10 needs a number without unit, and f*S_ut is a stress.', 'Divide by unit(MPa) first: log10(f*S_ut/unit(MPa)).'],
    ['ln(d + c)', 'dimension-argument', 'ln(d + c)', 'ln needs a number without unit, and d + c is a length.', 'Divide by unit(mm) first: ln((d + c)/unit(mm)).'],
    ['exp(theta)', 'dimension-argument', 'exp(theta)', 'exp needs a number without unit, and theta is an angle.', 'Divide by unit(rad) first: exp(theta/unit(rad)).'],
    ['sin(d)', 'dimension-argument', 'sin(d)', 'sin needs an angle or a number without unit, and d is a length.', 'Divide by unit(mm) first: sin(d/unit(mm)).'],
    ['2^d', 'dimension-exponent', 'd', 'An exponent is a number without unit, and d (length) stands in its place.', 'Divide it by a unit first: (d/unit(mm)).'],
    ['S_ut^b', 'exponent-not-constant', 'b', 'S_ut (stress) has a unit, so its exponent must be a number such as 4 or 1/2, and b is none.', 'Divide the base by a unit first: (S_ut/unit(MPa))^b.'],
    ['d*S_t', 'unknown-name', 'S_t', 'Nothing in the sheet is called S_t.', 'Did you mean S_ut or S_e? Else add a given or a step for S_t, or look at the spelling.'],
    ['d*velocity', 'unknown-name', 'velocity', 'Nothing in the sheet is called velocity.', 'Add a given or a step for velocity, or look at the spelling.'],
  ])('%s', (text, code, underlined, what, mend) => {
    const result = check(text);
    if (result.ok) throw new Error(`dimension ${String(result.value)}`);
    const { span, ...rest } = result.problem;
    expect(rest).toEqual({ code, what, mend });
    expect(text.slice(span?.start, span?.end)).toBe(underlined);
  });
});

describe('checkDimensions agrees with the units of mathjs 15.2.0', () => {
  const UNIT_OF: Readonly<Record<string, string>> = { x: 'm', y: 'N', z: '1' };
  const choices = { ...GENTLE_TREE, functions: ['sqrt', 'abs'], lists: [], conditions: false };

  /** The oracle's exponents of length, mass, time; undefined where it refuses. */
  function theirs(e: Expression): readonly number[] | undefined {
    const scope = { x: math.unit('2 m'), y: math.unit('3 N'), z: 1.5 };
    try {
      const value: unknown = math.evaluate(inMathjs(e), scope);
      if (typeof value === 'number' || math.isComplex(value)) return [0, 0, 0];
      const { dimensions } = value as MathUnit & { dimensions: readonly number[] };
      // mathjs orders MASS, LENGTH, TIME.
      return [dimensions[1] ?? NaN, dimensions[0] ?? NaN, dimensions[2] ?? NaN];
    } catch {
      return undefined;
    }
  }

  function sameExponents(ours: Dimension, oracle: readonly number[] | undefined): boolean {
    return oracle !== undefined && oracle.every((exponent, place) => Math.abs(exponent - (ours[place] ?? NaN)) < 1e-9);
  }

  it('on random products, quotients, powers, roots and sums', () => {
    const seen = { accepted: 0, refused: 0 };
    fc.assert(fc.property(numberTree(choices, 3), (e) => {
      const ours = checkDimensions(e, (name) => dimension(UNIT_OF[name] ?? '1'));
      const oracle = theirs(e);
      seen[ours.ok ? 'accepted' : 'refused'] += 1;
      // Ours also refuses an exponent that is not written as a number, which the oracle can't know.
      const bothRefuse = !ours.ok && (ours.problem.code === 'exponent-not-constant' || oracle === undefined);
      expect(bothRefuse || (ours.ok && ours.value !== 'truth' && sameExponents(ours.value, oracle))).toBe(true);
    }), { numRuns: 600 });
    expect(Math.min(seen.accepted, seen.refused)).toBeGreaterThan(100);
  });
});
