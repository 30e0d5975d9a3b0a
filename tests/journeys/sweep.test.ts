/** A result against an input, and worked back from a wanted one: with the keys alone, on a phone and on a desk. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, download, screenshot, SHORT, withPage } from './harness.ts';
import { focus, tabTo } from './keyboard.ts';
import { chooseTakeaway, expectNoLeaks, line, plain, resultNumber, textOf, typed } from './sheet-page.ts';

/** The letter goes through all inputs that begin with it, small or large: the grip's diameter comes first. */
async function pickDiameter(page: Page): Promise<void> {
  const chosen = (): Promise<string> => page.evaluate(() => (document.activeElement instanceof HTMLSelectElement ? document.activeElement.value : ''));
  for (let i = 0; i < 6 && (await chosen()) !== 'd'; i += 1) await page.keyboard.press('d');
  expect(await chosen()).toBe('d');
}

/** Puts the focus on a line as its number's link does, and goes on by Tab from there. */
async function open(page: Page, symbol: string, words: string): Promise<Locator> {
  const cell = line(page, symbol);
  await cell.locator('.menu-button').waitFor({ state: 'attached' });
  await cell.focus();
  await tabTo(page, ({ name, symbol: at }) => at === symbol && name === words);
  await page.keyboard.press('Enter');
  await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('aria-expanded'))).toBe('true');
  return cell;
}

/** Types over the field with the focus. */
async function type(page: Page, text: string): Promise<void> {
  await page.keyboard.press('Control+A');
  await page.keyboard.type(text);
}

const named = (words: string) => ({ name, symbol }: { name: string; symbol: string }): boolean => symbol !== '' && name.startsWith(words);

async function drawn(cell: Locator): Promise<void> {
  await cell.locator('.sweep svg.chart').waitFor();
}

/** Journeys by keys alone take many presses. */
const PATIENCE = { timeout: 300_000 };

