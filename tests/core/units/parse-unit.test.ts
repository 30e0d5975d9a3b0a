import fc from 'fast-check';
import katex from 'katex';
import { describe, expect, it } from 'vitest';
import {
  ONE,
  coherentUnit,
  counterpart,
  describeDimension,
  divideDimensions,
  fromSI,
  multiplyDimensions,
  parseUnit,
  raiseDimension,
  sameDimension,
  toSI,
  unitTex,
} from '../../../src/core/units/index.ts';
import { UNIT_TABLE } from '../../../src/core/units/unit-table.ts';
import { isPlacedIn, problemOf, underlined, unitOf } from './read.ts';
import { cases } from '../../sizes.ts';

const SYMBOLS = UNIT_TABLE.map((definition) => definition.symbol);

describe('writing of units', () => {
  it.each([
    ['', '1'], ['1', '1'], ['N', 'N'], ['kN*m', 'kN·m'], ['kN·m', 'kN·m'], ['kN⋅m', 'kN·m'], ['lbf·in', 'lbf·in'],
    ['N m', 'N·m'], ['lbf ft', 'lbf·ft'], ['N/mm^2', 'N/mm^2'], ['N/mm²', 'N/mm^2'], ['mm⁴', 'mm^4'], ['in^3', 'in^3'],
    ['min⁻¹', 'min^-1'], ['s^-1', 's^-1'], ['s^−1', 's^-1'], ['1/min', '1/min'], ['1 / min', '1/min'], ['/min', '1/min'],
    ['N/mm/s', 'N/(mm·s)'], ['N/(mm·s)', 'N/(mm·s)'], ['W/(m K)', 'W/(m·K)'], ['N/m·s', 'N·s/m'], ['N/(m/s)', 'N·s/m'],
    ['(N·m)^2', 'N^2·m^2'], ['MPa·m^0.5', 'MPa·m^0.5'], ['MPa·m^(1/2)', 'MPa·m^0.5'], ['MPa·√m', 'MPa·m^0.5'], ['ksi √in', 'ksi·in^0.5'], ['MPa√m', 'MPa·m^0.5'], ['N/√mm', 'N/mm^0.5'], ['MPa m^(-0.5)', 'MPa·m^-0.5'],
    ['rev/min', 'rev/min'], ['r/min', 'rev/min'], ['cycles/min', 'cycles/min'], ['mm/cycle', 'mm/cycle'],
    ['µm', 'µm'], ['μm', 'µm'], ['um', 'µm'], ['Ω', 'Ω'], ['ohm', 'Ω'], ['kΩ', 'kΩ'],
    ['deg', '°'], ['°', '°'], ['°C', '°C'], ['° C', '°C'], ['deg C', '°C'], ['℃', '°C'], ['ºF', '°F'], ['lbm', 'lb'],
    [' mm ', 'mm'],
  ])('%j is %s', (typed, name) => {
    expect(unitOf(typed).name).toBe(name);
  });

  it.each([
    ['Nm', 'N·m'], ['kNm', 'kN·m'], ['Nmm', 'N·mm'], ['N-m', 'N·m'], ['N.m', 'N·m'], ['kN-m', 'kN·m'],
    ['lb-in', 'lbf·in'], ['in-lb', 'lbf·in'], ['in-lbs', 'lbf·in'], ['in.-lb', 'lbf·in'], ['in lb', 'lbf·in'],
    ['ft-lb', 'lbf·ft'], ['ft-lbs', 'lbf·ft'], ['lb-ft', 'lbf·ft'], ['ft.lb', 'lbf·ft'], ['ftlb', 'lbf·ft'],
    ['in-lbf', 'in·lbf'], ['ft-lbf', 'ft·lbf'], ['in.', 'in'], ['inch', 'in'], ['inches', 'in'], ['Inches', 'in'],
    ['"', 'in'], ['″', 'in'], ['lbs', 'lb'], ['RPM', 'rpm'], ['Mpa', 'MPa'], ['MPA', 'MPa'], ['KPa', 'kPa'],
    ['gpa', 'GPa'], ['PSI', 'psi'], ['KSI', 'ksi'], ['MPSI', 'Mpsi'], ['KN', 'kN'], ['Kg', 'kg'], ['hz', 'Hz'],
    ['hrs', 'h'], ['hr', 'h'], ['sec', 's'], ['mins', 'min'], ['days', 'd'], ['feet', 'ft'], ['newtons', 'N'],
  ])('%j is taken for %s, the only thing it can mean', (typed, name) => {
    expect(unitOf(typed).name).toBe(name);
  });

  it('a compound of temperatures counts intervals', () => {
    expect(unitOf('1/°C')).toEqual({ name: '1/°C', dimension: [0, 0, 0, 0, -1, 0], factor: 1, offset: 0 });
    expect(unitOf('mm/°F').offset).toBe(0);
    expect(unitOf('°F').offset).toBeCloseTo(255.3722222222222, 12);
  });

  it('rad/s is not a frequency, rev/s is', () => {
    expect(sameDimension(unitOf('rad/s').dimension, unitOf('Hz').dimension)).toBe(false);
    expect(sameDimension(unitOf('rev/s').dimension, unitOf('Hz').dimension)).toBe(true);
    expect(sameDimension(unitOf('rpm').dimension, unitOf('cycles/min').dimension)).toBe(true);
  });
});

