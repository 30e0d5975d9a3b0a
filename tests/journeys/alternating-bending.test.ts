/** The alternating-bending sheet: its stroke dragged, the way it is held changed, its blocks summed. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, intoView, screenshot, withPage } from './harness.ts';
import { expectNoLeaks, head, line, resultNumber, textOf, typed } from './sheet-page.ts';

const EXAMPLE = { sheet: 'alternating-bending.md' };

async function setUp(page: Page): Promise<Locator> {
  const figure = page.locator('[data-cell="set-up"]');
  await intoView(figure);
  return figure;
}

async function fill(page: Page, symbol: string, text: string): Promise<void> {
  const all = line(page, symbol).locator('.blanks').getByRole('textbox');
  for (let i = (await all.count()) - 1; i > 0; i -= 1) await all.nth(i).fill('');
  await all.first().fill(text);
  await all.first().blur();
}

async function choose(page: Page, cell: string, label: string): Promise<void> {
  const choice = page.locator(`[data-cell="${cell}"]`);
  const list = choice.getByRole('combobox');
  if ((await list.count()) > 0) await list.selectOption({ label });
  else await choice.getByRole('radio', { name: label }).check();
}

const readingOf = async (page: Page, symbol: string): Promise<number> => Number.parseFloat((await typed(page, symbol))[0] ?? '');

const trial = async (page: Page, symbol: string): Promise<number> => Number(/^Trial value (\S+) mm/.exec(await textOf(line(page, symbol).locator('.trial-here').first()))?.[1]);

const said = (page: Page, cell: string): Promise<string> => textOf(page.locator(`[data-cell="${cell}"]`));

describe('the alternating-bending sheet', () => {
  test('the upper end of the stroke is dragged: a trial value moves beside the readings, the stress grows as the stroke does, one undo takes it back', async () => {
    await withPage(EXAMPLE, async ({ page }) => {
      const figure = await setUp(page);
      const end = figure.getByRole('slider', { name: 'Upper end of the stroke' });
      await end.waitFor();
      const [reading, stroke, stress] = [await readingOf(page, 'z_2'), await resultNumber(page, 'Delta'), await resultNumber(page, 'sigma_a')];
      const box = await end.boundingBox();
      if (box === null) throw new Error('the handle is not on the page');
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x, y - 5, { steps: 3 });
      await page.mouse.move(x, y - 10, { steps: 3 });
      await page.mouse.up();
      await expect.poll(() => trial(page, 'z_2')).toBeGreaterThan(15.5);
      // The mean of the readings is 15.44 mm.
      const by = (await trial(page, 'z_2')) - 15.44;
      expect(await readingOf(page, 'z_2')).toBe(reading);
      expect(by).toBeGreaterThan(0.5);
      expect((await resultNumber(page, 'Delta')) - stroke).toBeCloseTo(by, 2);
      expect((await resultNumber(page, 'sigma_a')) / stress).toBeCloseTo(1 + by / stroke, 2);
      await screenshot(page, 'alternating-dragged', { fullPage: false });
      await page.locator('.side').getByRole('button', { name: 'undo' }).click();
      await expect.poll(() => line(page, 'z_2').locator('.trial-here').count()).toBe(0);
      await end.focus();
      await page.keyboard.press('ArrowDown');
      await expect.poll(() => trial(page, 'z_2')).toBe(15.43);
    });
  });

  test('another way of holding it changes the formula, the stress, the place of fracture and both drawings', async () => {
    await withPage(EXAMPLE, async ({ page }) => {
      const figure = await setUp(page);
      const stress = await resultNumber(page, 'sigma_a');
      await choose(page, 'support', 'on two supports, driven at mid-span (three-point)');
      expect((await resultNumber(page, 'sigma_a')) / stress).toBeCloseTo(4, 2);
      await figure.locator('.sentence').filter({ hasText: 'driven up and down at mid-span' }).waitFor();
      expect(await said(page, 'stress-along')).toContain('at mid-span');
      expect(await resultNumber(page, 'x_max')).toBeCloseTo(40.06, 1);
      expect(await said(page, 'elastic')).toContain('pseudo-stress');
      await choose(page, 'life_by', 'the strain-life line');
      expect(await resultNumber(page, 'N_f')).toBeGreaterThan(10);
    });
  });

  test('a row more in the blocks: the damage sum grows and the life left shrinks', async () => {
    await withPage(EXAMPLE, async ({ page }) => {
      await setUp(page);
      const table = page.locator('[data-cell="blocks"]');
      const before = table.locator('.result .before').nth(1);
      // Equations are set where the reader looks, and what is set above moves the rest.
      await expect.poll(async () => {
        await intoView(before);
        return before.textContent();
      }, { timeout: 15_000 }).toMatch(/D\s*M/);
      const left = await resultNumber(page, 'N_r');
      const cycles = table.getByRole('textbox', { name: 'Cycles applied, row 2' });
      await cycles.fill('12000');
      await cycles.press('Enter');
      await expect.poll(() => resultNumber(page, 'N_r')).toBeLessThan(left);
      expect(await said(page, 'damage')).toContain('20');
      await screenshot(page, 'alternating-blocks', { fullPage: false });
    });
  });

  test('on a phone: readings typed, checklist ticked, nothing runs off the page, accessible', async () => {
    await withPage({ ...EXAMPLE, size: 'phone' }, async ({ page }) => {
      await setUp(page);
      await page.locator('[data-cell="before-start"]').getByRole('checkbox').first().check();
      await fill(page, 'z_1', '9.40');
      expect(await resultNumber(page, 'Delta')).toBeCloseTo(6.04, 2);
      expect(await said(page, 'stroke-as-set')).toContain('further off than their uncertainty');
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
      await expectNoLeaks(page);
      await checkAccess(page);
      await screenshot(page, 'alternating-phone', { fullPage: false });
    });
  });

  test('blanks empty: no reading is left, and the sheet says what it waits for', async () => {
    await withPage({}, async ({ page }) => {
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
      await page.getByRole('button', { name: 'Alternating plane bending, blank' }).click();
      await setUp(page);
      expect(await typed(page, 'z_1')).toEqual(['']);
      expect(await said(page, 'Delta')).toContain('waits for');
      await fill(page, 'z_1', '-3 mm');
      await fill(page, 'z_2', '3 mm');
      expect(await resultNumber(page, 'Delta')).toBe(6);
      await checkAccess(page);
    });
  });
});
