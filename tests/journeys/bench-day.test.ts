/** One specimen on either machine, from the checklists to the row in the class's table and the report, with a finger at 390 by 844, every tap counted. */
import { expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { KNOWN, markedBy, steady } from './drawn-fractures.ts';
import { board, cell, take } from './fracture-hand.ts';
import { drawJpeg } from './fracture-pictures.ts';
import { checkAccess, download, goToFile, intoView, screenshot, asItOpens as withPage } from './harness.ts';
import { renamed } from './saved-file.ts';
import { head, line, textOf, untilKept } from './sheet-page.ts';

const SLOW = { timeout: 20_000 };

interface Day {
  readonly sheet: string;
  /** Lists before the test. */
  readonly lists: readonly string[];
  /** The specimen's own blanks: the first is tapped, and where Enter does not lead on the next one too. */
  readonly blanks: readonly (readonly [symbol: string, text: string])[];
  readonly minutes: number;
  readonly counterEnd: string;
  /** The place of fracture, where the record asks for it. */
  readonly place?: string;
  /** Which of the drawn surfaces broke. */
  readonly surface: number;
  readonly report: readonly string[];
}

const DAYS: readonly (readonly [string, Day])[] = [
  ['rotating bending', {
    sheet: 'Rotating bending, with the invented example', lists: ['safety', 'set-up'], blanks: [['d', '7.50 mm'], ['F', '320 N']], minutes: 30, counterEnd: '840', place: '1 mm', surface: 0,
    report: ['The specimen lasted', 'It broke at 1.00 mm, where the section is', 'The test counts, at its own stress.'],
  }],
  ['alternating bending', {
    sheet: 'Alternating plane bending, with the invented example', lists: ['safety', 'mounting', 'before-start'], blanks: [['z_1', '9.70'], ['z_2', '15.30']], minutes: 240, counterEnd: '360', surface: 8,
    report: ['The specimen lasted', 'By Goodman it has the life of'],
  }],
];

const record = (page: Page): Locator => page.locator('[data-cell="test"]');
const button = (part: Locator, name: string | RegExp): Locator => part.getByRole('button', { name, exact: true });

/** Ticks a list; a tap each, which the goal leaves out. */
async function ticked(page: Page, list: string): Promise<number> {
  const items = page.locator(`[data-cell="${list}"]`);
  await intoView(items);
  const boxes = items.getByRole('checkbox');
  const count = await boxes.count();
  for (let i = 0; i < count; i += 1) await boxes.nth(i).tap();
  await expect.poll(() => textOf(items.locator('.count')), SLOW).toBe('all done');
  return count;
}

/** Over what stands in the blanks of a line. */
async function typedOver(page: Page, symbol: string, text: string): Promise<void> {
  await page.keyboard.press('Control+A');
  await page.keyboard.type(text);
  const more = line(page, symbol).locator('.blanks input');
  for (let i = (await more.count()) - 1; i > 0; i -= 1) await more.nth(i).fill('');
}

/** The surface marked as `fracture-touch` does: section, final zone, origin. */
async function markedSurface(page: Page, number: number, tapAt: (x: number, y: number) => Promise<void>, tap: (part: Locator) => Promise<void>): Promise<void> {
  const surface = KNOWN[number];
  if (surface === undefined) throw new Error('none is drawn');
  const points = surface.shapes[0] === 'a circle' ? ([4, 5] as const) : ([4, 4] as const);
  await take(page, await drawJpeg(page, surface));
  await expect.poll(() => board(page).locator('img').count(), SLOW).toBe(1);
  for (const [border, count, next] of [[surface.section, points[0], 'Next: outline the final zone'], [surface.final, points[1], 'Next: mark an origin']] as const) {
    await board(page).evaluate((element) => element.scrollIntoView({ block: 'center', behavior: 'instant' }));
    const box = await board(page).locator('img').boundingBox();
    if (box === null) throw new Error('no picture');
    for (const { x, y } of markedBy(steady(7), border, count, 1)) await tapAt(box.x + (x / surface.width) * box.width, box.y + (y / surface.height) * box.height);
    await expect.poll(() => board(page).locator('.dot').count(), SLOW).toBe(count);
    await tap(button(cell(page), next));
  }
  const origin = surface.section[0];
  const box = await board(page).locator('img').boundingBox();
  if (box === null || origin === undefined) throw new Error('no picture');
  await tapAt(box.x + (origin.x / surface.width) * box.width, box.y + (origin.y / surface.height) * box.height);
  await expect.poll(() => textOf(cell(page).locator('.facts')), SLOW).toContain('one is marked');
}

test.each(DAYS)('%s: from the checklists to the row and the report in at most 25 taps', async (machine, day) => {
  await withPage({ sheet: 'sn-line.md', size: 'phone', clock: '2026-11-27T09:00:00Z', context: { timezoneId: 'Europe/London' } }, async ({ page }) => {
    const taps: string[] = [];
    const tap = async (part: Locator, name?: string): Promise<void> => {
      await intoView(part);
      taps.push(name ?? await textOf(part));
      await part.tap();
    };
    // The class's table is kept in this browser.
    await page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).fill('Line of the class');
    await untilKept(page);

    await tap(button(head(page), 'Sheets'));
    await tap(button(head(page), day.sheet));
    await record(page).waitFor({ state: 'attached' });
    let ticks = 0;
    for (const list of day.lists) ticks += await ticked(page, list);
    for (const [symbol, text] of day.blanks) {
      const blank = line(page, symbol).locator('.blanks input').first();
      if (!(await blank.evaluate((field) => field === document.activeElement))) await tap(blank, symbol);
      await typedOver(page, symbol, text);
      await page.keyboard.press('Enter');
    }
    await tap(record(page).getByLabel('Counter at the start', { exact: true }), 'counter');
    await page.keyboard.type('0');
    await page.keyboard.press('Enter');
    await tap(button(record(page), 'Start the test'));
    await expect.poll(() => page.locator('.watch-strip').count(), SLOW).toBe(1);
    await page.clock.fastForward(day.minutes * 60_000);
    await tap(button(page.locator('.watch-strip'), 'End the test'));
    await tap(button(record(page), 'fracture'));
    await expect.poll(() => record(page).getByLabel('Counter at the end', { exact: true }).evaluate((field) => field === document.activeElement), SLOW).toBe(true);
    await page.keyboard.type(day.counterEnd);
    if (day.place !== undefined) {
      const place = record(page).getByLabel('Place of fracture, from the thinnest section', { exact: true });
      for (let i = 0; i < 6 && !(await place.evaluate((field) => field === document.activeElement)); i += 1) await page.keyboard.press('Enter');
      await page.keyboard.type(day.place);
    }
    await page.keyboard.press('Enter');
    await expect.poll(() => textOf(record(page)), SLOW).toMatch(/Cycles by the counter/);
    ticks += await ticked(page, 'after-fracture');

    await intoView(cell(page));
    taps.push('Bring in a picture');
    await markedSurface(page, day.surface, async (x, y) => {
      taps.push('a mark');
      await page.touchscreen.tap(x, y);
    }, tap);
    await screenshot(page, `bench-day-${machine}-picture`, { fullPage: false });

    await tap(button(record(page), 'send this specimen to a table'));
    await tap(button(record(page), 'add 1 row'));
    await expect.poll(() => textOf(record(page)), SLOW).toMatch(/is now the last row of the table in “Line of the class”/);
    await screenshot(page, `bench-day-${machine}-sent`, { fullPage: false });
    await checkAccess(page);
    await untilKept(page);
    const report = await download(page, async () => {
      await tap(button(head(page), 'Take away'));
      await tap(button(head(page), 'Report'));
    });
    process.stdout.write(`${machine}: ${taps.length} taps, and ${ticks} ticks: ${taps.join(', ')}\n`);
    expect(taps.length).toBeLessThanOrEqual(25);
    await goToFile(page, renamed(report));
    const text = (await textOf(page.locator('body'))).replace(/[\u2066-\u2069]/g, '');
    for (const said of day.report) expect(text.includes(said), said).toBe(true);
    expect(await page.locator('.cell-photo img').count()).toBe(1);
  });
}, 180_000);
