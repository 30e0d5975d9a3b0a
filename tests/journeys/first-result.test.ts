/** From opening the page to a result of one's own: how many actions that takes. An action is a press, a tap, or one blank filled with its value. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { focus } from './keyboard.ts';
import { withPage } from './harness.ts';
import { blanks, head, line, textOf } from './sheet-page.ts';

const MINE = { L: '400', s_1: '100', s_2: '200', s_3: '100', x_s: '200', d: '7.5', F: '314', F_0: '0' } as const;
/** 32 M/(πd³) with M = 314 N/2 · 100 mm: 379.07 MPa. */
const STRESS = (32 * 157 * 100) / (Math.PI * 7.5 ** 3);
const MOST = 30;

const stressOf = async (page: Page): Promise<number> => Number(/[\d.]+/.exec((await textOf(line(page, 'sigma_a').locator('.result .quantity'))))?.[0]);

/** Nothing is flagged, and nothing asks to be mended, in a sheet that somebody has just begun. */
async function isQuiet(page: Page): Promise<void> {
  expect(await page.locator('.cell .problem, .cell-check.fails').count()).toBe(0);
  expect(await page.locator('.attention').getByText('To be mended').count()).toBe(0);
  expect(await page.locator('main').getByText('NaN').count()).toBe(0);
}

describe('a first result of my own', () => {
  test('with the keyboard alone, at 1440 by 900', async () => {
    await withPage({ context: { viewport: { width: 1440, height: 900 } }, partsAsTheyOpen: true }, async ({ page }) => {
      await line(page, 'd').locator('input').first().waitFor();
      let actions = 1;
      const press = async (key: string): Promise<void> => { await page.keyboard.press(key); actions += 1; };
      const tabTo = async (name: RegExp): Promise<void> => {
        for (let i = 0; i < 14 && !name.test((await focus(page)).name); i += 1) await press('Tab');
      };
      await tabTo(/^Start my own blank sheet$/);
      await press('Enter');
      await expect.poll(() => blanks(page, 'd').first().inputValue()).toBe('');
      expect((await focus(page)).name).toBe('to the first blank');
      await press('Enter');
      await isQuiet(page);
      const wanted = new Map<string, string>(Object.entries(MINE));
      for (let i = 0; i < 24 && wanted.size > 0; i += 1) {
        const at = await page.evaluate(() => document.activeElement?.closest('[data-symbol]')?.getAttribute('data-symbol') ?? '');
        const mine = wanted.get(at);
        if (mine === undefined) await press('Enter');
        else {
          // Enter enters it, and goes on to the next blank.
          await page.keyboard.type(`${mine}\n`);
          actions += 1;
          wanted.delete(at);
        }
      }
      await expect.poll(() => stressOf(page)).toBeCloseTo(STRESS, 0);
      process.stdout.write(`first result of one's own, keyboard: ${actions} actions\n`);
      expect(actions).toBeLessThanOrEqual(MOST);
      await isQuiet(page);
    });
  });

  test('by touch, at 390 by 844, and on to the life', async () => {
    await withPage({ size: 'phone', partsAsTheyOpen: true }, async ({ page }) => {
      await line(page, 'd').locator('input').first().waitFor();
      let actions = 1;
      const tap = async (name: string): Promise<void> => { await head(page).getByRole('button', { name, exact: true }).tap(); actions += 1; };
      await tap('Sheets');
      await tap('Rotating bending, blank');
      await expect.poll(() => blanks(page, 'd').first().inputValue()).toBe('');
      for (const [symbol, text] of Object.entries(MINE)) {
        await blanks(page, symbol).first().tap();
        await blanks(page, symbol).first().fill(text);
        actions += 2;
      }
      await expect.poll(() => stressOf(page)).toBeCloseTo(STRESS, 0);
      process.stdout.write(`first result of one's own, touch: ${actions} actions\n`);
      expect(actions).toBeLessThanOrEqual(MOST);
      await isQuiet(page);
      await page.getByLabel('Material', { exact: true }).selectOption('1045-cold-drawn');
      actions += 2;
      await expect.poll(() => line(page, 'N_f').locator('.result .quantity').count()).toBe(1);
      process.stdout.write(`and the life, touch: ${actions} actions\n`);
      expect(actions).toBeLessThanOrEqual(MOST);
    });
  });
});