describe('what is asked about or refused', () => {
  const asked: readonly (readonly [string, string, string, string | undefined])[] = [
    ['mpa', 'unit-ambiguous', '“mpa” can be read in more than one way: a small m is milli and a large M is mega. Write MPa.', 'mpa'],
    ['mPa', 'unit-ambiguous', '“mPa” can be read in more than one way: a small m is milli and a large M is mega. Write MPa.', 'mPa'],
    ['Mm', 'unit-ambiguous', '“Mm” can be read in more than one way: a small m is milli and a large M is mega. Write mm.', 'Mm'],
    ['mn', 'unit-ambiguous', '“mn” can be read in more than one way: a small m is milli and a large M is mega. Write mN or MN.', 'mn'],
    ['N/MM^2', 'unit-ambiguous', '“MM” can be read in more than one way: a small m is milli and a large M is mega. Write mm.', 'MM'],
    ['C', 'unit-ambiguous', '“C” can be read in more than one way: C alone is the coulomb, a unit of charge. Write °C.', 'C'],
    ["'", 'unit-ambiguous', "“'” can be read in more than one way: it can mean feet or minutes of arc. Write ft or °.", "'"],
    ['cycels', 'unit-unknown', 'The sheet knows no unit “cycels”. Did you mean cycles or cycle?', 'cycels'],
    ['newtn', 'unit-unknown', 'The sheet knows no unit “newtn”. Did you mean N?', 'newtn'],
    ['G', 'unit-unknown', 'The sheet knows no unit “G”. Did you mean g?', 'G'],
    ['kN·furlong', 'unit-unknown', 'The sheet knows no unit “furlong”. Write a unit such as mm, N, MPa, in, lbf or ksi.', 'furlong'],
    ['🙂', 'unit-unknown', 'The sheet knows no unit “🙂”. Write a unit such as mm, N, MPa, in, lbf or ksi.', '🙂'],
    ['mm4', 'unit-exponent-unmarked', '“mm4” has a number right after the unit mm. For a power write mm^4.', 'mm4'],
    ['N/mm2', 'unit-exponent-unmarked', '“mm2” has a number right after the unit mm. For a power write mm^2.', 'mm2'],
    ['mm^0', 'unit-exponent', 'The exponent of this unit can’t be read. Write a number from −12 to 12 other than 0 after ^, such as mm^4 or s^-1.', '^0'],
    ['mm^99', 'unit-exponent', 'The exponent of this unit can’t be read. Write a number from −12 to 12 other than 0 after ^, such as mm^4 or s^-1.', '^99'],
    ['mm^', 'unit-exponent', 'The exponent of this unit can’t be read. Write a number from −12 to 12 other than 0 after ^, such as mm^4 or s^-1.', '^'],
    ['mm^(1/0)', 'unit-exponent', 'The exponent of this unit can’t be read. Write a number from −12 to 12 other than 0 after ^, such as mm^4 or s^-1.', '^(1/0)'],
    ['N 5', 'unit-number', 'The number 5 stands among the units. Write one number first, then the unit; a power is written with ^, such as mm^4 or min^-1.', '5'],
    ['U/min', 'unit-unknown', 'The sheet knows no unit “U”. For revolutions per minute write rev/min.', 'U'],
    ['W/m K', 'unit-brackets', 'After the / it is not clear what is divided by. Put brackets round the units below the line, such as W/(m·K).', 'W/m K'],
    ['N·', 'unit-missing', 'A unit is missing here. Write a unit on both sides of · and /, such as N·m or N/mm^2.', ''],
    ['N**m', 'unit-missing', 'A unit is missing here. Write a unit on both sides of · and /, such as N·m or N/mm^2.', '*'],
    ['N/(m·s', 'unit-bracket-open', 'This bracket is not closed. Write ) where the bracket ends.', '('],
    ['N)', 'unit-syntax', '“)” can’t be read as part of the unit. Write units with ·, /, ^ and brackets, such as N·m, N/mm^2 or W/(m·K).', ')'],
    ['((km^12)^12)^2', 'unit-too-large', 'The powers in this unit are too large to reckon with. Use smaller exponents.', '((km^12)^12)^2'],
    ['N·'.repeat(120), 'text-too-long', 'This text has 240 characters; at most 200 can be read here. Write less here: one value with its unit, such as 6.35 mm.', 'N·'.repeat(20)],
  ];
  it.each(asked)('%j: %s', (typed, code, sentence, span) => {
    const problem = problemOf(parseUnit(typed), typed);
    expect(problem.code).toBe(code);
    expect(`${problem.what} ${problem.mend}`).toBe(sentence);
    expect(underlined(problem)).toBe(span);
  });

  it('no text at all makes it stop or throw', () => {
    const anyText = fc.oneof(
      fc.string({ maxLength: 60 }),
      fc.string({ unit: fc.constantFrom('N', 'm', '/', '·', '^', '(', ')', '-', '.', ' ', '2', '²', '°', 'C', '1'), maxLength: 25 }),
    );
    fc.assert(
      fc.property(anyText, (text) => {
        const result = parseUnit(text);
        expect(result.ok || isPlacedIn(text, result.problem)).toBe(true);
        expect(result.ok ? parseUnit(result.value.name) : result).toEqual(result);
      }),
      { numRuns: cases(3000) },
    );
  });
});

