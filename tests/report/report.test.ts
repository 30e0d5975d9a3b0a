/** The report: nothing that the sheet says is missing in it, and each thing stands where a reader looks for it. */
import { describe, expect, it } from 'vitest';
import { cellAnchor, mayBeTooWide, presentCheck, presentStep, printFoot, renderReport, renderSheet, symbolOf, type WholeContext } from '../../src/report/index.ts';
import { equation } from '../../src/report/equation.ts';
import { html, htmlText } from '../../src/report/markup.ts';
import { fitOnPaper, widestPiece } from '../../src/report/tex-width.ts';
import { cellsOf, parseSheet } from '../../src/sheet/index.ts';
import { neutral, SHIPPED, shipped } from '../shipped.ts';
import { OF_EVERYTHING } from '../sheet-of-everything.ts';
import { contextOf, fenced, given, step } from './sheet-at.ts';

const SHEETS: readonly (readonly [name: string, text: string])[] = [
  ...SHIPPED.map((name) => [name, shipped(name)] as const),
  ['a sheet of everything', OF_EVERYTHING],
];

describe.each(SHEETS)('%s', (_name, text) => {
  it('has every symbol, figure, check, table and remark of the sheet in its report', async () => {
    const context = await contextOf(text);
    const report = renderReport(context);
    // Once: it goes through all of a report.
    const told = said(report);
    const { document } = context;
    for (const cell of [...cellsOf(document, 'given'), ...cellsOf(document, 'step')]) {
      const isThere = report.includes(`id="${cellAnchor(cell.id)}"`);
      expect(isThere || report.includes(equation(symbolOf(cell.symbol))), cell.symbol).toBe(true);
      // Of many that are open the symbols alone are told.
      expect(told, cell.symbol).toContain(isThere ? words(cell.label ?? '') : '');
    }
    for (const { id } of cellsOf(document, 'figure')) expect(report, id).toContain(`id="${cellAnchor(id)}"`);
    for (const kind of ['check', 'checklist', 'choice', 'photo', 'record', 'fit'] as const) {
      for (const { label } of cellsOf(document, kind)) expect(told, `${kind} ${label}`).toContain(words(label ?? ''));
    }
    for (const { heading } of cellsOf(document, 'remark')) expect(told).toContain(words(heading));
    for (const check of cellsOf(document, 'check')) {
      const { holds, message } = presentCheck(check, context);
      expect(told, check.id).toContain(holds === undefined ? '' : words(message));
    }
    for (const cell of cellsOf(document, 'step')) expect(told, cell.id).toContain(resultOf(cell.id, context));
  });

  it('says every note and source of the lines that it has', async () => {
    const context = await contextOf(text);
    const whole = renderReport(context);
    const report = said(whole);
    for (const block of context.document.blocks) {
      if (block.kind !== 'cell' || block.cell.note === undefined || /\{=/.test(block.cell.note)) continue;
      expect(report, block.id).toContain(whole.includes(`id="${cellAnchor(block.id)}"`) ? words(block.cell.note) : '');
    }
  });
});

const small = (...more: readonly string[]): string => [
  '---', 'title: Small', 'team: T4', 'chief_results: y', '---', '', 'What is to be found.', '', '## Measured', '',
  given('x', '2.00 ± 0.10 N', 'N', 'label: Load', 'note: Weigh it.'), '## Worked out', '', step('y', '3*x', 'N', 'label: Three times'), ...more,
].join('\n');

describe('the order of a report', () => {
  it('begins with aim and chief results, has values in a table, steps in a line, and notes at the end', async () => {
    const report = said(renderReport(await contextOf(small())));
    const places = ['Small', 'What is to be found.', 'Chief results', '6.00', 'Measured and given values', '2.00 ± 0.10', 'Worked out', '(1) Three times', 'Notes and sources', 'Weigh it.'].map((part) => report.indexOf(words(part)));
    expect(places.every((place) => place >= 0)).toBe(true);
    // The result stands in the chief results first, and again in its line.
    expect(places.toSorted((a, b) => a - b)).toEqual(places);
    expect(report.split('6.00').length).toBeGreaterThan(2);
    expect(report).toContain(words('± 0.30 N'));
  });

  it('lists what is open, by what it waits for, and has no line of it', async () => {
    const report = renderReport(await contextOf(small(fenced('given', 'symbol: z', 'label: Open one', 'unit: N', 'optional: true'), step('w', 'z + 1*unit(N)', 'N', 'label: Waiting one'),
      fenced('check', 'id: later', 'label: Told later?', 'condition: w > 0*unit(N)', 'holds: It does.', 'otherwise: It does not.'),
      fenced('checklist', 'id: list', 'label: Before', 'items:', '  - Guard closed', '  - text: Power off', '    done: 2026-11-20T09:12:00+01:00'),
      fenced('remark', 'id: end', 'heading: Conclusion', 'text: ""'))));
    expect(report).not.toContain('id="cell-w"');
    const open = said(/<section class="left-open">[\s\S]*?<\/section>/.exec(report)?.[0] ?? '');
    for (const part of ['Open one', 'Waiting one', 'Told later?', 'Guard closed', 'Conclusion']) expect(open).toContain(words(part));
    expect(open).not.toContain(words('Power off'));
    expect(said(report)).toContain(words('1 of 2 ticked, 2026-11-20 09:12.'));
  });

  it('tells checks that do not hold at the beginning, and how many do', async () => {
    const report = said(renderReport(await contextOf(small(
      fenced('check', 'id: a', 'label: Small?', 'condition: y < 1*unit(N)', 'holds: It is.', 'otherwise: It is not.'),
      fenced('check', 'id: b', 'label: Large?', 'condition: y > 1*unit(N)', 'holds: It is.', 'otherwise: It is not.')))));
    expect(report.indexOf(words('1 of 2 checks that can be told holds.'))).toBeGreaterThan(0);
    expect(report.indexOf(words('Does not hold: Small?'))).toBeLessThan(report.indexOf(words('Measured and given values')));
  });

  it.each(SHIPPED)('tells in a line each what a blank sheet leaves open, and nothing of lines that are not there: %s', async (name) => {
    const report = renderReport(await contextOf(neutral(name)));
    expect(report).not.toContain('that are waits for');
    const open = /<section class="left-open">([\s\S]*?)<\/section>/u.exec(report)?.[1] ?? '';
    const lines = [...open.matchAll(/<div>([\s\S]*?)<\/div>/gu)].map(([, line]) => said(line ?? ''));
    expect(lines.length).toBeLessThan(11);
    expect(open).not.toContain('?; ');
    expect(said(report)).not.toContain(words('Results. With a load of'));
  });

  it('does not miss a table that may stay empty', async () => {
    const open = (extra: string): Promise<string> => contextOf(fenced('table', 'id: levels', 'label: Settable levels', extra, 'columns:', '  - key: S', '    type: quantity', '    unit: MPa')).then(renderReport);
    expect(await open('optional: false')).toContain('Settable levels');
    expect(await open('optional: true')).not.toContain('Settable levels');
  });

  it('tells findings what they wait for by the names of the blanks, and of no value that is there', async () => {
    const context = await contextOf(neutral('loading-lever'));
    const waiting = cellsOf(context.document, 'fit').map(({ id }) => context.states.cell(id)?.waiting?.what ?? '');
    expect(waiting.join(' ')).toMatch(/^This waits for [A-Za-z_0-9]+(, [A-Za-z_0-9]+)* and \d+ more\.$/);
    // g and the weight of the lever have values that the sheet assumes.
    expect(waiting.join(' ')).not.toMatch(/\bg\b|no value/);
  });

  it('has what prose says of the results in its place once all of them are there', async () => {
    const report = said(renderReport(await contextOf(shipped('rotating-bending'))));
    const [results, notes] = [words('With a load of 308.5'), words('Notes and sources')].map((part) => report.indexOf(part));
    expect(results).toBeGreaterThan(0);
    expect(results).toBeLessThan(notes ?? 0);
  });

  // Two figures of an uncertainty at most: JCGM 100:2008, 7.2.6; one more for what is reckoned with it, common practice.
  it('tells what is made of uncertainties, itself or through others, with three figures, and exact numbers with five', async () => {
    const report = said(renderReport(await contextOf(small(step('k', '1.23456*u(x)', 'N'), step('p', 'k/unit(N)/3', '1'), step('e', '1.234567*1', '1')))));
    for (const value of ['= 0.123 N', '= 0.0412', '= 1.2346']) expect(report).toContain(words(value));
  });

  it('keeps what is still asked to itself, in the chief results too', async () => {
    const report = renderReport(await contextOf(small().replace('label: Three times', 'label: Three times\nasked: true')));
    expect(report).not.toContain('6.00');
    expect(said(report)).toContain(words('your own result first'));
  });

  it('puts parts on demand behind the rest, with their values in the one table', async () => {
    const report = renderReport(await contextOf(small(fenced('aside', 'id: more', 'label: For the curious', 'holds: One more value.'), given('q', '5 N', 'N', 'label: Further'), step('p', '2*q', 'N', 'label: Twice it'), fenced('end', 'id: more-end'), '## Last', '', 'The end.')));
    const text = said(report);
    expect(text.indexOf(words('For the curious'))).toBeGreaterThan(text.indexOf(words('The end.')));
    expect(text.indexOf(words('Twice it'))).toBeGreaterThan(text.indexOf(words('For the curious')));
    expect(text.indexOf('Further')).toBeLessThan(text.indexOf(words('Worked out')));
  });
});

describe('the foot of a printed page', () => {
  it.each(['"; } body { display: none } @page { a: "', '\\', 'line\nbreak', '</style><script>', 'T4 · π', '\ud800', '\u0000'])('%j stays one string', (team) => {
    const rule = printFoot(parseSheet(`---\ntitle: Shaft\nteam: ${JSON.stringify(team)}\ndate: 2026-11-20\n---\n`), 'fingerprint 12ab');
    // CSS Syntax 3, 4.3.5: inside a string stand letters, digits, spaces and escapes alone.
    expect(rule).toMatch(/^@page \{ @bottom-left \{ content: "(?:[A-Za-z0-9 ]|\\[0-9a-f]{1,6} )*" \} \}$/);
    expect(rule).toContain('fingerprint 12ab');
  });
});

describe('equations on paper', () => {
  it('are set smaller where no line can end within the width of A4', () => {
    expect(fitOnPaper('a = b + c')).toBeUndefined();
    expect(fitOnPaper(`a = ${'b_{12} + '.repeat(60)} c`)).toBeUndefined();
    const long = `a = \\frac{${'123.45\\,\\mathrm{mm} \\cdot '.repeat(12)} 2}{3}`;
    expect(mayBeTooWide(long)).toBe(true);
    expect(Number(fitOnPaper(long)?.replace('--fit: ', ''))).toBeLessThan(0.8);
  });

  // Widths as KaTeX's own style sheet and Chromium 156 lay them out, em, measured once.
  it.each([
    ['A = 3 + c_{\\mathrm{l}} - B\\,\\log_{10}\\left(\\frac{f_{\\mathrm{u}}\\,S_{\\mathrm{ut}}}{\\mathrm{MPa}}\\right)', 7.5],
    ['\\xi_{\\mathrm{w}} = \\sqrt{\\max\\left(0,\\, \\frac{D}{d} - 1\\right)}', 8.4],
  ])('%s is estimated within a fifth of its width', (tex, width) => {
    expect(widestPiece(tex) / width).toBeGreaterThan(0.8);
    expect(widestPiece(tex) / width).toBeLessThan(1.2);
  });
});

it('the sheet as it stands, of which working files are made, is not the report', async () => {
  const context = await contextOf(small());
  expect(renderSheet(context)).toContain('<section class="cell cell-given" id="cell-x">');
  expect(renderReport(context)).not.toContain('cell-given');
});

/** Words alone, without tags, white space and signs of direction. */
function said(html: string): string {
  return html.replace(/<annotation[\s\S]*?<\/annotation>/g, '').replace(/<[^>]*>/g, '').replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&quot;/g, '"').replace(/&#39;/g, '\'').replace(/&nbsp;/g, ' ').replace(/&amp;/g, '&')
    .replace(/[\s\u2066-\u2069]/gu, '');
}

/** The same of a text as it is shown between tags. */
function words(text: string): string {
  return said(htmlText(html`${text}`));
}

/** The number of a result that is there and is not withheld; '' else. */
function resultOf(cellId: string, context: WholeContext): string {
  const cell = cellsOf(context.document, 'step').find(({ id }) => id === cellId);
  const presented = cell === undefined ? undefined : presentStep(cell, context);
  return presented?.hidden === false && presented.result.kind === 'value' ? words(presented.result.number.replace(/[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+/gu, '')) : '';
}
