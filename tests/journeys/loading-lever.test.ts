/** The loading-lever sheet: started from the list, its weights dragged, its inverse read off. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, colours, intoView, screenshot, withPage } from './harness.ts';
import { expectNoLeaks, head, line, resultNumber, textOf, typed } from './sheet-page.ts';

const LEVER = { sheet: 'loading-lever.md' };

async function startFromList(page: Page): Promise<Locator> {
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
  await head(page).getByRole('button', { name: 'Loading lever with sliding weights, with the invented example' }).click();
  return leverOf(page);
}

async function leverOf(page: Page): Promise<Locator> {
  const lever = page.locator('[data-cell="lever"]');
  await intoView(lever);
  await lever.getByRole('slider', { name: 'First weight' }).waitFor();
  return lever;
}

async function fill(page: Page, symbol: string, text: string): Promise<void> {
  const blank = line(page, symbol).locator('.blanks').getByRole('textbox').first();
  await blank.fill(text);
  await blank.blur();
}

async function says(page: Page, check: string): Promise<string> {
  return textOf(page.locator(`[data-cell="${check}"]`));
}

const millimetres = async (page: Page, symbol: string): Promise<number> => Number.parseFloat((await typed(page, symbol))[0] ?? '');

describe('the loading lever', () => {
  test('a weight is dragged outwards: its place is typed, the load grows as W/h says, one undo takes it back', async () => {
    await withPage({}, async ({ page }) => {
      const lever = await startFromList(page);
      const [place, load] = [await millimetres(page, 'x_1'), await resultNumber(page, 'W')];
      const box = await lever.getByRole('slider', { name: 'First weight' }).boundingBox();
      if (box === null) throw new Error('the handle is not on the page');
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x - 20, y, { steps: 4 });
      await page.mouse.move(x - 40, y, { steps: 4 });
      await page.mouse.up();
      const by = (await millimetres(page, 'x_1')) - place;
      expect(by).toBeLessThan(-10);
      expect((by / 0.5) % 1).toBeCloseTo(0, 9);
      // 40 N over a hanger arm of 60 mm: two thirds of a newton per millimetre.
      expect((await resultNumber(page, 'W')) - load).toBeCloseTo((by * 40) / 60, 1);
      await screenshot(page, 'lever-dragged', { fullPage: false });
      await page.locator('.side').getByRole('button', { name: 'undo' }).click();
      expect(await millimetres(page, 'x_1')).toBe(place);
    });
  });

  test('by keyboard: arrow keys move a weight by a step of the rule, the counterweight the other way', async () => {
    await withPage(LEVER, async ({ page }) => {
      const lever = await leverOf(page);
      const [rider, counter] = [await millimetres(page, 'x_3'), await millimetres(page, 'h_c')];
      await lever.getByRole('slider', { name: 'Third weight' }).focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('Shift+ArrowRight');
      expect(await millimetres(page, 'x_3')).toBe(rider + 5.5);
      await lever.getByRole('slider', { name: 'Counterweight' }).focus();
      await page.keyboard.press('ArrowRight');
      // To the right is towards the fulcrum.
      expect(await millimetres(page, 'h_c')).toBe(counter - 0.5);
    });
  });

  test('on a phone: a wanted load that can’t be reached, then one that can; what the sheet says is typed and is right', async () => {
    await withPage({ ...LEVER, size: 'phone' }, async ({ page }) => {
      const lever = await leverOf(page);
      await screenshot(page, 'lever-phone', { fullPage: false });
      await fill(page, 'F_t', '500 N');
      await expect.poll(() => says(page, 'reachable')).toMatch(/Not within travel\..*nearest place is 450/);
      await expect.poll(() => textOf(lever.locator('.sentence'))).toContain('outside the travel');
      const outside = await resultNumber(page, 'x_w');
      await fill(page, 'F_t', '300 N');
      await expect.poll(() => says(page, 'reachable')).toContain('Set the weight to');
      await expect.poll(() => resultNumber(page, 'x_w')).not.toBe(outside);
      await fill(page, 'x_1', `${await resultNumber(page, 'x_w')} mm`);
      await expect.poll(() => resultNumber(page, 'W')).toBeCloseTo(300, 1);
      await intoView(line(page, 'x_w'));
      await screenshot(page, 'lever-inverse-phone', { fullPage: false });
      await expectNoLeaks(page);
    });
  });

  test('passes axe', async () => {
    for (const colorScheme of colours) {
      await withPage({ ...LEVER, colorScheme }, async ({ page }) => {
        await leverOf(page);
        await checkAccess(page);
        await screenshot(page, `lever-${colorScheme}`, { fullPage: false });
      });
    }
  });
});
