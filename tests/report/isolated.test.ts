/**
 * Whatever a sheet's words hold, they turn no word, number or unit of ours: the rule is that of Unicode Standard Annex 9, which
 * tests/directions.ts models. Every Latin letter and digit in these sheets' reports is ours or stands in a symbol.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { isolatedQuotes } from '../../src/core/problem/index.ts';
import {
  openItems, presentAttention, presentElasticities, presentHeldTable, presentSlipEffects, presentWatch, renderSheet, type WholeContext,
} from '../../src/report/index.ts';
import { parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { solveCommand } from '../../src/solve/command.ts';
import { turnedWords } from '../directions.ts';
import { hostileSheet } from '../hostile-sheet.ts';
import { OF_EVERYTHING } from '../sheet-of-everything.ts';
import { SHEETS } from './mutants.ts';
import { contextOf } from './sheet-at.ts';

const folder = mkdtempSync(join(tmpdir(), 'spanlife-isolated-'));
afterAll(() => rmSync(folder, { recursive: true }));

const TEXTS: readonly (readonly [name: string, text: string])[] = [
  ['of everything', OF_EVERYTHING],
  ...SHEETS.map((text): [string, string] => [/^title: (.*)$/m.exec(text)?.[1] ?? '', hostileSheet(text)]),
];

const revealed = async (text: string): Promise<WholeContext> => ({ ...(await contextOf(text)), reveal: true });

/** Lines as a browser lays them out: blocks apart, inline elements not; the values in prose are isolated by the style sheet. */
function linesOf(page: string): readonly string[] {
  return page
    .replace(/<(svg|math)\b/g, '\n<$1').replace(/<annotation.*?<\/annotation>/g, '')
    // The text of a cell as somebody typed it is theirs to its last sign; each line of it is closed by itself.
    .replace(/<pre class="own-text"[^>]*>[^]*?<\/pre>/g, '\n')
    .replace(/<span class="live[^>]*>([^<]*)<\/span>/g, '\u2068$1\u2069')
    .replace(/<\/?(?:span|a|code|mark|b|strong|em|i|sub|sup|small|tspan)\b[^>]*>/g, '')
    .replace(/<[^>]*>/g, '\n')
    .replace(/&#39;|&quot;/g, '’').replace(/&amp;/g, '&').replace(/&lt;/g, '<').replace(/&gt;/g, '>')
    .split('\n');
}

function turnedIn(lines: readonly string[]): readonly string[] {
  return lines.flatMap((line) => (turnedWords(line).length === 0 ? [] : [`${turnedWords(line).join(' ')}: ${JSON.stringify(line)}`]));
}

/** Every text in what is said, wherever it stands. */
function textsIn(said: unknown): readonly string[] {
  if (typeof said === 'string') return [said];
  return typeof said === 'object' && said !== null ? Object.values(said).flatMap(textsIn) : [];
}

describe.each(TEXTS)('%s', (_, text) => {
  it('reads back as it was', () => {
    expect(serialiseSheet(parseSheet(text)) === text).toBe(true);
  });

  it('turns nothing in the report', async () => {
    const context = await revealed(text);
    expect(turnedIn(linesOf(renderSheet(context)))).toEqual([]);
  });

  it('turns nothing in the answer of the headless command', async () => {
    const file = join(folder, 'sheet.md');
    writeFileSync(file, text);
    const { stdout } = await solveCommand([file]);
    expect(stdout.split('\n').length).toBeGreaterThan(1);
    expect(turnedIn(stdout.split('\n'))).toEqual([]);
  });

  it('turns nothing in what only the page says', async () => {
    const context = await revealed(text);
    const said = [
      presentWatch(context), presentAttention(context), openItems(context.document), presentSlipEffects(context), presentHeldTable(context),
      context.states.symbols.slice(0, 3).map((symbol) => presentElasticities(symbol, context)),
    ];
    expect(turnedIn(textsIn(said).map(isolatedQuotes))).toEqual([]);
  });
});
