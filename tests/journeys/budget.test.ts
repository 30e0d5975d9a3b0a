/** Where the uncertainty of a result comes from, and what would make it surer: by keyboard alone, at the bench and at the desk. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, download, intoView, screenshot, SHORT, withPage } from './harness.ts';
import { expectNoLeaks, fill, line, textOf } from './sheet-page.ts';

/** Goes on with Tab until a control of that name has the focus. */
async function tabTo(page: Page, control: Locator): Promise<void> {
  for (let i = 0; i < 60; i += 1) {
    if (await control.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error('Tab never came there');
}

describe.each(['phone', 'desktop'] as const)('on a %s', (size) => {
  test('a budget is opened, an input unfolded, and a wanted uncertainty typed', async () => {
    await withPage({ sheet: SHORT, size }, async ({ page }) => {
      const stress = line(page, 'sigma_a');
      await intoView(stress);
      await stress.focus();
      await tabTo(page, stress.getByRole('button', { name: 'uncertainty budget' }));
      await page.keyboard.press('Enter');
      const table = stress.getByRole('group', { name: 'Uncertainty budget of σ a' });
      await table.waitFor();
      const share = await textOf(table.locator('tbody tr').first());
      expect(share).toMatch(/Normal|A and B|B,/);
      await tabTo(page, table.getByRole('button', { name: /parts of Minimum diameter/ }));
      await page.keyboard.press('Enter');
      await expect.poll(() => textOf(table)).toContain('4 readings');
      expect(await textOf(table)).toMatch(/limit ±0\.01 mm/);
      await tabTo(page, stress.getByRole('textbox', { name: /What would it take/ }));
      await page.keyboard.type('0.4 %');
      await expect.poll(() => textOf(stress.locator('.what-it-takes'))).toMatch(/Wanted: a standard uncertainty of .* MPa, 0\.40 % of the value/);
      await screenshot(page, `budget-${size}`, { fullPage: false });
      await intoView(stress.locator('.what-it-takes'));
      await screenshot(page, `budget-takes-${size}`, { fullPage: false });
      await checkAccess(page);
      await expectNoLeaks(page);
    });
  });
});

test('the figure of a budget follows an edit; a budget is taken away as a table; a given tells its own components', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    const figure = page.locator('[data-cell="stress-budget"]');
    await intoView(figure);
    const first = figure.locator('.budget-table tbody tr').first();
    await expect.poll(() => textOf(first)).toContain('Load, indicated or marked on the weights');
    await fill(page, 'd', '7.52 ± 0.2 mm');
    await expect.poll(() => textOf(first)).toContain('Minimum diameter');
    // σ ∝ d⁻³: u(σ)/σ = 3·0.2/7.52 = 8.0 % and hardly anything else.
    await expect.poll(() => textOf(figure.locator('figcaption'))).toMatch(/Combined standard uncertainty 30 MPa \(8\.0 % of the value\)/);
    await expect.poll(() => textOf(first)).toMatch(/99 %$/);

    const stress = line(page, 'sigma_a');
    await stress.focus();
    await stress.getByRole('button', { name: 'uncertainty budget' }).press('Enter');
    const saved = await download(page, () => stress.getByRole('button', { name: 'take the budget away as a table' }).press('Enter'));
    expect(saved.name).toBe('rotating-bending-two-load-points-t4-solar-boat-rotating-bending-bench-2-ps-07-hourglass-budget-of-sigma-a.csv');
    expect(saved.text).toMatch(/^input,name,value,unit,standard uncertainty,.*\r\nd,"Minimum diameter, read around the bar",7\.52,mm,0\.2,B,normal,,-148\./);

    // Another name of an input is there at once, in the budget and in the chain back to the inputs.
    await stress.getByRole('button', { name: 'back to the inputs' }).press('Enter');
    await line(page, 'd').getByRole('button', { name: /^What can be done with/ }).press('Enter');
    await page.getByRole('menuitem', { name: /edit its own text/ }).press('Enter');
    const editor = page.locator('.source-editor').getByRole('textbox');
    await editor.fill((await editor.inputValue()).replace('Minimum diameter, read around the bar', 'Diameter at the waist'));
    await editor.press('Control+Enter');
    await expect.poll(() => textOf(line(page, 'd').locator('.label').first())).toBe('Diameter at the waist');
    for (const place of ['.budget-table', '.derivation']) {
      await expect.poll(() => textOf(stress.locator(place)), { message: place }).toContain('Diameter at the waist');
      expect(await textOf(stress.locator(place)), place).not.toContain('Minimum diameter');
    }

    const span = line(page, 's_1');
    await span.getByRole('button', { name: /how it was measured/ }).press('Enter');
    await span.getByRole('button', { name: 'uncertainty budget' }).press('Enter');
    await expect.poll(() => textOf(span.locator('.budget-table'))).toMatch(/4 readings/);
    await intoView(span);
    await screenshot(page, 'budget-given', { fullPage: false });
    await checkAccess(page);
  });
});
