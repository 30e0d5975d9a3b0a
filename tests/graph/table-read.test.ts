import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity, parseUnit } from '../../src/core/units/index.ts';
import { countRows, numbersOf, valuesOf } from '../../src/core/rows/index.ts';
import { orderByColumn, readTable, tableCsv, tableReads } from '../../src/graph/table/index.ts';
import type { SheetSymbols, TableState } from '../../src/graph/table/index.ts';
import { applyEdit } from '../../src/sheet/index.ts';
import { asItWas, readDelimited, writeRecord } from '../../src/sheet/table/delimited.ts';
import { read as readFile } from '../house/tracked.ts';
import { COLUMNS, tableOf, tableSheet } from '../sheet/table-texts.ts';
import { size } from '../sizes.ts';

const table = (rows: string, columns?: string, sheet?: SheetSymbols): TableState => readTable(tableOf(tableSheet(rows, columns)), sheet);
const marks = (state: TableState) => state.marks.map(({ row, column, problem, leavesOut }) => [row, column, problem.code, leavesOut]);
const megapascals = (state: TableState) => [...numbersOf(state.usable, 'S')].map((value) => Number((value / 1e6).toPrecision(12)));
const cycles = (state: TableState) => [...numbersOf(state.usable, 'N')];

describe('reading rows', () => {
  it('takes columns by key or label, in any order, and defaults for those that are missing', () => {
    const state = table('Outcome,N,Stress amplitude\nfracture,41200,380\nrunout,1e7,340\n');
    expect(megapascals(state)).toEqual([380, 340]);
    expect(cycles(state)).toEqual([41200, 1e7]);
    expect([valuesOf(state.usable, 'valid'), valuesOf(state.usable, 'group'), valuesOf(state.usable, 'outcome')]).toEqual([[true, true], ['', ''], ['fracture', 'runout']]);
    expect([state.marks, state.problems, state.warnings, state.echoes, state.leftOut]).toEqual([[], [], [], [], 0]);
  });

  it('converts the units of the header, in brackets or after a slash, and those of a field', () => {
    // 1 ksi = 6.894757293168361 MPa: NIST SP 811 (2008), appendix B.8, pound-force per square inch.
    expect(megapascals(table('S [ksi],N,outcome\n55,1,fracture\n380 MPa,1,fracture\n'))).toEqual([379.211651124, 380]);
    for (const header of ['S / ksi', 'S/ksi', 'S [ksi]', 'S[ksi]', 'S (ksi)', 'Stress amplitude / ksi', '"S / (ksi)"', 's [ksi]']) {
      expect([header, ...megapascals(table(`${header},N,outcome\n100,1,runout\n`))]).toEqual([header, 689.475729317]);
    }
    expect(megapascals(table('S / (N/mm^2),N,outcome\n100,1,runout\n'))).toEqual([100]);
  });

  it('reads numbers as the blanks of a sheet do, with the decimal comma that the separator allows', () => {
    expect(cycles(table('S,N,outcome\n1,1e5,fracture\n1,41 200,fracture\n1,1.2·10^5,fracture\n1,"41,200,000",fracture\n'))).toEqual([1e5, 41200, 120000, 41200000]);
    expect(megapascals(table('S;N;outcome\n380,5;1;fracture\n380,125;1;fracture\n380.5;1;fracture\n'))).toEqual([380.5, 380.125, 380.5]);
    expect(megapascals(table('S\tN\toutcome\n380,5\t1\tfracture\n380,125\t1\tfracture\n'))).toEqual([380.5, 380.125]);
    expect(megapascals(table('S,N,outcome\n"380,5",1,fracture\n'))).toEqual([380.5]);
    expect(table('S;N;outcome\n380,5;1;fracture\n381,5;1;fracture\n').echoes).toEqual(['Stress amplitude: 380,5 read as 380.5 MPa, and 1 more like it']);
  });

  it('asks rather than guesses where digits can be read in two ways', () => {
    expect(marks(table('S;N;outcome\n380;41.200;fracture\n380;41,200;fracture\n'))).toEqual([[0, 'N', 'count-separators', true], [1, 'N', 'number-comma', true]]);
    expect(marks(table('S\tN\toutcome\n1,250\t1\tfracture\n'))).toEqual([[0, 'S', 'number-comma', true]]);
  });

  it('marks each bad cell, leaves its row out and counts it', () => {
    const state = table(
      'specimen,S,N,outcome,valid\nA1,380,41200,fracture,yes\nA2,0,1,fracture,\nA3,380,-5,fracture,\nA4,380,,fracture,\nA5,abc,1,fracture,\nA6,380,1,lost,\nA7,380,1,fracture,maybe\nA8,380 mm,1,,\nA9,380,5,41200,fracture,no\n,,,,\nB1,360,1,runout,no\n',
    );
    expect(marks(state).toSorted((a, b) => Number(a[0]) - Number(b[0]))).toEqual([
      [1, 'S', 'field-not-possible', true], [2, 'N', 'field-not-possible', true], [3, 'N', 'field-empty', true], [4, 'S', 'number-missing', true], [5, 'outcome', 'table-option-unknown', true],
      [6, 'valid', 'not-yes-or-no', true], [7, 'S', 'unit-dimension', true], [7, 'outcome', 'field-empty', true], [8, undefined, 'field-surplus', true],
      [8, 'outcome', 'table-option-unknown', true], [8, 'valid', 'not-yes-or-no', true],
    ]);
    expect([valuesOf(state.usable, 'specimen'), valuesOf(state.usable, 'valid')]).toEqual([['A1', 'B1'], [true, false]]);
    expect([state.leftOut, state.blank, state.rowCount]).toEqual([8, 1, 11]);
    expect(state.warnings.map(({ what }) => what)).toEqual(['8 of 10 rows are left out: rows 2, 3, 4, 5, 6, 7, 8, 9.']);
  });

  it('warns of what is implausible and uses it', () => {
    const state = table('S,N,outcome\n6000,41200.5,fracture\n4999,0.5,fracture\n');
    expect(marks(state)).toEqual([[0, 'S', 'implausible', false], [0, 'N', 'count-not-whole', false], [1, 'N', 'count-not-whole', false]]);
    expect([megapascals(state), cycles(state), state.leftOut]).toEqual([[6000, 4999], [41200.5, 0.5], 0]);
  });

  it('takes other words for an outcome and says so', () => {
    const state = table('S,N,outcome\n1,1,failed\n1,1,broken\n1,1,Run-out\n1,1,censored\n1,1,RUNOUT\n1,1,failed\n1,1,invalid\n');
    expect(valuesOf(state.usable, 'outcome')).toEqual(['fracture', 'fracture', 'runout', 'suspended', 'runout', 'fracture', 'invalid']);
    expect(state.echoes).toEqual([
      'Outcome: failed read as fracture, and 1 more like it', 'Outcome: broken read as fracture', 'Outcome: Run-out read as runout', 'Outcome: censored read as suspended',
    ]);
  });

  it('keeps columns that it does not understand, whatever they are called', () => {
    const state = table('S,__proto__,N,constructor,outcome,S,\n380,a,1,b,fracture,9,c\n');
    expect(state.columns.filter(({ column }) => column === undefined).map((column) => [column.typed, state.field(0, column)])).toEqual([['__proto__', 'a'], ['constructor', 'b'], ['S', '9'], ['', 'c']]);
    expect([megapascals(state), valuesOf(state.usable, 'other 1')]).toEqual([[380], ['a']]);
    expect(state.warnings.map(({ code }) => code)).toEqual(['header-twice', 'column-unknown']);
  });

  it('uses no row where a column that is needed is missing or has a unit of another kind', () => {
    expect(table('S,outcome\n1,fracture\n')).toMatchObject({ leftOut: 1, marks: [], problems: [{ code: 'column-missing', cell: 'specimens' }] });
    expect(table('S [mm],N,outcome\n1,1,fracture\n')).toMatchObject({ leftOut: 1, marks: [], problems: [{ code: 'header-unit' }] });
    expect(table('S [foo],N,outcome\n1,1,fracture\n')).toMatchObject({ leftOut: 1, problems: [{ code: 'header-unit' }] });
    expect(countRows(table('').usable)).toBe(0);
  });

  it('follows what a column says of empty fields and of ranges', () => {
    const columns = 'columns:\n- {key: S, type: quantity, unit: MPa, possible: any}\n- {key: T, type: quantity, unit: °C, possible: "> -273.15", plausible: 5 .. 40, optional: true}\n- {key: o, type: option, options: "fracture, runout", default: fracture}\n';
    const state = table('S,T\n-5,\n1,60\n1,-300\n', columns);
    expect(marks(state)).toEqual([[1, 'T', 'implausible', false], [2, 'T', 'field-not-possible', true]]);
    expect([[...numbersOf(state.usable, 'T')], valuesOf(state.usable, 'o')]).toEqual([[NaN, 333.15], ['fracture', 'fracture']]);
  });

  it('reads plain digits just as the reader of blanks does', () => {
    const unit = parseUnit('MPa');
    if (!unit.ok) throw new Error(unit.problem.what);
    const digits = fc.tuple(fc.nat(99_999), fc.nat(9_999), fc.constantFrom('', '.'), fc.constantFrom('', 'e2', 'E-3', 'e+1')).map(([a, b, point, e]) => `${a}${point}${point === '' ? '' : b}${e}`);
    fc.assert(
      fc.property(digits, (text) => {
        const quantity = parseQuantity(text, unit.value);
        if (!quantity.ok || quantity.value.value === 0) return;
        expect(numbersOf(table(`S,N,outcome\n${text},1,fracture\n`).all, 'S')[0]).toBe(quantity.value.value);
        const comma = table(`S;N;outcome\n${text.replace('.', ',')};1;fracture\n`);
        expect(numbersOf(comma.all, 'S')[0]).toBe(quantity.value.value);
        expect(comma.echoes.map((echo) => echo.replace(/^.* read as /, ''))).toEqual(text.includes('.') ? [`${quantity.value.number} MPa`.replace('e+', 'e')] : []);
      }),
    );
  });

  it('reads a long table in a moment', () => {
    const length = size(10_000, 100_000);
    const rows = Array.from({ length }, (_, i) => `A${i};${300 + (i % 200)},5;${40_000 + i};${i % 9 === 0 ? 'runout' : 'failed'}`);
    const cell = tableOf(tableSheet(`specimen;S;N;outcome\n${rows.join('\n')}`));
    const began = performance.now();
    const state = readTable(cell);
    // Well under a second on a machine with nothing else to do; this bound only tells growth that is out of proportion.
    expect(performance.now() - began).toBeLessThan(8_000);
    expect(countRows(state.usable)).toBe(length);
  });
});

