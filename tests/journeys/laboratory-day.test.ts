/** The whole day on either machine, on a telephone: checklist, set-up, life, record, photograph, report. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { outlineByKeys, outlineByPointer, taken } from './fracture-hand.ts';
import { checkAccess, download, goToFile, intoView, screenshot, withPage } from './harness.ts';
import { renamed } from './saved-file.ts';
import { chooseTakeaway, expectNoLeaks, head, line, result, resultNumber, textOf, untilKept } from './sheet-page.ts';

/** For a machine that does much else. */
const SLOW = { timeout: 20_000 };

const record = (page: Page): Locator => page.locator('[data-cell="test"]');
const says = (page: Page): Promise<string> => textOf(record(page));
const press = (page: Page, name: string): Promise<void> => record(page).getByRole('button', { name, exact: true }).tap();

async function open(page: Page, name: string): Promise<void> {
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).tap();
  await page.getByRole('button', { name, exact: true }).tap();
}

/** Every box of a list, with its time beside it afterwards. */
async function tick(page: Page, list: string): Promise<void> {
  const items = page.locator(`[data-cell="${list}"]`);
  await intoView(items);
  const boxes = items.getByRole('checkbox');
  for (let i = 0; i < (await boxes.count()); i += 1) await boxes.nth(i).check();
  await expect.poll(() => textOf(items.locator('.count')), SLOW).toBe('all done');
  expect(await items.locator('.time').count()).toBe(await boxes.count());
}

async function fill(page: Page, symbol: string, text: string): Promise<void> {
  const all = line(page, symbol).locator('.blanks').getByRole('textbox');
  await all.first().waitFor({ state: 'attached' });
  for (let i = (await all.count()) - 1; i > 0; i -= 1) await all.nth(i).fill('');
  await all.first().fill(text);
  await all.first().blur();
}

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = record(page).getByLabel(label, { exact: true }).last();
  await field.fill(text);
  await field.blur();
}

/** Charts are drawn where the reader looks, and what is set above them moves them. */
async function saidInView(page: Page, id: string): Promise<string> {
  const figure = page.locator(`[data-cell="${id}"]`);
  await intoView(figure);
  return textOf(figure);
}

async function started(page: Page): Promise<void> {
  await record(page).getByRole('button', { name: 'Start the test', exact: true }).tap();
  await expect.poll(() => says(page), SLOW).toMatch(/Running since 2026-11-27/);
}

/** From the start to the end; the journey takes its own time, so the two stamps are put right by hand, as anyone may. */
async function testRuns(page: Page, { minutes, counterEnd, criterion }: { minutes: number; counterEnd: string; criterion?: string }): Promise<void> {
  await intoView(record(page));
  await type(page, 'Counter at the start', '0');
  if (criterion !== undefined) await record(page).getByLabel('Criterion of failure').selectOption(criterion);
  // The advice goes once nothing is missing, and what stands below it moves up.
  await expect.poll(() => says(page), SLOW).not.toMatch(/What counts as failure is not said|is not written down yet/);
  await started(page);
  await expect.poll(() => says(page), SLOW).toMatch(/half chance that it breaks before/);
  await page.clock.fastForward(minutes * 60_000);
  await press(page, 'Ended');
  await record(page).getByLabel('Outcome').selectOption('fracture');
  await type(page, 'Counter at the end', counterEnd);
  await type(page, 'Started', '2026-11-27T10:00');
  const end = new Date(Date.parse('2026-11-27T10:00:00Z') + minutes * 60_000).toISOString().slice(0, 16);
  await type(page, 'Ended', end);
  await expect.poll(() => says(page), SLOW).toMatch(/Counter and clock agree within their uncertainty/);
}

async function photographed(page: Page): Promise<void> {
  await intoView(page.locator('.cell-photo').first());
  await taken(page);
  await outlineByKeys(page);
  await outlineByPointer(page);
  await expect.poll(() => resultNumber(page, 'K_max'), SLOW).toBeGreaterThan(0);
}

