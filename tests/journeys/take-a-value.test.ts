/** What the sheet of a specimen works out goes to the machine's sheet with its uncertainty, is never typed twice, and is looked after there. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { checkAccess, screenshot, SHORT, withPage } from './harness.ts';
import { expectNoLeaks, head, line, resultNumber, textOf, typed, typeOver, untilKept } from './sheet-page.ts';

const title = (page: Page) => page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' });
const unfold = (page: Page) => line(page, 'K_t').getByRole('button', { name: 'take it from a sheet' });
const list = (page: Page) => page.getByRole('region', { name: /values of other sheets/ });

async function start(page: Page, name: string): Promise<void> {
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
  await page.getByRole('button', { name, exact: true }).click();
}

/** The invented specimen kept under a title of its own, then the machine's sheet. */
async function keepSpecimen(page: Page): Promise<void> {
  await start(page, 'The specimen: notch, stress along the axis, with the invented example');
  await title(page).fill('Specimen of team 4');
  await untilKept(page);
  await start(page, 'Rotating bending, with the invented example');
  await expect.poll(() => title(page).inputValue()).toMatch(/^Rotating bending/);
}

describe('taking a value from another sheet', () => {
  test.each(['desktop', 'phone'] as const)('K_t and q come together, as they vary together: %s', async (size) => {
    await withPage({ sheet: SHORT, size }, async ({ page }) => {
      await keepSpecimen(page);
      await unfold(page).focus();
      await page.keyboard.press('Enter');
      await expect.poll(() => textOf(list(page))).toContain('Specimen of team 4');
      await screenshot(page, `take-a-value-list-${size}`, { fullPage: false });
      await checkAccess(page);
      await list(page).getByRole('button', { name: /1\.743/ }).focus();
      await page.keyboard.press('Enter');
      // 1 + 0.76124·(1.74301 − 1) = 1.56561: the specimen sheet's own numbers.
      await expect.poll(async () => resultNumber(page, 'K_f')).toBeCloseTo(1.566, 3);
      await expect.poll(() => textOf(line(page, 'q'))).toMatch(/taken from “Specimen of team 4”, PS-11.*, on \d{4}-\d\d-\d\d/);
      // That specimen is invented, and what comes from it stays so.
      expect(await line(page, 'q').locator('.origin').allInnerTexts()).toContain('invented');
      await expect.poll(() => list(page).count()).toBe(0);
      await screenshot(page, `take-a-value-taken-${size}`, { fullPage: false });
      // One step of the history takes both back.
      await page.keyboard.press('Control+z');
      await expect.poll(() => typed(page, 'K_t')).toEqual(['1']);
      await expect.poll(() => typed(page, 'q')).toEqual(['1']);
      await page.keyboard.press('Control+Shift+z');
      await expect.poll(async () => resultNumber(page, 'K_f')).toBeCloseTo(1.566, 3);
      // What is typed over it is the reader's own, and said so.
      await typeOver(page, 'K_t', '1.7');
      await expect.poll(() => textOf(line(page, 'K_t'))).toContain('typed over what was taken from “Specimen of team 4”');
      await expectNoLeaks(page);
    });
  });

  test('where the specimen’s sheet says something else now it is told, and taken again with one press', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await keepSpecimen(page);
      await unfold(page).click();
      await list(page).getByRole('button', { name: /1\.743/ }).click();
      await expect.poll(async () => resultNumber(page, 'K_f')).toBeCloseTo(1.566, 3);
      await title(page).fill('Prediction of team 4');
      await untilKept(page);
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
      await page.getByRole('button', { name: /^Specimen of team 4/ }).first().click();
      await expect.poll(() => title(page).inputValue()).toBe('Specimen of team 4');
      await typeOver(page, 'r', '1.50 ± 0.02 mm');
      await untilKept(page);
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
      await page.getByRole('button', { name: /^Prediction of team 4/ }).first().click();
      await expect.poll(() => textOf(line(page, 'K_t'))).toMatch(/In the sheet it came from it is 1\.\d+.* now/);
      const before = await resultNumber(page, 'K_f');
      await line(page, 'K_t').getByRole('button', { name: 'Take it again' }).click();
      // A larger radius concentrates less, but the metal minds it more: K_t falls.
      await expect.poll(async () => resultNumber(page, 'K_f')).not.toBe(before);
      await expect.poll(() => textOf(line(page, 'K_t'))).not.toContain('In the sheet it came from');
    });
  });

  test('what was typed there comes as well, and over nothing that was typed here; the pull of the lever brings the weight of what hangs', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await keepSpecimen(page);
      await start(page, 'Loading lever with sliding weights, with the invented example');
      await title(page).fill('Lever of machine 2');
      await untilKept(page);
      await start(page, 'Rotating bending, blank');
      await expect.poll(() => typed(page, 'd')).toEqual(['']);
      await typeOver(page, 'D', '14 mm');
      const take = async (symbol: string, from: string) => {
        await line(page, symbol).getByRole('button', { name: 'take it from a sheet' }).click();
        await page.getByRole('region', { name: /values of other sheets/ }).locator('p.from', { hasText: from }).locator('+ ul').getByRole('button').click();
        await expect.poll(() => textOf(line(page, symbol))).toContain(`taken from “${from}”`);
      };
      await take('d', 'Specimen of team 4');
      // Readings of the example go as their mean; the invented specimen's own numbers.
      expect(await typed(page, 'd')).toEqual([expect.stringMatching(/^10 ± 0\.00\d+ mm$/)]);
      expect([await typed(page, 'rho'), await typed(page, 'D')]).toEqual([['60 mm'], ['14 mm']]);
      expect(await textOf(line(page, 'K_t'))).toContain('taken from “Specimen of team 4”');
      await take('F', 'Lever of machine 2');
      expect(await textOf(line(page, 'F_h'))).toContain('taken from “Lever of machine 2”');
      // The diameter stays the specimen's, though the lever's sheet has one as well.
      expect(await textOf(line(page, 'd'))).toContain('taken from “Specimen of team 4”');
      await page.keyboard.press('Control+z');
      await expect.poll(() => typed(page, 'F')).toEqual(['']);
      expect(await typed(page, 'F_h')).toEqual(['']);
    });
  });
});