describe('derived columns', () => {
  const sheet: SheetSymbols = {
    dimensionOf: (name) => (name === 'S_ut' ? [-1, 1, -2, 0, 0, 0] : undefined), value: () => 760e6, standardUncertainty: () => 1e6, names: ['S_ut'],
  };
  const withDerived = (...formulas: readonly string[]) => COLUMNS + formulas.map((line) => `  - {${line}, type: derived}\n`).join('');

  it('are computed for each row from columns, each other and symbols of the sheet', () => {
    const columns = withDerived('key: z, formula: 2*y', 'key: y, formula: log10(S/unit(MPa))', 'key: r, formula: S/S_ut', 'key: h, formula: S/2, unit: ksi');
    const document = tableSheet('S,N,outcome\n100,1,fracture\n1000,1,fracture\n', columns);
    const state = readTable(tableOf(document), sheet);
    expect(state.problems).toEqual([]);
    expect([...numbersOf(state.usable, 'z')]).toEqual([4, 6]);
    expect([...numbersOf(state.usable, 'r')]).toEqual([100 / 760, 1000 / 760]);
    expect(state.columns.find(({ name }) => name === 'h')?.unit?.name).toBe('ksi');
    expect(tableReads(tableOf(document))).toEqual(['S_ut']);
  });

  it('tell what is wrong with a formula, and leave the rows alone', () => {
    const columns = withDerived('key: a, formula: b', 'key: b, formula: a', 'key: c, formula: S + N', 'key: d, formula: S_x', 'key: e, formula: S > 0*S', 'key: f, formula: S, unit: mm', 'key: g, formula: "2 S"', 'key: h, formula: 2*c', 'key: i, formula: outcome');
    const state = table('S,N,outcome\n100,1,fracture\n', columns, sheet);
    expect(state.problems.map(({ code }) => code).toSorted()).toEqual(
      ['derived-loop', 'derived-loop', 'derived-truth', 'derived-unit', 'dimension-clash', 'implied-product', 'unknown-name', 'unknown-name'],
    );
    expect(countRows(state.usable)).toBe(1);
  });

  it('mark a row for which there is no value, and use it', () => {
    const state = table('S,N,outcome\n100,1,fracture\n300,1,fracture\n', withDerived('key: y, formula: "sqrt(S/unit(MPa) - 200)"'));
    expect(marks(state)).toEqual([[0, 'y', 'derived-no-value', false]]);
    expect([...numbersOf(state.usable, 'y')]).toEqual([NaN, 10]);
  });
});

