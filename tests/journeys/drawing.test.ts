/** The free-body drawing is a control. Readings are the record: what is dragged in it moves a trial value beside them. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, intoView, screenshot, SHORT, withPage } from './harness.ts';
import { line, resultNumber, textOf, typed } from './sheet-page.ts';

function freeBody(page: Page): Locator {
  return page.locator('[data-cell="free-body"]');
}

async function handle(page: Page, name: string): Promise<Locator> {
  const knob = freeBody(page).getByRole('slider', { name });
  await intoView(freeBody(page));
  await knob.waitFor();
  return knob;
}

const place = async (knob: Locator): Promise<number> => Number(await knob.getAttribute('aria-valuenow'));

const millimetres = (readings: readonly string[]): number[] => readings.map((text) => Number.parseFloat(text));

/** The trial value at the line of a given, mm; undefined where none stands. */
async function trial(page: Page, symbol: string): Promise<number | undefined> {
  const told = line(page, symbol).locator('.trial-here');
  return (await told.count()) === 0 ? undefined : Number(/^Trial value ([\d.]+) mm/.exec(await textOf(told))?.[1]);
}

/** What stands in every blank of every given. */
async function written(page: Page): Promise<string[]> {
  // As delivered a sheet has no blanks, and lines out of view are drawn later, in their order: the last given is there when all are.
  await expect.poll(() => page.locator('[data-symbol="N_obs"] input.blank').count()).toBe(1);
  return page.evaluate(() => [...document.querySelectorAll<HTMLInputElement>('.cell-given input.blank')].map(({ value }) => value));
}

const band = (page: Page): Locator => page.locator('.title-block .trial-band');

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
  test('a load point is dragged: trial values of its two spans change oppositely, the readings and all else stay, one undo takes it back', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const left = await handle(page, 'Left load point');
      const right = freeBody(page).getByRole('slider', { name: 'Right load point' });
      const before = { right: await place(right), reaction: await resultNumber(page, 'R_A'), written: await written(page) };
      await drag(page, left, 40);
      await expect.poll(() => trial(page, 's_1')).toBeGreaterThan(106);
      // The means of the readings are 101.25 and 199.625 mm, and the rule that measured them shows half millimetres.
      const by = ((await trial(page, 's_1')) ?? 0) - 101.25;
      expect((by / 0.5) % 1).toBe(0);
      expect(await trial(page, 's_2')).toBe(199.625 - by);
      expect(await trial(page, 's_3')).toBeUndefined();
      expect(await written(page)).toEqual(before.written);
      expect(await place(right)).toBeCloseTo(before.right, 6);
      // The load has moved away from the left support, so the left reaction has become smaller.
      expect(await resultNumber(page, 'R_A')).toBeLessThan(before.reaction);
      expect(await textOf(band(page))).toMatch(/^2 trial values stand in place of what was measured/);
      await screenshot(page, 'drawing-dragged', { fullPage: false });
      await page.locator('.side').getByRole('button', { name: 'undo' }).click();
      await expect.poll(() => trial(page, 's_1')).toBeUndefined();
      expect(await band(page).count()).toBe(0);
      expect(await resultNumber(page, 'R_A')).toBe(before.reaction);
    });
  });

  test('put back with one press: at the head, at the line, below the drawing, and with Escape at the handle', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const left = await handle(page, 'Left load point');
      const reaction = await resultNumber(page, 'R_A');
      const tried = async (): Promise<void> => {
        await left.focus();
        await page.keyboard.press('Shift+ArrowRight');
        await expect.poll(() => trial(page, 's_1')).toBe(106.25);
      };
      const backAtOnce = async (): Promise<void> => {
        await expect.poll(() => Promise.all([trial(page, 's_1'), trial(page, 's_2')])).toEqual([undefined, undefined]);
        expect(await resultNumber(page, 'R_A')).toBe(reaction);
      };
      await tried();
      await checkAccess(page);
      await band(page).getByRole('button', { name: 'put all back' }).click();
      await backAtOnce();
      await tried();
      await freeBody(page).locator('.trial-here').getByRole('button', { name: 'put all back' }).click();
      await backAtOnce();
      await tried();
      await left.focus();
      await page.keyboard.press('Escape');
      await backAtOnce();
      await tried();
      await line(page, 's_1').getByRole('button', { name: 'put back' }).click();
      await expect.poll(() => trial(page, 's_1')).toBeUndefined();
      expect(await trial(page, 's_2')).toBe(194.625);
    });
  });

  test('arrow keys move by one step of the instrument, with Shift by ten', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const before = await written(page);
      const left = await handle(page, 'Left load point');
      await left.focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowRight');
      await expect.poll(() => trial(page, 's_1')).toBe(102.25);
      expect(await trial(page, 's_2')).toBe(198.625);
      await page.keyboard.press('Shift+ArrowLeft');
      await expect.poll(() => trial(page, 's_1')).toBe(97.25);
      expect(await trial(page, 's_2')).toBe(203.625);
      expect(await written(page)).toEqual(before);
      await expect.poll(() => left.evaluate((element) => element === document.activeElement)).toBe(true);
      await screenshot(page, 'drawing-keys', { fullPage: false });
    });
  });

  test('the section goes no further than the supports, by keys and by drag, and keeps its handle', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const section = await handle(page, 'Section');
      await drag(page, section, -700);
      await expect.poll(async () => millimetres(await typed(page, 'x_s'))).toEqual([0]);
      await section.focus();
      await page.keyboard.press('ArrowLeft');
      await page.keyboard.press('Shift+ArrowLeft');
      expect(millimetres(await typed(page, 'x_s'))).toEqual([0]);
      await drag(page, section, 1400);
      await expect.poll(async () => millimetres(await typed(page, 'x_s'))).toEqual([401.5]);
      await section.focus();
      await page.keyboard.press('Shift+ArrowRight');
      expect(millimetres(await typed(page, 'x_s'))).toEqual([401.5]);
      expect(await section.isVisible()).toBe(true);
    });
  });

  test('the section moves, and the moment with it; the diagrams and the words follow', async () => {
    await withPage({ sheet: SHORT, size: 'phone', colorScheme: 'dark' }, async ({ page }) => {
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
      await intoView(page.locator('[data-cell="shear-moment"]'));
      await screenshot(page, 'drawing-diagrams-phone-dark', { fullPage: false });
    });
  });

  test('a figure on a dimension line is typed over: a trial value beside its readings', async () => {
    await withPage({}, async ({ page }) => {
      const before = await written(page);
      await handle(page, 'Left load point');
      await freeBody(page).getByRole('button', { name: 'Type over Left support to left load point' }).click();
      await page.keyboard.press('Control+A');
      await page.keyboard.type('120 mm');
      await page.keyboard.press('Enter');
      await expect.poll(() => trial(page, 's_1')).toBe(120);
      expect(await written(page)).toEqual(before);
      expect(await textOf(line(page, 'l_1').locator('.result .quantity'))).toMatch(/^120\.0+ mm$/);
      await page.locator('.side').getByRole('button', { name: 'undo' }).click();
      await expect.poll(() => trial(page, 's_1')).toBeUndefined();
    });
  });
});
