/** The free-body drawing is a control: what is dragged in it edits the same givens. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { screenshot, withPage } from './harness.ts';
import { line, resultNumber, textOf, typed } from './sheet-page.ts';

function freeBody(page: Page): Locator {
  return page.locator('[data-cell="free-body"]');
}

async function handle(page: Page, name: string): Promise<Locator> {
  const knob = freeBody(page).getByRole('slider', { name });
  await freeBody(page).scrollIntoViewIfNeeded();
  await knob.waitFor();
  return knob;
}

const place = async (knob: Locator): Promise<number> => Number(await knob.getAttribute('aria-valuenow'));

const millimetres = (readings: readonly string[]): number[] => readings.map((text) => Number.parseFloat(text));

const shifted = (readings: readonly number[], by: number): number[] => readings.map((reading) => reading + by);

async function drag(page: Page, knob: Locator, by: number): Promise<void> {
  const box = await knob.boundingBox();
  if (box === null) throw new Error('the handle is not on the page');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + by / 2, y, { steps: 4 });
  await page.mouse.move(x + by, y, { steps: 4 });
  await page.mouse.up();
}

describe('the drawing', () => {
  test('a load point is dragged: its two spans change oppositely, everything else stays, one undo takes it back', async () => {
    await withPage({}, async ({ page }) => {
      const left = await handle(page, 'Left load point');
      const right = freeBody(page).getByRole('slider', { name: 'Right load point' });
      const before = { s1: millimetres(await typed(page, 's_1')), s2: millimetres(await typed(page, 's_2')), right: await place(right), reaction: await resultNumber(page, 'R_A') };
      const texts = [await typed(page, 's_1'), await typed(page, 's_2'), await typed(page, 's_3')];
      await drag(page, left, 40);
      const s1 = millimetres(await typed(page, 's_1'));
      const by = (s1[0] ?? 0) - (before.s1[0] ?? 0);
      expect(by).toBeGreaterThan(5);
      // The rule that measured the spans shows half millimetres.
      expect((by / 0.5) % 1).toBe(0);
      expect(s1).toEqual(shifted(before.s1, by));
      expect(millimetres(await typed(page, 's_2'))).toEqual(shifted(before.s2, -by));
      expect(await typed(page, 's_3')).toEqual(texts[2]);
      expect(await place(right)).toBeCloseTo(before.right, 6);
      // The load has moved away from the left support, so the left reaction has become smaller.
      expect(await resultNumber(page, 'R_A')).toBeLessThan(before.reaction);
      await screenshot(page, 'drawing-dragged', { fullPage: false });
      await page.locator('.title-block').getByRole('button', { name: 'undo' }).click();
      expect([await typed(page, 's_1'), await typed(page, 's_2'), await typed(page, 's_3')]).toEqual(texts);
    });
  });

  test('arrow keys move by one step of the instrument, with Shift by ten', async () => {
    await withPage({}, async ({ page }) => {
      const before = [millimetres(await typed(page, 's_1')), millimetres(await typed(page, 's_2'))] as const;
      const left = await handle(page, 'Left load point');
      await left.focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowRight');
      expect(millimetres(await typed(page, 's_1'))).toEqual(shifted(before[0], 1));
      expect(millimetres(await typed(page, 's_2'))).toEqual(shifted(before[1], -1));
      await page.keyboard.press('Shift+ArrowLeft');
      expect(millimetres(await typed(page, 's_1'))).toEqual(shifted(before[0], -4));
      expect(millimetres(await typed(page, 's_2'))).toEqual(shifted(before[1], 4));
      await expect.poll(() => left.evaluate((element) => element === document.activeElement)).toBe(true);
      await screenshot(page, 'drawing-keys', { fullPage: false });
    });
  });

  test('the section moves, and the moment with it; the diagrams and the words follow', async () => {
    await withPage({ size: 'phone', colorScheme: 'dark' }, async ({ page }) => {
      const section = await handle(page, 'Section');
      const from = await place(section);
      await section.focus();
      for (let i = 0; i < 10; i += 1) await page.keyboard.press('Shift+ArrowLeft');
      expect(await place(section)).toBeCloseTo(from - 50, 6);
      expect(millimetres(await typed(page, 'x_s'))).toEqual([150.5]);
      // Between the left support and the left load point the moment is R_A x (statics).
      for (let i = 0; i < 20; i += 1) await page.keyboard.press('Shift+ArrowLeft');
      const [moment, reaction] = [await resultNumber(page, 'M_s'), await resultNumber(page, 'R_A')];
      expect(moment / (reaction * 0.0505)).toBeCloseTo(1, 2);
      expect(await textOf(freeBody(page).locator('svg desc').first())).toMatch(/section is at x ?s = 50\.50? mm/);
      await screenshot(page, 'drawing-section-phone-dark', { fullPage: false });
      await page.locator('[data-cell="shear-moment"]').scrollIntoViewIfNeeded();
      await screenshot(page, 'drawing-diagrams-phone-dark', { fullPage: false });
    });
  });

  test('a figure on a dimension line is typed over', async () => {
    await withPage({}, async ({ page }) => {
      await handle(page, 'Left load point');
      await freeBody(page).getByRole('button', { name: 'Type over Left support to left load point' }).click();
      await page.keyboard.press('Control+A');
      await page.keyboard.type('120 mm');
      await page.keyboard.press('Enter');
      expect(await typed(page, 's_1')).toEqual(['120 mm']);
      expect(await textOf(line(page, 'l_1').locator('.result .quantity'))).toMatch(/^120\.0+ mm$/);
      await page.locator('.title-block').getByRole('button', { name: 'undo' }).click();
      // A line out of view is drawn after those in view.
      await expect.poll(async () => (await typed(page, 's_1')).length).toBeGreaterThan(1);
    });
  });
});