/** As rows that come in are read. */
function withoutMarks(csv: string): string {
  const { records } = readDelimited(csv, ',');
  return records.map(({ fields }) => `${writeRecord(fields.map(asItWas), ',')}\n`).join('');
}

describe('writing rows', () => {
  it('gives text that reads as the same values, marks and words', () => {
    const number = fc.oneof(fc.double({ min: 1e-3, max: 1e6, noNaN: true }).map((value) => String(Number(value.toPrecision(6)))), fc.constantFrom('', '0', '55 ksi', '"380,5"', 'abc', '"1,234"', '1e5'));
    const word = fc.string({ maxLength: 8 }).map((text) => `"${text.replaceAll('"', '""')}"`);
    const row = fc.tuple(word, number, number, fc.constantFrom('fracture', 'failed', 'Runout', '', 'lost'), word, fc.constantFrom('', ',surplus'));
    fc.assert(
      fc.property(fc.constantFrom('S', 'S [ksi]', 'S / GPa'), fc.array(row, { maxLength: 8 }), (stress, rows) => {
        const columns = `${COLUMNS}  - {key: y, type: derived, formula: log10(S/unit(MPa))}\n`;
        const document = tableSheet(`specimen,${stress},N,outcome,colour\n${rows.map((fields) => `${fields.slice(0, 5).join(',')}${fields[5]}`).join('\n')}\n`, columns);
        const state = readTable(tableOf(document));
        const written = applyEdit(document, { do: 'replace rows', cellId: 'specimens', text: withoutMarks(tableCsv(state)) });
        if (!written.ok) throw new Error(written.problem.what);
        const again = readTable(tableOf(written.value));
        expect(again.rowCount).toBe(state.rowCount);
        const leaving = (one: TableState) => one.marks.filter(({ leavesOut }) => leavesOut).map(({ row: at, column }) => [at, column]);
        expect(leaving(again)).toEqual(leaving(state));
        for (const name of ['specimen', 'outcome', 'other 1']) expect(valuesOf(again.usable, name)).toEqual(valuesOf(state.usable, name));
        for (const name of ['S', 'N', 'y']) {
          const [before, after] = [numbersOf(state.usable, name), numbersOf(again.usable, name)];
          before.forEach((value, i) => expect(Math.abs((after[i] ?? NaN) - value)).toBeLessThanOrEqual(4e-15 * Math.abs(value)));
        }
      }),
      { numRuns: 300 },
    );
  });

  it('writes units in the header, and text that looks like a formula with the mark of text before it', () => {
    const state = table('specimen;S / ksi;N;outcome\n=1+1;55,5;41 200;fracture\n"a;b";60;1e5;runout\n');
    expect(tableCsv(state)).toBe('specimen,S [ksi],N [cycles],outcome\r\n\'=1+1,55.5,41200,fracture\r\na;b,60,100000,runout\r\n');
    expect(tableCsv(state, ';')).toBe('specimen;S [ksi];N [cycles];outcome\r\n\'=1+1;55.5;41200;fracture\r\n"a;b";60;100000;runout\r\n');
  });

  it('gives orders of rows by any column, rows without a value last', () => {
    const state = table('specimen,S,N,outcome\nA10,3,1,fracture\nA9,1,1,fracture\nA1,x,1,fracture\nA2,3,1,fracture\n');
    expect([orderByColumn(state, 'S', 'rising'), orderByColumn(state, 'S', 'falling'), orderByColumn(state, 'specimen', 'rising')]).toEqual([[1, 0, 3, 2], [0, 3, 1, 2], [2, 3, 1, 0]]);
  });
});

describe('the invented data', () => {
  it('reads without a mark', () => {
    for (const [file, count] of [['data-demo/class-specimens.csv', 24], ['data-demo/six-years-of-classes.csv', 360]] as const) {
      const state = table(readFile(file));
      expect([file, countRows(state.usable), state.marks, state.problems, state.warnings, state.echoes]).toEqual([file, count, [], [], [], []]);
      expect(new Set(valuesOf(state.usable, 'group'))).toEqual(new Set(['steel K', 'steel M']));
      expect(new Set(valuesOf(state.usable, 'outcome')).has('runout')).toBe(true);
    }
  });
});
