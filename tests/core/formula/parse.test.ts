import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS, checkSymbolName, kindOf, parseFormula, printFormula, referencedSymbols } from '../../../src/core/formula/index.ts';
import { ANY_TREE, numberTree, read, shape, truthTree } from './expressions.ts';
import { cases } from '../../sizes.ts';

/** A formula with every bracket written, from the tree. */
function spelled(text: string): string {
  const spell = (e: ReturnType<typeof read>): string => {
    switch (e.kind) {
      case 'number':
        return e.text;
      case 'symbol':
        return e.name;
      case 'unit':
        return `unit ${e.unit.name}`;
      case 'negative':
        return `(-${spell(e.operand)})`;
      case 'not':
        return `(not ${spell(e.operand)})`;
      case 'and':
      case 'or':
        return `(${spell(e.left)} ${e.kind} ${spell(e.right)})`;
      case 'call':
        return `${e.name}[${e.arguments.map(spell).join(' ')}]`;
      default:
        return `(${spell(e.left)}${e.operator}${spell(e.right)})`;
    }
  };
  return spell(read(text));
}

describe('parseFormula reads', () => {
  // Rules of precedence and association: common practice of written algebra; right-associative powers as in ISO 80000-2 typesetting.
  it.each([
    ['1 + 2*3', '(1+(2*3))'],
    ['a - b - c', '((a-b)-c)'],
    ['a/b/c', '((a/b)/c)'],
    ['a/b*c', '((a/b)*c)'],
    ['2^3^2', '(2^(3^2))'],
    ['-x^2', '(-(x^2))'],
    ['2^-3', '(2^(-3))'],
    ['2^-3^2', '(2^(-(3^2)))'],
    ['-a*b', '((-a)*b)'],
    ['a*-b', '(a*(-b))'],
    ['a - -b', '(a-(-b))'],
    ['--x', '(-(-x))'],
    ['+x', 'x'],
    ['(-x)^2', '((-x)^2)'],
    ['((x))', 'x'],
    ['.5*1e3 + 5.', '((.5*1e3)+5.)'],
    ['1E-3', '1E-3'],
    ['s_1 + R_A*S_e0', '(s_1+(R_A*S_e0))'],
    ['pi*d^4/64', '((pi*(d^4))/64)'],
    ['4.51*(S_ut/unit(MPa))^(-0.265)', '(4.51*((S_ut/unit MPa)^(-0.265)))'],
    ['M/unit( N*m )', '(M/unit N·m)'],
    ['x/unit(N/(m*s))', '(x/unit N/(m·s))'],
    ['max(a, b, c)', 'max[a b c]'],
    ['max(0.5,3)', 'max[0.5 3]'],
    ['max(x,1)', 'max[x 1]'],
    ['if(x<2,1,0)', 'if[(x<2) 1 0]'],
    ['if(a < b and c >= 0 or not d > 1, x, y)', 'if[(((a<b) and (c>=0)) or (not (d>1))) x y]'],
    ['if(not (a < b or a > c), 1, 0)', 'if[(not ((a<b) or (a>c))) 1 0]'],
    ['a ≤ b and a ≥ c', '((a<=b) and (a>=c))'],
    ['2×a·b⋅c − d÷e', '((((2*a)*b)*c)-(d/e))'],
    ['u(x)', 'u[x]'],
    ['F_1*macaulay(x_s - l_1)', '(F_1*macaulay[(x_s-l_1)])'],
    ['a +\n\tb', '(a+b)'],
    ['a + b < c*d', '((a+b)<(c*d))'],
  ])('%s', (text, expected) => {
    expect(spelled(text)).toBe(expected);
  });

  it('keeps the place of each part, brackets included', () => {
    const e = read(' (a + b)*sqrt(c)');
    if (e.kind !== 'arithmetic') throw new Error('a product was expected');
    expect([e.span, e.left.span, e.right.span]).toEqual([{ start: 1, end: 16 }, { start: 1, end: 8 }, { start: 9, end: 16 }]);
  });

  it('tells the symbols in order of appearance, once, also those in u( )', () => {
    expect(referencedSymbols(read('b*a + u(c) - b + if(d > pi, 1, 2)*unit(mm)'))).toEqual(['b', 'a', 'c', 'd']);
  });

  it('tells a condition from a number', () => {
    expect(kindOf(read('a < b'))).toBe('truth');
    expect(kindOf(read('not (a < b)'))).toBe('truth');
    expect(kindOf(read('if(a < b, 1, 0)'))).toBe('number');
  });
});

