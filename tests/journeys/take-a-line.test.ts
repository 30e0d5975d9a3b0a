/** The class's line goes from the sheet that fitted it to the sheet that predicts a life, and is looked after there. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { shipped } from '../shipped.ts';
import { checkAccess, intoView, screenshot, SHORT, withPage } from './harness.ts';
import { expectNoLeaks, head, line, resultNumber, textOf, untilKept } from './sheet-page.ts';

const title = (page: Page) => page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' });
const fitCell = (page: Page) => page.locator('[data-cell="class-line"]');
const lineChoice = (page: Page) => page.locator('[data-cell="line"]');
const unfold = (page: Page) => fitCell(page).getByRole('button', { name: 'Take a line from another sheet' });
const useLine = (page: Page) => fitCell(page).getByRole('button', { name: /^Use the line fitted/ });
const list = (page: Page) => page.getByRole('region', { name: 'Lines of other sheets' });
const toTake = (page: Page) => list(page).getByRole('button', { name: 'The line through the tests' });

/** Unfolds the list; what is drawn above meanwhile may move the button away under the finger. */
async function tapUnfold(page: Page): Promise<void> {
  await expect.poll(async () => {
    if ((await list(page).count()) === 0) await unfold(page).tap();
    return list(page).count();
  }).toBe(1);
}

async function start(page: Page, name: string): Promise<void> {
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
  await page.getByRole('button', { name, exact: true }).click();
}

/** A sheet with the class's invented tests, kept under a title of its own, then the prediction sheet. */
async function keepLineThenPredict(page: Page): Promise<void> {
  await start(page, 'The S-N line of a class, with the invented example');
  await title(page).fill('Line of class 4');
  await page.locator('[data-cell="method"]').getByText('maximum likelihood, runouts too').click();
  await untilKept(page);
  await start(page, 'Rotating bending, with the invented example');
  await expect.poll(() => title(page).inputValue()).toMatch(/^Rotating bending/);
}