describe.each(['desktop', 'phone'] as const)('on the %s', (size) => {
  test('a life against the diameter: opened, chosen, read, kept, taken away, undone', PATIENCE, async () => {
    await withPage({ size }, async ({ page }) => {
      const cell = await open(page, 'N_f', 'against an input');
      await drawn(cell);
      const caption = cell.locator('.sweep figcaption');
      await expect.poll(() => textOf(caption)).toMatch(/^Against “/);
      await tabTo(page, named('against'));
      await pickDiameter(page);
      await tabTo(page, named('from'));
      await type(page, '6 mm');
      await page.keyboard.press('Enter');
      await tabTo(page, named('to'));
      await type(page, '9 mm');
      await page.keyboard.press('Enter');
      await expect.poll(() => textOf(caption)).toMatch(/^Against “Minimum diameter, read around the bar” from 6 mm to 9 mm: Predicted life \(median\) rises from 1000 cycles to 10⁶ cycles/);
      // The estimated line ends at 10³ and at the limit; the check of yield turns where sigma_a = S_y: d³ = 32 M/(π S_y).
      const said = plain((await caption.textContent()) ?? '');
      expect(said).toMatch(/Up to 6\.63\d? mm .* no value: below 10³ cycles/);
      expect(said).toMatch(/From 7\.96\d mm on .* no value: below the endurance limit/);
      expect(said).toMatch(/“Is the elastic formula still valid\?” holds from 6\.68\d mm on/);
      await tabTo(page, ({ name }) => name.startsWith('Values of Predicted life'));
      await page.keyboard.press('End');
      await page.keyboard.press('PageUp');
      const reading = cell.locator('.sweep .chart-reading');
      expect(await textOf(reading)).toMatch(/^d = 7\.\d+ mm(?:, as it is now)?: N f = [\d ]+ cycles ×\/÷ \d\.\d+\.$/);
      await screenshot(page, `sweep-life-${size}`, { fullPage: false });
      await checkAccess(page);
      await expectNoLeaks(page);
      await tabTo(page, named('keep as a drawing'));
      await page.keyboard.press('Enter');
      const figure = page.locator('[data-cell]').filter({ has: page.locator('.caption-label', { hasText: 'Predicted life (median), against Minimum diameter' }) });
      await figure.waitFor();
      await figure.evaluate((element) => element.scrollIntoView({ block: 'center' }));
      await figure.locator('svg.chart .current-mark').waitFor();
      const report = await download(page, () => chooseTakeaway(page, 'Report'));
      expect(report.text).toContain('Predicted life (median), against Minimum diameter');
      expect(report.text).toMatch(/below the endurance limit: the line gives no life/);
      // Undo is a key of the sheet, and the focus stands in the head of the page.
      await figure.focus();
      await page.keyboard.press('Control+Z');
      await expect.poll(() => figure.count(), { timeout: 10_000 }).toBe(0);
    });
  });

  test('a diameter worked back from a stress: found, put in, undone', PATIENCE, async () => {
    await withPage({ size }, async ({ page }) => {
      const before = await typed(page, 'd');
      const cell = await open(page, 'sigma_a', 'work back');
      await tabTo(page, named('wanted result'));
      await page.keyboard.type('400 MPa');
      await tabTo(page, named('free to move'));
      await pickDiameter(page);
      await tabTo(page, named('find it'));
      await page.keyboard.press('Enter');
      const found = cell.locator('.found');
      await found.waitFor();
      expect(await textOf(found)).toMatch(/^One answer between 2 mm and 60 mm\. ?d = 7\.3388 mm/);
      expect(await textOf(found)).toMatch(/The result is then 400\.0 ± 3\.\d MPa\./);
      await screenshot(page, `work-back-${size}`, { fullPage: false });
      await checkAccess(page);
      await tabTo(page, named('put it in'));
      await page.keyboard.press('Enter');
      await expect.poll(() => resultNumber(page, 'sigma_a')).toBe(400);
      // Beside the readings, which stay.
      expect(await typed(page, 'd')).toEqual(before);
      expect(await textOf(line(page, 'd').locator('.trial-here'))).toMatch(/^Trial value 7\.3388\d+ mm .*your readings stay/);
      expect(await textOf(found)).toMatch(/The sheet has changed since/);
      expect((await focus(page)).symbol).toBe('sigma_a');
      await page.keyboard.press('Control+Z');
      await expect.poll(() => line(page, 'd').locator('.trial-here').count()).toBe(0);
      // A force is no stress, and the sheet says so.
      await tabTo(page, named('wanted result'), 'Shift+Tab');
      await type(page, '4 kN');
      await page.keyboard.press('Enter');
      await cell.locator('.work-back .problem').waitFor();
    });
  });
});

test('both in the dark, with two results over one axis, and two answers', PATIENCE, async () => {
  await withPage({ sheet: SHORT, colorScheme: 'dark' }, async ({ page }) => {
    const cell = await open(page, 'M_s', 'against an input');
    await drawn(cell);
    await tabTo(page, named('against'));
    await page.keyboard.press('x');
    await tabTo(page, named('show also'));
    await page.keyboard.press('V');
    await expect.poll(() => cell.locator('.sweep svg.chart .frame').count()).toBe(2);
    await open(page, 'M_s', 'work back');
    await tabTo(page, named('wanted result'));
    await page.keyboard.type('15 N·m');
    await tabTo(page, named('free to move'));
    await page.keyboard.press('x');
    await tabTo(page, named('find it'));
    await page.keyboard.press('Enter');
    await cell.locator('.found').waitFor();
    expect(await textOf(cell.locator('.found'))).toMatch(/^Two answers between 0 mm and 2000 mm\./);
    await cell.evaluate((element) => element.scrollIntoView({ block: 'start' }));
    await screenshot(page, 'sweep-dark', { fullPage: false });
    await checkAccess(page);
  });
});