describe('parseFormula refuses, at the place', () => {
  it.each<[text: string, code: string, underlined: string, mend: string]>([
    ['2 d', 'bare-unit', '2 d', 'Write 2*d, or 2*unit(d) for the unit.'],
    ['2d', 'bare-unit', '2d', 'Write 2*d, or 2*unit(d) for the unit.'],
    ['2 x', 'implied-product', '2 x', 'Write 2*x.'],
    ['a b', 'implied-product', 'a b', 'Write a*b.'],
    ['2(3)', 'implied-product', '2(3)', 'Write 2*(3).'],
    ['(a)(b)', 'implied-product', '(a)(b)', 'Write (a)*(b).'],
    ['x + 3 unit(mm)', 'implied-product', '3 unit(mm)', 'Write 3*unit(mm).'],
    ['4,51*d', 'decimal-comma', '4,51', 'Write 4.51.'],
    ['1 + (6,35)', 'decimal-comma', '6,35', 'Write 6.35.'],
    ['max(4,51)', 'decimal-comma', '4,51', 'Write 4.51 for one number, or 4, 51 with a space for two.'],
    ['sqrt(2,5)', 'decimal-comma', '2,5', 'Write 2.5 for one number, or 2, 5 with a space for two.'],
    ['if(x < 2,5, 1, 0)', 'decimal-comma', '2,5', 'Write 2.5 for one number, or 2, 5 with a space for two.'],
    ['a, b', 'comma', ',', 'Take it away; a decimal number has a point, as in 4.51.'],
    ['(a, b)', 'comma-in-brackets', ',', 'Take it away; a decimal number has a point, as in 4.51.'],
    ['a < b < c', 'chained-comparison', 'a < b < c', 'Write a < b and b < c.'],
    ['0 <= x + 1 < 5', 'chained-comparison', '0 <= x + 1 < 5', 'Write 0 <= x + 1 and x + 1 < 5.'],
    ['x = 3', 'equals-sign', '=', 'Take away = and what stands before it.'],
    ['x == 3', 'equals-sign', '==', 'Compare the difference, as in abs(a - b) < c.'],
    ['x != 3', 'equals-sign', '!=', 'Compare the difference, as in abs(a - b) > c.'],
    ['d**2', 'power-sign', '**', 'Write ^, as in d^4.'],
    ['a => b', 'comparison-sign', '=>', 'Write >=.'],
    ['a < b && c < d', 'word-and', '&&', 'Write and.'],
    ['a[1]', 'square-bracket', '[', 'Use round brackets ( ), or a symbol with a subscript, as in s_1.'],
    ['a.b', 'member-access', '.', 'Join the parts of a symbol with an underscore, as in R_A.'],
    ["'x'", 'text-in-formula', "'", 'Take the quotation marks away; a primed symbol can be written with a subscript.'],
    ['"x"', 'text-in-formula', '"', 'Take the quotation marks away.'],
    ['a; b', 'semicolon', ';', 'Separate arguments with a comma; put a second formula into a step of its own.'],
    ['d²', 'superscript', '²', 'Write ^2.'],
    ['π*d', 'greek-letter', 'π', 'Write pi.'],
    ['σ*d', 'greek-letter', 'σ', 'Write the name of the letter, as in sigma_a.'],
    ['a\u200b', 'invisible-sign', '\u200b', 'Delete it, or type this anew.'],
    ['', 'formula-empty', '', 'Write an expression, for example F*a/2.'],
    ['  ', 'formula-empty', '  ', 'Write an expression, for example F*a/2.'],
    ['a +', 'operand-missing', '+', 'Write a number or a symbol after +.'],
    ['*a', 'operand-missing', '*', 'Write a number or a symbol before *.'],
    ['a + * b', 'operand-missing', '+', 'Write a number or a symbol after +.'],
    ['max(a,)', 'operand-missing', ',', 'Write a number or a symbol after ,.'],
    ['()', 'operand-missing', '(', 'Write a number or a symbol after (.'],
    ['a*(b + c', 'bracket-unclosed', '(', 'Add ) where it ends.'],
    ['sqrt(b + c', 'bracket-unclosed', '(', 'Add ) where it ends.'],
    ['a)', 'bracket-unopened', ')', 'Take it away, or add ( where it belongs.'],
    ['k(x)', 'unknown-function', 'k', 'For a product write k*( ).'],
    ['squrt(x)', 'unknown-function', 'squrt', 'Write sqrt( ).'],
    ['log(x)', 'unknown-function', 'log', 'Write log10( ) or ln( ).'],
    ['constructor(x)', 'unknown-function', 'constructor', 'For a product write constructor*( ).'],
    ['sqrt 2', 'function-brackets', 'sqrt', 'Write sqrt(x).'],
    ['u*2', 'function-brackets', 'u', 'Write u(symbol).'],
    ['sqrt()', 'argument-count', 'sqrt()', 'Write sqrt(x).'],
    ['atan(a, b)', 'argument-count', 'atan(a, b)', 'Write atan(x).'],
    ['1 + if(a < b, c)', 'argument-count', 'if(a < b, c)', 'Write if(condition, a, b), with commas between the arguments.'],
    ['u(2*x)', 'uncertainty-symbol', '2*x', 'Give the expression a step of its own, and write u( ) of its symbol.'],
    ['best(2*x)', 'uncertainty-symbol', '2*x', 'Give the expression a step of its own, and write best( ) of its symbol.'],
    ['if(a, b, c)', 'truth-expected', 'a', 'Compare it with something, as in a > 0.'],
    ['not a', 'truth-expected', 'a', 'Compare it with something, as in a > 0.'],
    ['a and b < c', 'truth-expected', 'a', 'Compare it with something, as in a > 0.'],
    ['(a < b) + 1', 'number-expected', '(a < b)', 'Choose between two quantities by it: if(a < b, a, b).'],
    ['-(a < b)', 'number-expected', '(a < b)', 'Choose between two quantities by it: if(a < b, a, b).'],
    ['max(a, b < c)', 'number-expected', 'b < c', 'Choose between two quantities by it: if(b < c, a, b).'],
    ['if(a < b, a < c, 2)', 'number-expected', 'a < c', 'Choose between two quantities by it: if(a < c, a, b).'],
    ['a not b', 'word-not', 'not', 'Write and not, or take not away.'],
    ['1e999', 'number', '1e999', 'Check the exponent.'],
    ['1e-999', 'number', '1e-999', 'Check the exponent.'],
    ['1.2.3', 'number', '1.2.3', 'Keep one decimal point.'],
    ['a__b', 'name-malformed', 'a__b', 'Use letters and digits, and subscripts behind single underscores, as in R_A or sigma_a.'],
    ['3*unit', 'unit-without-brackets', 'unit', 'Write, for example, unit(MPa).'],
    ['3*unit( )', 'unit-empty', 'unit( )', 'Write, for example, unit(MPa).'],
    ['3*unit(N/(m', 'unit-unclosed', '(', 'Add ) after the unit.'],
    ['T/unit(°C)', 'unit-offset', 'unit(°C)', 'Work in kelvin: (T - 273.15*unit(K))/unit(K) is the number of degrees Celsius.'],
  ])('%s', (text, code, underlined, mend) => {
    const result = parseFormula(text);
    if (result.ok) throw new Error(`read as ${printFormula(result.value)}`);
    const { problem } = result;
    expect({ code: problem.code, mend: problem.mend, text: problem.text }).toEqual({ code, mend, text });
    expect(text.slice(problem.span?.start, problem.span?.end)).toBe(underlined);
    expect(problem.what).toMatch(/\.$/);
  });

  it('hands on what is wrong with a unit, at its place in the formula', () => {
    const result = parseFormula('S/unit(MPs)');
    expect(result.ok ? '' : result.problem.code).toBe('unit-unknown');
    expect(result.ok ? undefined : result.problem.span).toEqual({ start: 7, end: 10 });
  });
});