describe('taking a line from another sheet', () => {
  test('by keyboard: taken, chosen, undone, done again, and there after reloading', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await keepLineThenPredict(page);
      const estimated = await resultNumber(page, 'N_f');
      expect(await textOf(fitCell(page))).toContain('No line has been brought in yet.');
      await lineChoice(page).getByText('fitted to the class').click();
      await expect.poll(() => textOf(line(page, 'A'))).toContain('No fitted line has been brought in yet. Take one from another sheet');
      await lineChoice(page).getByText('estimated from the tensile strength').click();

      await unfold(page).focus();
      await page.keyboard.press('Enter');
      await expect.poll(() => textOf(list(page))).toContain('Line of class 4');
      expect(await textOf(list(page))).toMatch(/maximum likelihood.*straight line.*24 specimens in the fit: 19 broken, 5 runouts; tested 280 … 460 MPa/);
      await screenshot(page, 'take-a-line-list', { fullPage: false });
      await toTake(page).focus();
      await page.keyboard.press('Enter');

      await expect.poll(() => textOf(fitCell(page))).toContain('Taken from“Line of class 4”, its fit line');
      expect(await textOf(fitCell(page))).toMatch(/Fingerprint of the tests ?[0-9a-f]{8}/);
      expect(await resultNumber(page, 'N_f')).toBe(estimated);
      await expect.poll(() => useLine(page).evaluate((button) => button === document.activeElement)).toBe(true);
      await screenshot(page, 'take-a-line-taken', { fullPage: false });
      await page.keyboard.press('Enter');
      // 5.58·10⁵: 10^(A + B·log10 371.8) with the line of the sheet that it comes from (36.710, −12.047).
      await expect.poll(async () => (await resultNumber(page, 'N_f')) / 1e5).toBeCloseTo(5.58, 1);
      await expect.poll(() => useLine(page).count()).toBe(0);
      expect(await textOf(lineChoice(page))).not.toContain('No fitted line');
      await expectNoLeaks(page);

      await untilKept(page);
      await page.reload();
      await expect.poll(() => textOf(fitCell(page))).toContain('Line of class 4');
      await expect.poll(async () => (await resultNumber(page, 'N_f')) / 1e5).toBeCloseTo(5.58, 1);
    });
  });

  test('one undo takes the choice back, the next the line, and dropping can be undone', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await keepLineThenPredict(page);
      const estimated = await resultNumber(page, 'N_f');
      await unfold(page).click();
      await toTake(page).click();
      await useLine(page).click();
      await expect.poll(() => resultNumber(page, 'N_f')).not.toBe(estimated);
      await checkAccess(page);
      await fitCell(page).focus();
      await page.keyboard.press('Control+z');
      await expect.poll(() => resultNumber(page, 'N_f')).toBe(estimated);
      expect(await textOf(fitCell(page))).toContain('Line of class 4');
      await page.keyboard.press('Control+z');
      await expect.poll(() => textOf(fitCell(page))).toContain('No line has been brought in yet.');
      await page.keyboard.press('Control+y');
      await expect.poll(() => textOf(fitCell(page))).toContain('Line of class 4');
      await fitCell(page).getByRole('button', { name: 'Drop this line' }).click();
      await expect.poll(() => textOf(fitCell(page))).toContain('No line has been brought in yet.');
    });
  });

  test('when the tests change in the sheet it came from, it says so and takes the line again', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await keepLineThenPredict(page);
      await unfold(page).click();
      await toTake(page).click();
      await useLine(page).click();
      await untilKept(page);
      const before = await resultNumber(page, 'N_f');
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
      await head(page).getByRole('button', { name: 'Line of class 4', exact: true }).click();
      await expect.poll(() => title(page).inputValue()).toBe('Line of class 4');
      const life = page.getByRole('textbox', { name: 'Life, row 1', exact: true });
      await life.fill('181493');
      await life.press('Enter');
      await untilKept(page);
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
      await head(page).getByRole('button', { name: /^Rotating bending, two load points$/ }).click();
      const again = fitCell(page).getByRole('button', { name: 'Take it again' });
      await again.waitFor();
      expect(await textOf(fitCell(page))).toContain('The tests in the sheet it came from have changed since.');
      await intoView(again);
      await screenshot(page, 'take-a-line-changed', { fullPage: false });
      await again.click();
      await expect.poll(() => again.count()).toBe(0);
      await expect.poll(() => resultNumber(page, 'N_f')).not.toBe(before);
    });
  });

  test('from a file, on a phone; what holds no line is said and changes nothing', async () => {
    await withPage({ size: 'phone' }, async ({ page }) => {
      const bring = async (name: string, text: string): Promise<void> => {
        await list(page).getByLabel(/From a file/).setInputFiles({ name, mimeType: 'text/markdown', buffer: Buffer.from(text) });
      };
      await tapUnfold(page);
      await expect.poll(() => textOf(list(page))).toContain('No other sheet kept in this browser has a fitted line.');
      await bring('shopping.md', 'milk, bread\n');
      await expect.poll(() => textOf(list(page))).toContain('shopping.md: It holds no sheet');
      await bring('span.md', shipped('rotating-bending'));
      await expect.poll(() => textOf(list(page))).toContain('span.md: this sheet has no fitted line.');
      const quadratic = shipped('sn-line').replace('chosen: linear', 'chosen: quadratic');
      await bring('curved.md', quadratic);
      await expect.poll(() => textOf(list(page))).toContain('This sheet’s formulas are made for a straight line, and what was brought in has a curved line.');
      await bring('class.md', shipped('sn-line'));
      await toTake(page).waitFor();
      await screenshot(page, 'take-a-line-file-phone', { fullPage: false });
      await checkAccess(page);
      const box = await toTake(page).boundingBox();
      expect(box?.height).toBeGreaterThanOrEqual(44);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
      await toTake(page).tap();
      await expect.poll(() => textOf(fitCell(page))).toContain('Taken from“The S-N line of the class”, its fit line');
      await screenshot(page, 'take-a-line-phone', { fullPage: false });
      await useLine(page).tap();
      await expect.poll(() => textOf(lineChoice(page))).toContain('Used within the lives that were tested');
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    });
  });
});
