/** Ready-made cells, and the sheet without anything that was entered. */
import { describe, expect, it, test } from 'vitest';
import { blankSheet, applyEdit, cellsOf, enterText, groupSource, parseSheet, serialiseSheet, symbolsGiven, type GroupName, type SheetDocument } from '../../src/sheet/index.ts';
import { contextOf } from '../report/sheet-at.ts';
import { neutral, SHIPPED, exampleEntries, shipped } from '../shipped.ts';
import { numberOf } from '../worksheets/solved.ts';

const put = (document: SheetDocument, source: string): SheetDocument => {
  const after = applyEdit(document, { do: 'insert', after: document.blocks.at(-1)?.id, source });
  if (!after.ok) throw new Error(after.problem.what);
  return after.value;
};
const entered = (document: SheetDocument, entries: Readonly<Record<string, string>>): SheetDocument => Object.entries(entries).reduce((before, [target, text]) => {
  const after = enterText(before, target, text);
  if (!after.ok) throw new Error(after.problem.what);
  return after.value;
}, document);

describe('a group of cells', () => {
  test.each(['measurement', 'statics', 'asked'] as const)('is without problems, alone and on a sheet that has its symbols: %s', async (name: GroupName) => {
    for (const before of [parseSheet(''), parseSheet(shipped('rotating-bending'))]) {
      const group = groupSource(name, before);
      const count = parseSheet(group).blocks.length;
      const context = await contextOf(serialiseSheet(put(before, group)));
      const blocks = context.document.blocks.slice(-count);
      expect(blocks.flatMap((block) => (block.kind === 'cell' ? [...block.cell.problems, ...block.cell.unknownKeys, ...(context.states.cell(block.id)?.problems ?? [])] : []))).toEqual([]);
      const symbols = context.document.blocks.flatMap((block) => (block.kind === 'cell' ? symbolsGiven(block.cell) : []));
      expect(new Set(symbols).size).toBe(symbols.length);
    }
  });

  it('of statics reckons as any textbook on a beam with one load: R_A = F b/L, M = F a b/L, and 32 M/(pi d^3)', async () => {
    const document = entered(parseSheet(groupSource('statics', parseSheet(''))), { L: '400 mm', s_1: '100 mm', F: '300 N', d: '8 mm' });
    const { states } = await contextOf(serialiseSheet(document));
    expect([numberOf(states, 'R_A'), numberOf(states, 'R_B'), numberOf(states, 'M')].map((value) => Number(value.toFixed(9)))).toEqual([225, 75, 22.5]);
    expect(numberOf(states, 'sigma') / 1e6).toBeCloseTo((32 * 22.5) / (Math.PI * 0.008 ** 3) / 1e6, 6);
  });
});

describe('a blank copy', () => {
  test.each(SHIPPED.filter((name) => exampleEntries(name) !== undefined))('of a sheet with its example is the blank sheet, but for what is written there: %s', (name) => {
    const blank = blankSheet(parseSheet(shipped(name)));
    const neutralSheet = parseSheet(neutral(name));
    const said = (document: SheetDocument) => ({
      givens: cellsOf(document, 'given').map(({ symbol, value, readings, origin }) => [symbol, value ?? '', readings ?? '', origin === 'example' ? '' : (origin ?? '')]),
      chosen: cellsOf(document, 'choice').map(({ id, chosen }) => [id, chosen]),
      rows: cellsOf(document, 'table').map(({ id, rows }) => [id, rows.trim().split('\n').length]),
      remarks: cellsOf(document, 'remark').map(({ text }) => text.trim()),
    });
    const [mine, theirs] = [said(blank), said(neutralSheet)];
    // What the example puts in place of an assumption is taken out, and the assumption is not known any more.
    expect(mine.givens.filter(([, value, readings]) => value !== '' || readings !== '').every((given) => theirs.givens.some((other) => JSON.stringify(other) === JSON.stringify(given)))).toBe(true);
    expect(mine.rows).toEqual(theirs.rows);
    // The story that the example tells is a remark more, and empty.
    expect(mine.remarks.filter((text) => text !== '' && !theirs.remarks.includes(text))).toEqual([]);
    expect(cellsOf(blank, 'given').some(({ origin }) => origin === 'example')).toBe(false);
    expect(blank.frontMatter.entries.get('team') ?? '').toBe('');
    expect(blankSheet(blank)).toBe(blank);
  });

  it('of one’s own sheet has no reading, choice, row, word, answer, tick, held state or slip, and all that was written for it', () => {
    const text = [
      '---', 'title: Own', 'team: T1', 'supervisor: nobody', 'units: US customary', 'slips: d.radius', 'held:', '  - name: a', '    inputs:', '      d: 5 mm', '---', '',
      '```given', 'symbol: d', 'readings: 6, 7 mm', 'trial: 8 mm', 'instrument: micrometer', '```', '```given', 'symbol: g', 'value: 9.81 m/s^2', 'origin: assumed', '```',
      '```step', 'symbol: x', 'formula: d', 'asked: true', 'answer: 7 mm', '```', '```checklist', 'items:', '  - text: a', '    done: 2026-11-20T09:12:00+01:00', '```', '```remark', 'heading: Aim', 'text: mine', '```', '',
    ].join('\n');
    expect(serialiseSheet(blankSheet(parseSheet(text)))).toMatchInlineSnapshot(`
      "---
      title: Own
      team:
      supervisor:
      units: US customary
      ---

      \`\`\`given
      symbol: d
      instrument: micrometer
      \`\`\`
      \`\`\`given
      symbol: g
      value: 9.81 m/s^2
      origin: assumed
      \`\`\`
      \`\`\`step
      symbol: x
      formula: d
      asked: true
      \`\`\`
      \`\`\`checklist
      items:
        - text: a
      \`\`\`
      \`\`\`remark
      heading: Aim
      text: mine
      \`\`\`
      "
    `);
  });
});
