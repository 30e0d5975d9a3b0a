/** A material of one's own is entered once, offered in the other sheets, and goes along in the working file; of two with one name both are told. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens, checkAccess, download, goToFile, screenshot } from './harness.ts';
import { chooseTakeaway, head, line, resultNumber, textOf, typed, untilKept } from './sheet-page.ts';
import { renamed } from './saved-file.ts';

const choice = (page: Page) => page.locator('#cell-material');
const list = (page: Page) => choice(page).getByRole('combobox');
const form = (page: Page) => choice(page).getByRole('form', { name: 'A material of your own' });
const field = (page: Page, name: string) => form(page).getByLabel(name);
const chosen = (page: Page) => list(page).evaluate((select) => (select instanceof HTMLSelectElement ? (select.selectedOptions[0]?.text ?? '') : ''));
const title = (page: Page) => page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' });

async function start(page: Page, name: string, heading: RegExp): Promise<void> {
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
  await page.getByRole('button', { name, exact: true }).click();
  await expect.poll(() => title(page).inputValue()).toMatch(heading);
}

/** By keyboard alone, with a slip of the pen on the way. */
async function enter(page: Page): Promise<void> {
  await choice(page).getByRole('button', { name: 'enter a material of your own' }).focus();
  await page.keyboard.press('Enter');
  await page.keyboard.type('Propeller steel, heat 7');
  await page.keyboard.press('Tab');
  for (const text of ['655 kg', '540', '205 GPa', '310 ± 15 MPa', '197 HB', 'tensile test, invented']) {
    await page.keyboard.press('Tab');
    await page.keyboard.type(text);
  }
  await page.keyboard.press('Enter');
  await expect.poll(() => field(page, 'Tensile strength').getAttribute('aria-invalid')).toBe('true');
  // What was typed stands, in every field.
  expect([await field(page, 'Tensile strength').inputValue(), await field(page, 'Hardness').inputValue()]).toEqual(['655 kg', '197 HB']);
  await screenshot(page, 'own-material-form', { fullPage: false });
  await checkAccess(page);
  await field(page, 'Tensile strength').fill('655 ± 2 %');
  await page.keyboard.press('Enter');
  await expect.poll(() => chosen(page)).toBe('Propeller steel, heat 7');
}

describe('a material of one’s own', () => {
  test.each(['desktop', 'phone'] as const)('is entered once and offered where materials are: %s', async (size) => {
    await asItOpens({ size, sheet: 'rotating-bending.md' }, async ({ page }) => {
      await enter(page);
      await expect.poll(() => textOf(choice(page))).toContain('kept with this sheet and in this browser');
      // Its known limit counts, and no half of the strength.
      await expect.poll(async () => resultNumber(page, 'S_e0')).toBeCloseTo(310, 6);
      expect(await typed(page, 'S_ut')).toEqual(['655 MPa']);
      await untilKept(page);
      await start(page, 'The specimen: notch, stress along the axis, blank', /specimen/);
      await list(page).selectOption({ label: 'Propeller steel, heat 7' });
      await expect.poll(() => typed(page, 'S_ut')).toEqual(['655 MPa']);
      expect(await textOf(line(page, 'S_ut'))).toContain('from Propeller steel, heat 7');
      expect(await textOf(choice(page))).toContain('Hardness 197 HB.');
      // One step takes it back, and it is offered as before.
      await page.keyboard.press('Control+z');
      await expect.poll(() => chosen(page)).toBe('choose one');
      expect(await list(page).locator('optgroup option').allTextContents()).toEqual(['Propeller steel, heat 7']);
    });
  });

  test('goes along in the working file, and is kept on another computer when somebody says so; two of one name are both told', async () => {
    let file = '';
    await asItOpens({ sheet: 'rotating-bending.md' }, async ({ page }) => {
      await enter(page);
      await untilKept(page);
      file = renamed(await download(page, () => chooseTakeaway(page, 'Working file')));
    });
    await asItOpens({ file }, async ({ page }) => {
      await expect.poll(() => chosen(page)).toBe('Propeller steel, heat 7');
      await expect.poll(() => textOf(choice(page))).toContain('kept with this sheet and not in this browser');
      await choice(page).getByRole('button', { name: 'keep it for all sheets' }).click();
      await expect.poll(() => textOf(choice(page))).toContain('and in this browser');
      // Another one of that name, as a classmate may have entered it.
      await page.evaluate(() => localStorage.setItem('spanlife-materials', (localStorage.getItem('spanlife-materials') ?? '').replace('655', '640')));
      await goToFile(page, file);
      await expect.poll(() => textOf(choice(page))).toContain('This browser keeps another “Propeller steel, heat 7”: tensile strength 640 MPa ± 2 % there, 655 MPa ± 2 % here. Neither was changed.');
      await screenshot(page, 'own-material-two', { fullPage: false });
      expect(await typed(page, 'S_ut')).toEqual(['655 MPa']);
      await choice(page).getByRole('button', { name: 'use the browser’s here' }).click();
      await expect.poll(() => typed(page, 'S_ut')).toEqual(['640 MPa']);
      await expect.poll(() => chosen(page)).toBe('Propeller steel, heat 7, as this browser keeps it');
      expect(await list(page).locator('option', { hasText: 'heat 7' }).count()).toBe(2);
    });
  });
});
