/** What a sheet may not say: no laboratory can promise that a specimen holds. */
import { describe, expect, test } from 'vitest';
import { renderSheet } from '../../src/report/index.ts';
import { cellsOf, parseSheet } from '../../src/sheet/index.ts';
import { contextOf } from '../report/sheet-at.ts';
import { SHIPPED, shipped } from '../shipped.ts';

const PROMISE = /no fracture (?:is |was )?(?:expected|predicted)|expects? no fracture|(?:will|can)(?:n[’']t| not| never) (?:break|fail)|never breaks?|safe from (?:fracture|failure)|infinite life|lasts? for ever/iu;

describe('no sheet promises that a specimen holds', () => {
  test('the words that are looked for are found where they stand', () => {
    for (const said of ['no fracture expected: below the limit', 'Below 300 MPa it expects no fracture.', 'the specimen will not break']) expect(said).toMatch(PROMISE);
    expect('the line gives no life here, fracture is still possible').not.toMatch(PROMISE);
  });

  test.each(SHIPPED)('%s', async (name) => {
    expect(renderSheet(await contextOf(shipped(name))).match(PROMISE)?.[0]).toBeUndefined();
  });

  test('the rotating-bending sheet, far below the limit', async () => {
    const text = shipped('rotating-bending').replace('value: 310 N\n', 'value: 60 N\n');
    const report = renderSheet(await contextOf(text));
    expect(report).toContain('below the endurance limit: the line gives no life here, fracture is still possible');
    expect(report.match(PROMISE)?.[0]).toBeUndefined();
  });
});

describe('every interval says what it contains', () => {
  const sheets = SHIPPED;

  test.each(sheets)('%s: beside a result, in its own words and at the end of the report', async (name) => {
    const report = renderSheet(await contextOf(shipped(name)));
    const intervals = report.match(/<p class="interval"[^>]*>/g) ?? [];
    expect(intervals.filter((tag) => !tag.includes('Where the value itself lies with 95 %'))).toEqual([]);
    expect(report.includes('95 %: where the value itself lies')).toBe(/```step/.test(shipped(name)));
  });

  test('a step that is an end, a half or a factor of 95 % names it: one specimen, the line, the measurements', () => {
    const labels = sheets.flatMap((name) => cellsOf(parseSheet(shipped(name)), 'step').flatMap(({ label = '' }) => (label.includes('95 %') ? [label] : [])));
    expect(labels.length).toBeGreaterThan(10);
    expect(labels.filter((label) => !/one specimen|the line’?'?s|the measurements|inputs and line/.test(label))).toEqual([]);
  });
});
