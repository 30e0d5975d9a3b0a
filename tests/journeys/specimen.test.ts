/** After the test: where it broke, what was observed; a material of one's own; the specimen's own sheet. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { checkAccess, intoView, screenshot, withPage } from './harness.ts';
import { expectNoLeaks, head, line, result, textOf, typed, untilKept } from './sheet-page.ts';

async function fill(page: Page, symbol: string, text: string): Promise<void> {
  const blank = line(page, symbol).locator('.blanks').getByRole('textbox').first();
  await blank.fill(text);
  await blank.blur();
}

async function says(page: Page, cell: string): Promise<string> {
  return textOf(page.locator(`[data-cell="${cell}"]`));
}

async function start(page: Page, name: string): Promise<void> {
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
  await page.getByRole('button', { name }).click();
}

describe('after the test', () => {
  test('place of fracture and observed life are filled in: what was open is told, and the drawing moves the place', async () => {
    await withPage({ size: 'phone' }, async ({ page }) => {
      await line(page, 'x_f').locator('.blanks').getByRole('textbox').first().waitFor({ state: 'attached' });
      expect(await says(page, 'fracture-counts')).toContain('Waits for x f.');
      await fill(page, 'x_f', '2');
      expect(await says(page, 'fracture-counts')).toContain('The test counts, at its own stress.');
      await fill(page, 'N_obs', '98700');
      expect(await says(page, 'observed-expected')).toMatch(/98 ?700 cycles where 1\.\d+·10\S* cycles was predicted, a ratio of 0\./);
      const figure = page.locator('[data-cell="stress-along-axis"]');
      await intoView(figure);
      const knob = figure.getByRole('slider', { name: 'Fracture' });
      await knob.focus();
      for (let i = 0; i < 3; i += 1) await page.keyboard.press('Shift+ArrowRight');
      expect(Number.parseFloat((await typed(page, 'x_f'))[0] ?? '')).toBe(17);
      expect(await says(page, 'fracture-counts')).toContain('does not count');
      await screenshot(page, 'fracture-phone', { fullPage: false });
      await expectNoLeaks(page);
    });
  });
});

describe('a material of one’s own', () => {
  test('is typed over, kept under a name, and is still there when the page comes back', async () => {
    await withPage({}, async ({ page }) => {
      await fill(page, 'S_ut', '712 MPa');
      await fill(page, 'S_y', '600');
      const choice = page.locator('[data-cell="material"]');
      await choice.getByRole('button', { name: 'enter a material of your own' }).click();
      // What is typed over the chosen one stands there already, and the rest of what that says.
      expect(await choice.getByRole('textbox', { name: 'Tensile strength' }).inputValue()).toBe('712 MPa');
      expect(await choice.getByRole('textbox', { name: 'Modulus of elasticity' }).inputValue()).toMatch(/ GPa$/);
      await choice.getByRole('textbox', { name: 'Name' }).fill('Bar 7, our tensile test');
      await choice.getByRole('textbox', { name: 'Source' }).fill('tensile test of the class, invented');
      await screenshot(page, 'own-material', { fullPage: false });
      await page.keyboard.press('Enter');
      expect(await choice.getByRole('combobox').inputValue()).toBe('Bar-7-our-tensile-test');
      expect(await typed(page, 'S_ut')).toEqual(['712 MPa']);
      await choice.getByRole('combobox').selectOption('1018-cold-drawn');
      expect(await typed(page, 'S_ut')).toEqual(['440 MPa']);
      await choice.getByRole('combobox').selectOption({ label: 'Bar 7, our tensile test' });
      await untilKept(page);
      await page.reload();
      await line(page, 'S_ut').locator('.blanks').getByRole('textbox').first().waitFor({ state: 'attached' });
      expect(await typed(page, 'S_ut')).toEqual(['712 MPa']);
      expect(await typed(page, 'S_y')).toEqual(['600 MPa']);
      await checkAccess(page);
    });
  });

  test('is a material alone: what is typed over another choice is kept under a name with the sheet', async () => {
    await withPage({}, async ({ page }) => {
      await fill(page, 'c_a', '1 ± 0.3');
      const choice = page.locator('[data-cell="surface"]');
      await choice.getByRole('button', { name: 'keep the typed values under a name' }).click();
      await choice.getByRole('textbox', { name: 'Name' }).fill('turned by us');
      await page.keyboard.press('Enter');
      await expect.poll(() => choice.getByRole('combobox').inputValue()).toBe('turned-by-us');
    });
  });
});

describe('the specimen’s own sheet', () => {
  test('a fit that does not cover the shape says so; a larger radius lowers the factor', async () => {
    await withPage({ colorScheme: 'dark' }, async ({ page }) => {
      await start(page, 'The specimen: notch, stress along the axis, with the invented example');
      await line(page, 'K_t').locator('.result').first().waitFor({ state: 'attached' });
      const before = Number.parseFloat(await result(page, 'K_t'));
      await fill(page, 'r', '3 mm');
      await expect.poll(async () => Number.parseFloat(await result(page, 'K_t'))).toBeLessThan(before);
      await intoView(page.locator('[data-cell="stress-along-axis"]'));
      await screenshot(page, 'specimen-dark', { fullPage: false });
      await fill(page, 'r', '0.1 mm');
      expect(await says(page, 'fit-range')).toContain('outside what the fit covers');
      await checkAccess(page);
    });
  });

  test('the materials are a table with a source beside every value', async () => {
    await withPage({}, async ({ page }) => {
      await start(page, 'Materials with their sources');
      const table = page.locator('[data-cell="materials"]');
      await table.waitFor();
      expect(await textOf(page.locator('main'))).toContain('typical values, not for design');
      await screenshot(page, 'materials', { fullPage: false });
      await checkAccess(page);
    });
  });
});
