/** The whole main job without a pointer. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens, download, screenshot, SHORT, withPage } from './harness.ts';
import { focus, tabTo, type Focus } from './keyboard.ts';
import { blanks, head, line, result, resultNumber, textOf, typed } from './sheet-page.ts';
import { untilDrawn } from './tap-watch.ts';

const inBlank = (symbol: string) => (now: Focus) => now.symbol === symbol && now.tag === 'INPUT';

const cellOrder = (page: Page): Promise<string[]> =>
  page.locator('[data-cell]').evaluateAll((cells) => cells.map((cell) => (cell as HTMLElement).dataset['cell'] ?? ''));

/** Chooses by letter from the menu of the line with the focus. */
async function choose(page: Page, ...letters: string[]): Promise<void> {
  await page.keyboard.press('Control+.');
  await page.getByRole('menu').waitFor();
  for (const letter of letters) await page.keyboard.press(letter);
}

describe('with the keyboard only', () => {
  test('the main job: fill, read, undo, take away, start another', async () => {
    await asItOpens({ sheet: SHORT }, async ({ page }) => {
      const before = await resultNumber(page, 'sigma_a');
      await tabTo(page, inBlank('L'));
      for (const [symbol, text] of [['L', '410 mm'], ['s_1', '105 mm'], ['s_2', '200 mm'], ['s_3', '105 mm'], ['x_s', '205 mm'], ['d', '7.00 mm']] as const) {
        const count = await blanks(page, symbol).count();
        for (let i = 0; i < count; i += 1) {
          expect(await focus(page)).toMatchObject({ symbol, tag: 'INPUT' });
          await page.keyboard.press('Control+A');
          await page.keyboard.type(text);
          await page.keyboard.press('Enter');
        }
      }
      expect(new Set(await typed(page, 's_3'))).toEqual(new Set(['105 mm']));
      // 32 M / (π d³) with M = W/2 · 105 mm: bending of a round bar, any textbook.
      const expected = (32 * (308.5 / 2) * 0.105) / (Math.PI * 0.007 ** 3) / 1e6;
      await expect.poll(async () => (await resultNumber(page, 'sigma_a')) / expected).toBeCloseTo(1, 3);
      await page.keyboard.press('Control+Z');
      await expect.poll(async () => (await typed(page, 'd')).at(-1)).toBe('7.52 mm');
      expect(await resultNumber(page, 'sigma_a')).not.toBeCloseTo(before, 0);

      const shift = (reached: (now: Focus) => boolean) => tabTo(page, reached, 'Shift+Tab');
      await shift(({ name }) => name === 'Take away');
      await page.keyboard.press('Enter');
      await tabTo(page, ({ name }) => name === 'Document');
      const saved = await download(page, () => page.keyboard.press('Enter'));
      expect(saved.name).toMatch(/\.md$/);
      expect((await focus(page)).name).toBe('Take away');
      await page.keyboard.press('Enter');
      await page.keyboard.press('Tab');
      await page.keyboard.press('Escape');
      expect(await focus(page)).toMatchObject({ tag: 'BUTTON', name: 'Take away' });
      expect(await head(page).getByRole('button', { name: 'Document', exact: true }).isVisible()).toBe(false);
      await page.keyboard.press('Shift+Tab');
      await page.keyboard.press('Enter');
      await tabTo(page, ({ name }) => name === 'An empty sheet');
      await page.keyboard.press('Enter');
      await expect.poll(() => page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).inputValue()).toBe('New sheet');
    });
  });

  test('cells: own text with live preview, add, move, duplicate, delete, undo', async () => {
    await asItOpens({ sheet: SHORT }, async ({ page }) => {
      await tabTo(page, inBlank('n'));
      const order = await cellOrder(page);
      // A step is added below the speed; its own text opens.
      await choose(page, 'w', 's');
      await expect.poll(async () => (await focus(page)).tag).toBe('TEXTAREA');
      await page.keyboard.press('Control+A');
      await page.keyboard.type('symbol: omega\nlabel: Angular speed\nformula: 2*pi*n\nunit: 1/s\n');
      await expect.poll(() => line(page, 'omega').count()).toBe(1);
      // 2π·2800/60 s⁻¹
      await expect.poll(() => resultNumber(page, 'omega')).toBeCloseTo(293.2, 0);
      expect((await focus(page)).tag).toBe('TEXTAREA');
      await screenshot(page, 'keyboard-own-text', { fullPage: false });
      // What is typed next is wrong: it is said while one types, and the text stays.
      await page.keyboard.type('formula2: [');
      await expect.poll(() => textOf(line(page, 'omega'))).toMatch(/line \d/i);
      // Behind the text stands the way to the line that is wrong, then what ends it.
      await page.keyboard.press('Tab');
      await expect.poll(async () => (await focus(page)).name).toMatch(/^line \d/);
      await page.keyboard.press('Tab');
      await expect.poll(async () => (await focus(page)).name).toBe('Done');
      for (let i = 0; i < 2; i += 1) await page.keyboard.press('Shift+Tab');
      for (let i = 0; i < 'formula2: ['.length; i += 1) await page.keyboard.press('Backspace');
      await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');
      const added = (await focus(page)).cell;
      expect(await textOf(line(page, 'omega').locator('.problem'))
        .catch(() => '')).toBe('');
      expect(await cellOrder(page)).toHaveLength(order.length + 1);

      const at = (await cellOrder(page)).indexOf(added);
      await page.keyboard.press('Alt+ArrowUp');
      await expect.poll(async () => (await cellOrder(page)).indexOf(added)).toBe(at - 1);
      expect((await focus(page)).cell).toBe(added);
      await choose(page, 'n');
      await expect.poll(async () => (await cellOrder(page)).indexOf(added)).toBe(at);

      await choose(page, 'p');
      await expect.poll(async () => (await cellOrder(page)).length).toBe(order.length + 2);
      expect(await line(page, 'omega').count() + await page.locator('[data-symbol^="omega_"], [data-symbol^="omega2"]').count()).toBe(2);
      await page.keyboard.press('Control+Z');
      await expect.poll(async () => (await cellOrder(page)).length).toBe(order.length + 1);

      await line(page, 'omega').focus();
      await choose(page, 'e');
      await expect.poll(async () => cellOrder(page)).toEqual(order);
      expect((await focus(page)).cell).not.toBe('');
      await page.keyboard.press('Control+Z');
      await expect.poll(() => result(page, 'omega')).toMatch(/^293\.2/);

      await line(page, 'omega').focus();
      await page.keyboard.press('Control+.');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Escape');
      await expect.poll(async () => (await focus(page)).cell).toBe(added);
      await page.keyboard.press('Control+.');
      await page.keyboard.press('Tab');
      await expect.poll(() => page.getByRole('menu').count()).toBe(0);
    });
  });

  test.each([SHORT, 'sn-line.md'])('Tab goes through all of %s and out of it, forwards and backwards', async (sheet) => {
    await withPage({ sheet }, async ({ page }) => {
      // The page as delivered has no controls; they come when it goes live, and out of view last.
      await untilDrawn(page);
      const controls = await cellsWithControls(page);
      expect(controls.length).toBeGreaterThan(5);
      const forth = await tabThrough(page, 'Tab');
      expect(controls.filter((cell) => !forth.has(cell))).toEqual([]);
      expect(await tabThrough(page, 'Shift+Tab')).toEqual(forth);
    });
  });
});

/** Cells in which something can have the focus. */
function cellsWithControls(page: Page): Promise<string[]> {
  return page.locator('.sheet > .cell').evaluateAll((cells) => cells.flatMap((cell) => {
    const controls = [...cell.querySelectorAll<HTMLElement>('button, input, select, textarea, summary, [tabindex="0"]')];
    const isReached = controls.some((one) => one.tabIndex >= 0 && !one.matches(':disabled') && one.checkVisibility({ visibilityProperty: true }));
    return isReached ? [(cell as HTMLElement).dataset['cell'] ?? ''] : [];
  }));
}

/** Presses Tab until the focus has left the page; gives the cells that had it. */
async function tabThrough(page: Page, key: string): Promise<ReadonlySet<string>> {
  const seen = new Set<string>();
  for (let steps = 0; steps < 1200; steps += 1) {
    await page.keyboard.press(key);
    const { tag, cell } = await focus(page);
    if (tag === 'BODY') return seen;
    seen.add(cell);
  }
  throw new Error(`${key} does not lead out of the page`);
}
