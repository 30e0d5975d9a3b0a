/** What a comparison with a held state says: by how much, in which words, and nothing of what is still to be worked out. */
import { describe, expect, test } from 'vitest';
import { wholeOf, heldContext, heldProblems, heldTableCsv, presentHeldTable, presentRowsThen, presentShift, presentTurned, referenceProblems, renderSheet, type WholeContext } from '../../src/report/index.ts';
import { applyEdit, heldInputsOf, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { cellOf, contextOf, fenced, given, step } from './sheet-at.ts';

const plain = (text: string | undefined): string => (text ?? '').replaceAll('−', '-').replace(/[\u00a0\u202f]/g, ' ');

/** A round bar under a bending moment: sigma = 32 M/(pi d^3), any textbook of strength of materials. */
const BAR = [
  given('d', '6 mm', 'mm'), given('M', '10 N*m', 'N*m'), given('T', '20 °C', '°C'), given('x', '1', '1'),
  fenced('choice', 'id: spans', 'label: Spans', 'chosen: short', 'options:', '  - key: short', '    label: Short one', '  - key: long', '    label: Long one'),
  step('sigma', '32*M/(pi*d^3)', 'MPa'),
  step('N', '1e12*(sigma/unit(MPa))^(-3)', '1', 'spread: factor'),
  step('rest', 'x + 1', '1'),
  fenced('check', 'id: low', 'condition: sigma <= 500*unit(MPa)', 'holds: It is low.', 'otherwise: It is high.'),
].join('\n');

const sheet = (head: string, body = BAR): string => `---\ntitle: Bar\n${head}---\n${body}`;
const HELD = 'held:\n  - name: thin\n    at: 2026-11-25T15:30:00+01:00\n    inputs:\n      d: 5 mm\n  - name: hot\n    inputs:\n      T: 30 °C\n      x: -1\n      spans: long\nheld_reference: ';

describe('by how much a value differs from the reference', () => {
  test('difference with unit and percent; a life as a factor; nothing where nothing moved', async () => {
    const context = await contextOf(sheet(`${HELD}thin\n`));
    // (5/6)^3 = 0.5787, 32·10 N·m/π·(1/(6 mm)³ − 1/(5 mm)³) = −343.3 MPa; life ∝ d^9: (6/5)^9 = 5.16.
    expect(plain(presentShift('sigma', context)?.text)).toBe('-343 MPa, -42.1 %');
    expect(presentShift('sigma', context)?.direction).toBe('down');
    expect(plain(presentShift('N', context)?.text)).toBe('× 5.16');
    expect(plain(presentShift('d', context)?.text)).toBe('+1.00 mm, +20.0 %');
    expect(presentShift('M', context)).toBeUndefined();
    expect(presentShift('rest', context)).toBeUndefined();
    expect(presentTurned(cellOf(context, 'check', 'low'), context)).toBe('Turned: this did not hold in “thin”.');
  });

  test('a temperature has no percentage, nor has what changed sign or began at zero', async () => {
    const context = await contextOf(sheet(`${HELD}hot\n`));
    expect(plain(presentShift('T', context)?.text)).toBe('-10.0 °C');
    expect(plain(presentShift('x', context)?.text)).toBe('+2.00');
    expect(plain(presentShift('rest', context)?.text)).toBe('+2.00');
  });

  test('what is negative and falls goes down in percent too, and by tens as a factor', async () => {
    const context = await contextOf(sheet('held:\n  - name: a\n    inputs: {x: -2, M: 0.5 N*m}\nheld_reference: a\n', BAR.replace('value: "1"', 'value: "-3"')));
    expect(plain(presentShift('x', context)?.text)).toBe('-1.00, -50.0 %');
    expect(plain(presentShift('M', context)?.text)).toBe('+9.50 N·m, × 20');
  });

  test('a change of a life by little is never a factor of 1', async () => {
    const context = await contextOf(sheet('held:\n  - name: a\n    inputs: {d: 6.0001 mm}\nheld_reference: a\n'));
    expect(plain(presentShift('N', context)?.text)).toBe('× 0.999850');
  });

  test('gives nothing away that is still to be worked out', async () => {
    const body = BAR.replace('symbol: sigma', 'asked: true\nsymbol: sigma');
    const context = await contextOf(sheet(`${HELD}thin\n`, body));
    expect(presentShift('sigma', context)).toBeUndefined();
    expect(presentShift('N', context)).toBeUndefined();
    expect(presentTurned(cellOf(context, 'check', 'low'), context)).toBeUndefined();
    const table = presentHeldTable(context);
    expect(table?.results.find(({ symbol }) => symbol === 'N')?.cells.every(({ text }) => text === 'after your own working')).toBe(true);
    expect(renderSheet(context)).not.toMatch(/343|42\.1|5\.16/);
    expect(heldTableCsv(context)).not.toMatch(/MPa/);
  });
});

describe('held states side by side', () => {
  test('inputs that differ and the results that the sheet is made for, with what is held beside what is', async () => {
    const context = await contextOf(sheet(`chief_results: sigma, N\n${HELD}thin\n`));
    const table = presentHeldTable(context);
    expect(table?.columns.map(({ name, at, isReference }) => [name, at, isReference])).toEqual([['Now', undefined, false], ['thin', '2026-11-25 15:30', true], ['hot', undefined, false]]);
    expect(table?.inputs.map(({ symbol, cells }) => [symbol, ...cells.map(({ text }) => plain(text))])).toEqual([
      ['d', '6 mm', '5 mm', '6 mm'], ['T', '20 °C', '20 °C', '30 °C'], ['x', '1', '1', '-1'],
      ['spans', 'Short one', 'Short one', 'Long one'],
    ]);
    expect(table?.results.map(({ symbol }) => symbol)).toEqual(['sigma', 'N']);
    expect(table?.results[0]?.cells.map(({ shift }) => plain(shift?.text))).toEqual(['-343 MPa, -42.1 %', '', '-343 MPa, -42.1 %']);
    const csv = plain(heldTableCsv(context)).split('\r\n');
    expect(csv[0]).toBe('Quantity,Symbol,Now,Now from thin,thin,hot,hot from thin');
    expect(csv.find((line) => line.startsWith('sigma,sigma'))).toMatch(/^sigma,sigma,[\d.]+ MPa,"-343 MPa, -42\.1 %",/);
  });

  test('the report names the reference in words and ends with the table', async () => {
    const html = plain(renderSheet(await contextOf(sheet(`${HELD}thin\n`))));
    expect(html).toContain('Compared with the held state “thin”');
    expect(html).toContain('<span class="amount">-343 MPa, -42.1 %</span> <span class="from">from “thin”</span>');
    expect(html.indexOf('Held states')).toBeGreaterThan(html.lastIndexOf('id="cell-low"'));
  });

  test('what the sheet does not have is told, and so is a reference that nobody holds', async () => {
    const context = await contextOf(sheet('held:\n  - name: a\n    inputs: {gone: 1 mm, d: 7 mm}\nheld_reference: b\n'));
    expect(heldProblems(context).map(({ code }) => code)).toEqual(['reference-unknown', 'enter-unknown']);
    const [held] = context.document.frontMatter.held;
    if (held === undefined) throw new Error('nothing held');
    const state = heldContext(held, context).states.symbol('d');
    expect(state?.status === 'value' ? state.estimate.value : 0).toBeCloseTo(0.007, 12);
    expect(presentShift('d', context)).toBeUndefined();
    expect(referenceProblems(context).map(({ code }) => code)).toEqual(['reference-unknown']);
  });

  test('of the reference what no longer fits is told apart from what is amiss with others', async () => {
    const context = await contextOf(sheet('held:\n  - name: a\n    inputs: {gone: 1 mm, d: 7 mm}\n  - name: b\n    inputs: {lost: 1 mm}\nheld_reference: a\n'));
    expect(referenceProblems(context).map(({ what }) => what)).toEqual(['Of the held state “a”: No given or choice of this sheet is called gone.']);
    expect(heldProblems(context).length).toBe(2);
  });
});

describe('rows of tables that are held', () => {
  const CLASS = shipped('sn-line');

  /** The class's sheet, compared with itself as it was before two of its specimens were tested. */
  async function twoFewer(): Promise<{ readonly context: WholeContext; readonly before: WholeContext }> {
    const document = parseSheet(CLASS);
    const fewer = applyEdit(document, { do: 'delete rows', cellId: 'specimens', at: 0, count: 2 });
    if (!fewer.ok) throw new Error(fewer.problem.what);
    const held = applyEdit(document, { do: 'together', commands: [
      { do: 'hold', state: { name: 'last week', ...heldInputsOf(fewer.value) } }, { do: 'set front matter', key: 'held_reference', value: 'last week' },
    ] });
    if (!held.ok) throw new Error(held.problem.what);
    return { context: await contextOf(serialiseSheet(held.value)), before: await contextOf(serialiseSheet(fewer.value)) };
  }

  test('drive the fits: what the held state gives is what the sheet with those rows gives', async () => {
    const { context, before } = await twoFewer();
    const [held] = context.document.frontMatter.held;
    if (held === undefined) throw new Error('nothing held');
    const there = wholeOf(heldContext(held, context));
    expect(heldProblems(context)).toEqual([]);
    const valueIn = ({ states }: WholeContext, symbol: string): number => {
      const state = states.symbol(symbol);
      return state?.status === 'value' ? state.estimate.value : Number.NaN;
    };
    for (const symbol of ['A', 'B']) {
      expect(valueIn(there, symbol)).toBe(valueIn(before, symbol));
      expect(valueIn(there, symbol)).not.toBe(valueIn(context, symbol));
    }
    expect(presentShift('B', context)?.from).toBe('last week');
  });

  test('are counted side by side, and the line of then stands behind the one of now', async () => {
    const { context } = await twoFewer();
    const row = presentHeldTable(context)?.inputs.find(({ symbol }) => symbol === 'specimens');
    const [now = 0, then = 0] = row?.cells.map(({ text }) => Number.parseInt(text, 10)) ?? [];
    expect(now - then).toBe(2);
    const table = cellOf(context, 'table', 'specimens');
    expect(presentRowsThen(table, context)).toBe(`In “last week”: ${then} rows.`);
    expect(renderSheet(context)).toContain(`In “last week”: ${then} rows.`);
    const report = renderSheet(context);
    expect(report).toContain('class="held-line"');
    expect(report).toContain('Dashed and light: the median line in “last week”.');
    const without = await contextOf(CLASS);
    expect(renderSheet(without)).not.toContain('held-line"');
  });
});
