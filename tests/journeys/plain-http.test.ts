/** A page over plain http in a laboratory's network is no secure context: what comes with one alone is missing there. */
import { expect, test } from 'vitest';
import { asItOpens, SHORT } from './harness.ts';
import { line } from './sheet-page.ts';

test('a result is copied as LaTeX without the clipboard that a secure context has', async () => {
  await asItOpens({ sheet: SHORT, before: () => Object.defineProperty(Navigator.prototype, 'clipboard', { value: undefined }) }, async ({ page }) => {
    const cell = line(page, 'sigma_a');
    await cell.locator('.result').first().waitFor();
    await page.evaluate(() => document.addEventListener('copy', () => Object.assign(window, { copied: (document.activeElement as HTMLTextAreaElement).value })));
    await cell.getByRole('button', { name: /^What can be done with/ }).press('Enter');
    await page.getByRole('menuitem', { name: /copy as LaTeX/ }).press('Enter');
    await page.locator('[aria-live="polite"]').filter({ hasText: 'Copied as LaTeX.' }).waitFor({ state: 'attached' });
    expect(await page.evaluate(() => (window as unknown as { copied: string }).copied)).toContain('\\sigma_');
  });
});
