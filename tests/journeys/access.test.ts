/** For everyone: axe in every state, equations as MathML, zoom, and narrow windows. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { checkAccess, colours, intoView, screenshot, SHORT, sizes, withPage } from './harness.ts';
import { focus } from './keyboard.ts';
import { blanks, fill, head, line, scrollThrough, textOf } from './sheet-page.ts';

async function expectNoSidewaysScroll(page: Page): Promise<void> {
  const over = await page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= width) return [];
    return [...document.querySelectorAll('body *')]
      .filter((element) => element.getBoundingClientRect().right > width + 1 && element.closest('.katex') === null)
      .slice(0, 8)
      .map((element) => `${element.tagName}.${element.getAttribute('class') ?? ''} in ${element.closest('[data-cell]')?.getAttribute('data-cell') ?? 'the head'} to ${Math.round(element.getBoundingClientRect().right)} of ${width}`);
  });
  expect(over).toEqual([]);
}

describe('access', () => {
  for (const size of Object.keys(sizes) as (keyof typeof sizes)[]) {
    for (const colorScheme of colours) {
      test(`axe is content with the sheet, its menus, an error and own working: ${size}, ${colorScheme}`, async () => {
        await withPage({ size, colorScheme }, async ({ page }) => {
          await scrollThrough(page);
          await checkAccess(page);
          await fill(page, 'd', '6.35 kg');
          await line(page, 'd').focus();
          await line(page, 'd').getByRole('button', { name: /^What can be done with/ }).click();
          await page.getByRole('menu').waitFor();
          await screenshot(page, `access-menu-${size}-${colorScheme}`, { fullPage: false });
          await checkAccess(page);
          await page.keyboard.press('Escape');
          await fill(page, 'd', '7 mm');
          await intoView(line(page, 'sigma_a'));
          await line(page, 'sigma_a').hover();
          await line(page, 'sigma_a').focus();
          for (const opener of ['back to the inputs', 'uncertainty budget']) await line(page, 'sigma_a').getByRole('button', { name: opener }).click();
          await screenshot(page, `access-budget-${size}-${colorScheme}`, { fullPage: false });
          await page.locator('.title-block').getByRole('checkbox', { name: 'hide results until I have worked them out' }).check();
          await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
          await screenshot(page, `access-sheets-${size}-${colorScheme}`, { fullPage: false });
          await checkAccess(page);
        });
      });
    }
  }

  test('the first Tab offers the way past the head to the first blank', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await blanks(page, 'L').first().waitFor({ state: 'attached' });
      await head(page).getByRole('button', { name: 'to the first blank' }).waitFor({ state: 'attached' });
      await page.keyboard.press('Tab');
      expect((await focus(page)).name).toBe('to the first blank');
      await page.keyboard.press('Enter');
      expect((await focus(page)).tag).toBe('INPUT');
      expect(await page.locator('.sheet.at-work input[data-measured]').first().evaluate((one) => one === document.activeElement)).toBe(true);
    });
  });

  test('each equation stands there as MathML too', async () => {
    await withPage({}, async ({ page }) => {
      await scrollThrough(page);
      const [drawn, spoken] = [await page.locator('.katex-html').count(), await page.locator('.katex math').count()];
      expect(spoken).toBe(drawn);
      expect(spoken).toBeGreaterThan(100);
      expect(await textOf(line(page, 'R_A').locator('.symbols math mfrac').first())).toMatch(/F/);
    });
  });

  test('nothing makes the page scroll sideways: 360 px wide, 200 % zoom of 1440 px, 400 % zoom of 1280 px (WCAG 2.2, 1.4.10)', async () => {
    await withPage({ context: { viewport: { width: 360, height: 780 }, deviceScaleFactor: 1 } }, async ({ page }) => {
      for (const width of [360, 720, 320]) {
        await page.setViewportSize({ width, height: 780 });
        await scrollThrough(page);
        await expectNoSidewaysScroll(page);
        await fill(page, 'd', '6.35 kg');
        await head(page).getByRole('button', { name: 'Take away', exact: true }).click();
        await expectNoSidewaysScroll(page);
        await screenshot(page, `access-${width}`, { fullPage: false });
        await intoView(line(page, 'N_f'));
        await screenshot(page, `access-${width}-life`, { fullPage: false });
        await head(page).getByRole('button', { name: 'Take away', exact: true }).click();
        await fill(page, 'd', '7 mm');
      }
    });
  });

  test('what is touched on a phone is at least 44 px high', async () => {
    await withPage({ size: 'phone' }, async ({ page }) => {
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
      await scrollThrough(page);
      const small = await page.locator('.head button, .blanks input, select').evaluateAll((controls) =>
        controls
          .filter((control) => control.checkVisibility({ contentVisibilityAuto: true }))
          .map((control) => ({ name: control.getAttribute('aria-label') ?? control.textContent?.trim() ?? '', height: control.getBoundingClientRect().height }))
          .filter(({ height }) => height > 0 && height < 44));
      expect(small).toEqual([]);
    });
  });
});