const exponent = fc.constantFrom(1, 1, 1, 2, 3, 4, -1, -2, 0.5);
const factor = fc.record({ symbol: fc.constantFrom(...SYMBOLS), exponent });
const compound = fc.array(factor, { minLength: 1, maxLength: 4 });

function written(factors: readonly { symbol: string; exponent: number }[]): string {
  return factors.map((one) => (one.exponent === 1 ? one.symbol : `${one.symbol}^${one.exponent}`)).join('·');
}

describe('properties of units', () => {
  it('parse(name) is the identity, also of counterparts', () => {
    fc.assert(
      fc.property(compound, compound, (above, below) => {
        const unit = unitOf(`${written(above)}/(${written(below)})`);
        expect(unitOf(unit.name)).toEqual(unit);
        for (const system of ['SI', 'US customary'] as const) {
          const other = counterpart(unit, system);
          expect(unitOf(other.name)).toEqual(other);
          expect(sameDimension(other.dimension, unit.dimension)).toBe(true);
          expect(counterpart(other, system)).toEqual(other);
        }
      }),
    );
  });

  it('products and quotients of units multiply and divide factors and dimensions', () => {
    fc.assert(
      fc.property(compound, compound, (first, second) => {
        const a = unitOf(written(first));
        const b = unitOf(written(second));
        const product = unitOf(`${written(first)}·${written(second)}`);
        const quotient = unitOf(`(${written(first)})/(${written(second)})`);
        expect(sameDimension(product.dimension, multiplyDimensions(a.dimension, b.dimension))).toBe(true);
        expect(sameDimension(quotient.dimension, divideDimensions(a.dimension, b.dimension))).toBe(true);
        expect(product.factor / (a.factor * b.factor)).toBeCloseTo(1, 12);
        expect(quotient.factor / (a.factor / b.factor)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('a power of a unit is the power of its factor and dimension', () => {
    fc.assert(
      fc.property(compound, fc.constantFrom(2, 3, -1), (factors, power) => {
        const unit = unitOf(written(factors));
        const raised = unitOf(`(${written(factors)})^${power}`);
        expect(sameDimension(raised.dimension, raiseDimension(unit.dimension, power))).toBe(true);
        expect(raised.factor / unit.factor ** power).toBeCloseTo(1, 11);
      }),
    );
  });

  it('there and back through SI is the identity', () => {
    const value = fc.double({ min: -1e9, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...SYMBOLS), value, (symbol, number) => {
        const unit = unitOf(symbol);
        // A temperature loses what its zero takes in size.
        // Below about 1e-300 doubles have fewer digits.
        const scale = Math.max(Math.abs(number), unit.offset / unit.factor, 1e-290);
        expect(Math.abs(fromSI(toSI(number, unit), unit) - number)).toBeLessThanOrEqual(4e-16 * scale);
      }),
    );
  });

  it('numbers of decimal units come back to the digit', () => {
    fc.assert(
      fc.property(fc.constantFrom('mm', 'cm', 'µm', 'MPa', 'kN', 'GPa', '%'), fc.integer({ min: 1, max: 999999 }), (symbol, digits) => {
        const unit = unitOf(symbol);
        const number = digits / 1000;
        expect(Number(fromSI(toSI(number, unit), unit).toPrecision(15))).toBe(number);
      }),
    );
  });

  it('the coherent unit of a dimension has that dimension and factor 1', () => {
    fc.assert(
      fc.property(compound, (factors) => {
        const { dimension } = unitOf(written(factors));
        const coherent = coherentUnit(dimension);
        expect(coherent.factor).toBe(1);
        expect(sameDimension(coherent.dimension, dimension)).toBe(true);
      }),
    );
  });

  it('every spelling of the table belongs to one unit', () => {
    const spellings = UNIT_TABLE.flatMap((definition) => [definition.symbol, ...(definition.same ?? [])]);
    expect(new Set(spellings).size).toBe(spellings.length);
    for (const definition of UNIT_TABLE) {
      for (const spelling of [...(definition.same ?? []), ...(definition.aliases ?? [])]) {
        expect(unitOf(spelling).name).toBe(definition.symbol);
      }
    }
  });

  it('every unit can be typeset', () => {
    fc.assert(
      fc.property(compound, compound, (above, below) => {
        const unit = unitOf(`${written(above)}/(${written(below)})`);
        expect(katex.renderToString(unitTex(unit), { strict: 'error', throwOnError: true })).toContain('katex');
      }),
      { numRuns: 60 },
    );
  });
});

describe('counterparts in the other system', () => {
  it.each([
    ['MPa', 'ksi'], ['GPa', 'Mpsi'], ['N·m', 'lbf·in'], ['mm', 'in'], ['mm^4', 'in^4'], ['N', 'lbf'], ['°C', '°F'],
    ['mm^3', 'in^3'], ['N/mm', 'lbf/in'], ['kg', 'lb'], ['kN', 'kip'], ['MPa·m^0.5', 'ksi·in^0.5'],
  ])('%s and %s, both ways', (si, us) => {
    expect(counterpart(unitOf(si), 'US customary').name).toBe(us);
    expect(counterpart(unitOf(us), 'SI').name).toBe(si);
  });

  it.each([
    ['N·mm', 'lbf·in'], ['N/mm^2', 'ksi'], ['kgf', 'lbf'], ['kgf/mm^2', 'ksi'], ['kN·m', 'kip·in'], ['m^4', 'in^4'],
    ['Pa', 'psi'], ['J', 'lbf·in'], ['µm', 'mil'], ['mm/s', 'in/s'],
  ])('%s in US customary is %s', (si, us) => {
    expect(counterpart(unitOf(si), 'US customary').name).toBe(us);
  });

  it.each([
    ['psi', 'MPa'], ['lbf/in^2', 'MPa'], ['lbf·ft', 'N·m'], ['in·lbf', 'N·m'], ['ft', 'm'], ['thou', 'µm'],
    ['kgf', 'N'], ['kgf/mm^2', 'MPa'], ['kip·in', 'kN·m'], ['ozf', 'N'],
  ])('%s in SI is %s', (us, si) => {
    expect(counterpart(unitOf(us), 'SI').name).toBe(si);
  });

  it.each(['1', '%', 's', 'h', 'rev/min', 'cycles', 'Hz', 'V', 'Ω', '°', 'rad/s', 'K'])('%s belongs to both', (name) => {
    const unit = unitOf(name);
    expect(counterpart(unit, 'SI')).toBe(unit);
    expect(counterpart(unit, 'US customary')).toBe(unit);
  });
});

describe('dimensions in words', () => {
  it.each([
    ['1', 'number without unit'], ['mm', 'length'], ['in^2', 'area'], ['mm^3', 'volume'], ['in^4', 'second moment of area'],
    ['lb', 'mass'], ['kgf', 'force'], ['ksi', 'stress'], ['N·mm', 'bending moment (force times length)'], ['h', 'time'],
    ['rev/min', 'speed of rotation (1/time)'], ['Hz', 'speed of rotation (1/time)'], ['°', 'angle'], ['rad/s', 'angle per time'],
    ['°F', 'temperature'], ['mV', 'voltage'], ['mA', 'electric current'], ['kΩ', 'electric resistance'], ['cycles', 'number without unit'],
    ['m/N', 'quantity in m/N'], ['kg·m', 'quantity in kg·m'], ['1/MPa', 'quantity in m^2/N'],
  ])('%s is a %s', (name, words) => {
    expect(describeDimension(unitOf(name).dimension)).toBe(words);
  });

  it.each([
    ['MPa', 'Pa'], ['N·mm', 'N·m'], ['mm^4', 'm^4'], ['rev/min', '1/s'], ['cycles', '1'], ['°C', 'K'], ['°', 'rad'],
    ['mV', 'V'], ['W/(m·K)', 'kg·m/(s^3·K)'], ['N/mm', 'N/m'],
  ])('the coherent unit for %s is %s', (name, coherent) => {
    expect(coherentUnit(unitOf(name).dimension).name).toBe(coherent);
  });

  it('the plain number is its own unit', () => {
    expect(coherentUnit(ONE.dimension)).toBe(ONE);
  });
});

describe('units for typesetting', () => {
  it.each([
    ['1', ''],
    ['N·m', '\\mathrm{N\\,m}'],
    ['mm^4', '\\mathrm{mm}^{4}'],
    ['N/mm^2', '\\mathrm{N}/\\mathrm{mm}^{2}'],
    ['W/(m·K)', '\\mathrm{W}/(\\mathrm{m\\,K})'],
    ['1/min', '1/\\mathrm{min}'],
    ['%', '\\%'],
    ['°C', '{}^{\\circ}\\mathrm{C}'],
    ['°^2', '{{}^{\\circ}}^{2}'],
    ['µm', '\\mu\\mathrm{m}'],
    ['MPa·m^0.5', '\\mathrm{MPa}\\,\\sqrt{\\mathrm{m}}'],
  ])('%s', (name, tex) => {
    expect(unitTex(unitOf(name))).toBe(tex);
  });
});
