/** Parts on demand and folded sections, by keyboard and by touch; how long the main derivation is as the sheet opens. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { colours, intoView, screenshot, sizes, withPage } from './harness.ts';
import { line, textOf } from './sheet-page.ts';

const SETTLED = '.sheet.at-work .cell[data-symbol="N_f"] .quantity';

/** Screens from the heading before the spans' blanks to the line of the life, with every line laid out. */
async function screensOfDerivation(page: Page, height: number): Promise<number> {
  const length = await page.evaluate(async () => {
    const heading = [...document.querySelectorAll('.prose h2')].find((one) => one.textContent.includes('What was measured'));
    const life = document.querySelector('.cell[data-symbol="N_f"]');
    if (heading === undefined || life === null) return Number.NaN;
    // Lines out of view have a length by estimate until they come near.
    for (let y = 0; y < document.documentElement.scrollHeight; y += 500) {
      scrollTo(0, y);
      await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
    }
    return life.getBoundingClientRect().bottom - heading.getBoundingClientRect().top;
  });
  return length / height;
}

const aside = (page: Page, label: string) => page.getByRole('button', { name: label, exact: true });

describe('the main derivation, from spans to life', () => {
  test.each([['desktop', 6], ['phone', 12]] as const)('on a %s takes at most %i screens', async (size, most) => {
    await withPage({ size, partsAsTheyOpen: true }, async ({ page }) => {
      await page.locator(SETTLED).first().waitFor();
      const { height } = sizes[size].viewport;
      const screens = await screensOfDerivation(page, height);
      process.stdout.write(`main derivation, ${size}: ${screens.toFixed(2)} screens of ${height} px\n`);
      expect(screens).toBeLessThanOrEqual(most);
      await screenshot(page, `derivation-${size}`);
    });
  });
});

describe('a part on demand', () => {
  test('is closed, tells the outcome, opens by the keyboard and stays open', async () => {
    await withPage({ partsAsTheyOpen: true }, async ({ page }) => {
      await page.locator(SETTLED).first().waitFor();
      const opener = aside(page, 'Closure by least squares');
      expect(await opener.getAttribute('aria-expanded')).toBe('false');
      expect(await line(page, 's_1c').isVisible()).toBe(false);
      expect(await textOf(page.locator('.cell-aside').filter({ has: opener }).locator('.holds'))).toMatch(/101\.34\smm/);
      await opener.focus();
      await page.keyboard.press('Enter');
      await line(page, 's_1c').waitFor({ state: 'visible' });
      expect(await opener.getAttribute('aria-expanded')).toBe('true');
      expect(await opener.evaluate((one) => one === document.activeElement)).toBe(true);
      await page.reload();
      await page.locator(SETTLED).first().waitFor();
      // Nothing was typed: the sheet is another one, and as it comes.
      expect(await line(page, 's_1c').isVisible()).toBe(false);
    });
  });

  test('tells on its line what in it does not hold, and a press there opens it', async () => {
    await withPage({ size: 'phone', partsAsTheyOpen: true }, async ({ page }) => {
      await page.locator(SETTLED).first().waitFor();
      await line(page, 'F_0').locator('input').first().fill('20 N');
      const told = page.locator('.cell-aside').filter({ has: aside(page, 'The load otherwise') }).locator('.trouble');
      await told.waitFor();
      await told.getByRole('button').first().tap();
      await page.locator('[data-cell="zeroed"]').waitFor({ state: 'visible' });
      expect(await aside(page, 'The load otherwise').getAttribute('aria-expanded')).toBe('true');
    });
  });

  test('opens for whoever goes to a line in it, and is remembered with the sheet', async () => {
    for (const colorScheme of colours) {
      await withPage({ partsAsTheyOpen: true, colorScheme }, async ({ page }) => {
        await page.locator(SETTLED).first().waitFor();
        await line(page, 'd').locator('input').first().fill('7.50 mm');
        // The symbol of the notch factor in the equation of the life leads to its line.
        await intoView(line(page, 'N_f'));
        await line(page, 'N_f').focus();
        await line(page, 'N_f').locator('.reads .symbol-link').filter({ hasText: 'Fatigue notch factor' }).click();
        await line(page, 'K_f').waitFor({ state: 'visible' });
        await screenshot(page, `part-open-${colorScheme}`);
        await expect.poll(() => page.evaluate(() => localStorage.getItem('spanlife-folds') ?? '')).toContain('Strain and notch');
        await page.reload();
        await line(page, 'K_f').locator('.quantity').first().waitFor();
        expect(await aside(page, 'Strain and notch').getAttribute('aria-expanded')).toBe('true');
      });
    }
  });
});

describe('a section', () => {
  test.each(['desktop', 'phone'] as const)('folds at its number and opens for a line in it, on a %s', async (size) => {
    await withPage({ size }, async ({ page }) => {
      await page.locator(SETTLED).first().waitFor();
      const folder = page.getByRole('button', { name: 'Section “Free body and reactions”' });
      await folder.focus();
      await page.keyboard.press('Enter');
      expect([await folder.getAttribute('aria-expanded'), await line(page, 'R_A').isVisible(), await line(page, 'M_s').isVisible()]).toEqual(['false', false, true]);
      await folder.press('Enter');
      expect(await line(page, 'R_A').isVisible()).toBe(true);
    });
  });
});
