/**
 * Sheet without script, report and page of every standard sheet, and of one with a little of everything, as they stood when somebody last looked. What was meant to change is
 * taken over by `npm run unit -- tests/golden -u`; the comparison belongs to the commit that changes it.
 */
import { basename } from 'node:path';
import { describe, expect, test } from 'vitest';
import { renderReport, renderSheet } from '../../src/report/index.ts';
import { drawBlock } from '../../src/view/cell.ts';
import { isShown } from '../../src/view/commands.ts';
import type { Desk } from '../../src/view/desk.ts';
import { OF_EVERYTHING } from '../sheet-of-everything.ts';
import { SHIPPED, shipped } from '../shipped.ts';
import { benchDesk } from '../bench-desk.ts';
import { STATES } from './states.ts';
import { pageText, readable, withoutEquations } from './readable.ts';

const SHEETS: readonly (readonly [name: string, text: string])[] = [
  ...SHIPPED.map((name) => [basename(name, '.md'), shipped(name)] as const),
  ['of-everything', OF_EVERYTHING],
  ['states', STATES],
];

describe.each(SHEETS)('%s', (name, text) => {
  test('looks as it did, as a sheet without script, in the report and on the page', async () => {
    const { desk, dispose } = await benchDesk(text);
    await expect(readable(withoutEquations(renderSheet(desk.context())))).toMatchFileSnapshot(`${name}.sheet.txt`);
    await expect(readable(withoutEquations(renderReport(desk.context())))).toMatchFileSnapshot(`${name}.report.txt`);
    await expect(pageOf(desk)).toMatchFileSnapshot(`${name}.page.txt`);
    dispose();
  }, 120_000);
});

test('a page on which everything lies open, and one step is folded', async () => {
  const { desk, dispose } = await benchDesk(STATES);
  for (const { id } of desk.context().document.blocks) for (const part of ['derivation', 'budget', 'measured'] as const) desk.ui(id).open.add(part);
  desk.ui('k').folded = true;
  await expect(pageOf(desk)).toMatchFileSnapshot('states-opened.page.txt');
  dispose();
});

function pageOf(desk: Desk): string {
  return desk.context().document.blocks.filter(isShown).map((block) => {
    const { state, template } = drawBlock(block, desk);
    const kind = block.kind === 'prose' ? 'prose' : block.cell.kind;
    return `== ${`${block.id} ${kind} ${state}`.trim()}\n${readable(pageText(template))}`;
  }).join('');
}