describe('hostile text', () => {
  const refused = (text: string): string => {
    const result = parseFormula(text);
    return result.ok ? 'read' : result.problem.code;
  };

  it('is refused by length before it is read', () => {
    expect(refused('('.repeat(10_000))).toBe('formula-long');
    expect(refused('1+'.repeat(100_000) + '1')).toBe('formula-long');
  });

  it.each(['(', '-', 'sqrt(', '2^', '-(', 'not ', 'max(1, ', 'if(1<2,1,', '+'])('%s nested as deep as fits gives a problem', (piece) => {
    expect(refused(piece.repeat(Math.floor(4900 / piece.length)))).toMatch(/^(formula-deep|operand-missing)$/);
    expect(refused(`${piece.repeat(Math.floor(4900 / piece.length))}1`)).toBe('formula-deep');
  });

  it('bounds chains of operations, so that no reader of the tree runs out of stack', () => {
    expect(refused(Array.from({ length: 150 }, () => 'a').join(' + '))).toBe('read');
    expect(refused(Array.from({ length: 1000 }, () => 'a').join('+'))).toBe('formula-chained');
  });

  it('bounds argument lists', () => {
    expect(refused(`max(${Array.from({ length: 1000 }, () => 'a').join(', ')})`)).toBe('argument-count');
  });

  it('never throws, and never underlines outside of the text', () => {
    const letters = fc.constantFrom(...'abxu1209.,eE+-*/^()<>=!&|"\'[]{}_ πσ²≤×√\u0000\u202e\ud83d'.split(''), 'unit(', 'if(', 'sqrt(', ' and ', ' not ', 'pi', 'MPa');
    fc.assert(fc.property(fc.array(letters, { maxLength: 40 }), (pieces) => {
      const text = pieces.join('');
      const result = parseFormula(text);
      if (result.ok) return;
      const { span, what, mend } = result.problem;
      expect(what.length * mend.length).toBeGreaterThan(0);
      expect(span?.start).toBeGreaterThanOrEqual(0);
      expect(span?.end).toBeLessThanOrEqual(text.length);
      expect(span?.end).toBeGreaterThanOrEqual(span?.start ?? Infinity);
    }), { numRuns: cases(2000) });
  });
});