/** What the report says, without the document that it carries along. */
async function reported(page: Page, name: string): Promise<string> {
  await untilKept(page);
  const report = await download(page, () => chooseTakeaway(page, 'Report'));
  await goToFile(page, renamed(report));
  await checkAccess(page);
  await expectNoLeaks(page);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await intoView(page.locator('.cell-photo'));
  await screenshot(page, name, { fullPage: false });
  expect(await page.locator('.cell-photo img').getAttribute('alt')).toMatch(/Final zone: 1[23]\.?\d* % of the section/);
  return textOf(page.locator('body'));
}

describe('the laboratory day on a telephone', () => {
  test('rotating bending: from the checklist to the report', async () => {
    await withPage({ size: 'phone', clock: '2026-11-27T09:00:00Z', context: { timezoneId: 'Europe/London' } }, async ({ page }) => {
      await open(page, 'Rotating bending, with the invented example');
      for (const list of ['safety', 'set-up']) await tick(page, list);
      await fill(page, 'd', '7.50 mm');
      await fill(page, 'F', '320 N');
      await expect.poll(() => result(page, 'sigma_a'), SLOW).toMatch(/^38\d\.\d MPa$/);
      const [stress, life] = [await result(page, 'sigma_a'), await resultNumber(page, 'N_f')];
      // 2800 rev/min for 30 minutes are 84 000 cycles; the counter counts hundreds.
      await testRuns(page, { minutes: 30, counterEnd: '840' });
      await type(page, 'Place of fracture, from the thinnest section', '1 mm');
      await tick(page, 'after-fracture');
      await photographed(page);
      // The life shows two digits of what it is uncertain by.
      await expect.poll(async () => Math.abs((await resultNumber(page, 'r_N')) / (84_000 / life) - 1), SLOW).toBeLessThan(0.05);
      expect(await textOf(page.locator('[data-cell="fracture-counts"]'))).toContain('The test counts, at its own stress.');
      expect(await textOf(page.locator('[data-cell="observed-expected"]'))).toContain('The specimen lasted 84 000');
      await checkAccess(page);
      await screenshot(page, 'day-rotating-phone', { fullPage: false });

      const text = await reported(page, 'day-rotating-report');
      for (const said of [stress, 'The specimen lasted', '10 of 31 checklist items are open', 'Counter and clock agree', 'The test counts, at its own stress.', 'measures an overload']) expect(text).toContain(said);
    });
  }, 600_000);

  test('a set stroke: from the checklist to the report', async () => {
    await withPage({ size: 'phone', clock: '2026-11-27T09:00:00Z', context: { timezoneId: 'Europe/London' } }, async ({ page }) => {
      await open(page, 'Alternating plane bending, with the invented example');
      for (const list of ['safety', 'mounting', 'before-start']) await tick(page, list);
      await fill(page, 'z_1', '9.70');
      await fill(page, 'z_2', '15.30');
      await expect.poll(() => resultNumber(page, 'Delta'), SLOW).toBeCloseTo(5.6, 2);
      const [stress, life] = [await result(page, 'sigma_a'), await resultNumber(page, 'N_f')];
      await expect.poll(() => saidInView(page, 'constant-life'), SLOW).toContain(`an amplitude of ${stress}`);
      await expect.poll(() => saidInView(page, 's-n'), SLOW).toMatch(/This specimen: .* median life/);
      // 150 cycles/min for 240 minutes are 36 000 cycles.
      await testRuns(page, { minutes: 240, counterEnd: '360', criterion: 'separation' });
      await tick(page, 'after-fracture');
      await photographed(page);
      await expect.poll(async () => Math.abs((await resultNumber(page, 'r_N')) / (36_000 / life) - 1), SLOW).toBeLessThan(0.05);
      expect(await textOf(page.locator('[data-cell="observed-expected"]'))).toContain('The specimen lasted 36 000');
      await checkAccess(page);
      await screenshot(page, 'day-alternating-phone', { fullPage: false });

      const text = await reported(page, 'day-alternating-report');
      for (const said of [stress, 'The specimen lasted', '11 of 33 checklist items are open', 'Counter and clock agree', 'measures an overload', 'By Goodman it has the life of']) expect(text).toContain(said);
    });
  }, 600_000);
});
