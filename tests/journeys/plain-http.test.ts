/** A page over plain http in a laboratory's network is no secure context: what comes with one alone is missing there. */
import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { extractDocument, statedFingerprint } from '../../src/report/embedded.ts';
import { asItOpens, download, SHORT } from './harness.ts';
import { chooseTakeaway, line } from './sheet-page.ts';

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

test('what is taken away states its fingerprint, which the browser reckons in a secure context alone', async () => {
  await asItOpens({ sheet: SHORT, before: () => Object.defineProperty(Crypto.prototype, 'subtle', { value: undefined }) }, async ({ page }) => {
    await line(page, 'sigma_a').locator('.result').first().waitFor();
    const { text } = await download(page, () => chooseTakeaway(page, 'Working file'));
    const held = extractDocument(text);
    if (!held.ok) throw new Error(held.problem.what);
    expect(statedFingerprint(text)).toBe(createHash('sha256').update(held.value).digest('hex'));
  });
});