describe('printFormula', () => {
  it('gives back the tree when read again, for random trees', () => {
    fc.assert(fc.property(fc.oneof(numberTree(ANY_TREE, 5), truthTree(ANY_TREE, 4)), (e) => {
      expect(shape(read(printFormula(e)))).toEqual(shape(e));
    }), { numRuns: cases(2000) });
  });

  it.each([
    ['((F_1)*(s_2+s_3)+F_2*s_3)/L', '(F_1*(s_2 + s_3) + F_2*s_3)/L'],
    ['a-(b-c)', 'a - (b - c)'],
    ['(a-b)-c', 'a - b - c'],
    ['a/(b*c)', 'a/(b*c)'],
    ['(a^b)^c', '(a^b)^c'],
    ['a^(b^c)', 'a^b^c'],
    ['-(x^2)', '-x^2'],
    ['x^-2', 'x^(-2)'],
    ['(a<b) and ((c<d) or (e<f))', 'a < b and (c < d or e < f)'],
  ])('%s as %s', (text, printed) => {
    expect(printFormula(read(text))).toBe(printed);
  });
});

describe('checkSymbolName', () => {
  it.each(['d', 's_1', 'R_A', 'sigma_a', 'S_e0', 'l_L', 's_1c', 'e', 'W_1', 'sigma_a_1', 'constructor'])('takes %s', (name) => {
    expect(checkSymbolName(name)).toEqual({ ok: true, value: name });
  });

  it.each(['', '1s', '_a', 'a_', 'a__b', 'a b', 'a-b', 'σ', 'a.b', '\\alpha', 'a}', '__proto__', 'x'.repeat(41)])('refuses %j by its form', (name) => {
    const result = checkSymbolName(name);
    expect(result.ok ? '' : result.problem.code).toBe('symbol-name');
  });

  it('refuses the words of the language', () => {
    for (const name of ['pi', 'and', 'or', 'not', 'unit', ...FUNCTIONS.map((entry) => entry.name)]) {
      const result = checkSymbolName(name);
      expect(result.ok ? name : result.problem.code).toBe('symbol-reserved');
    }
  });
});
