/** A reader sees symbols as the equations have them, and never as they are typed: in sentences, heads, tooltips, options, report and LaTeX. */
import { expect, test } from 'vitest';
import { renderReport, sheetTex } from '../../src/report/index.ts';
import { drawBlock } from '../../src/view/cell.ts';
import { isShown } from '../../src/view/commands.ts';
import { OF_EVERYTHING } from '../sheet-of-everything.ts';
import { neutral, SHIPPED, shipped } from '../shipped.ts';
import { benchDesk } from '../bench-desk.ts';
import { pageText, withoutEquations } from './readable.ts';
import { STATES } from './states.ts';

const RAW = /[^\s<>"]*\w_\w[^\s<>"]*/gu;
/** What is typed stands as it is typed. */
const TYPED = /<(code|textarea|pre|script|style|template)\b[\s\S]*?<\/\1>/gu;
const READ = /\s(?:title|alt|aria-label|aria-description)="([^"]*)"/gu;

function rawIn(markup: string): readonly string[] {
  const told = withoutEquations(markup).replace(TYPED, '').replace(/\$[^$]*\$/gu, '');
  const heard = [...told.matchAll(READ)].map(([, text]) => text ?? '');
  return [told.replace(/<[^>]*>/gu, ' '), ...heard].flatMap((text) => text.match(RAW) ?? []);
}

const SHEETS = [
  ...SHIPPED.flatMap((name) => [[`${name}, blank`, neutral(name)], [name, shipped(name)]] as const),
  ['of everything', OF_EVERYTHING],
  ['states', STATES],
] as const;

test.each(SHEETS)('%s', async (_name, text) => {
  const { desk, dispose } = await benchDesk(text);
  const page = desk.context().document.blocks.filter(isShown).map((block) => pageText(drawBlock(block, desk).template)).join('');
  expect(page.length).toBeGreaterThan(1000);
  expect(rawIn(page)).toEqual([]);
  expect(rawIn(renderReport(desk.context()))).toEqual([]);
  expect(sheetTex(desk.context())).not.toMatch(/\\_/u);
  dispose();
}, 120_000);
