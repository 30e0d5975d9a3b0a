/** Input and effect in one view, and the way through the sheet: results, what is open, undo and contents beside it, by keyboard and by touch. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens as withPage, checkAccess, colours, intoView, type Opening, screenshot, SHORT } from './harness.ts';
import { focus } from './keyboard.ts';
import { blank, blanks, fill, line, result, textOf } from './sheet-page.ts';

const side = (page: Page) => page.locator('.side');
const openings: readonly (readonly [string, Opening])[] = [['phone', { size: 'phone' }], ['desktop', {}]];
const isFocused = (page: Page, symbol: string): Promise<boolean> => line(page, symbol).evaluate((element) => element === document.activeElement);
const isSeen = (page: Page, selector: string): Promise<boolean> => page.locator(selector).first().evaluate((element) => {
  const { top, bottom } = element.getBoundingClientRect();
  return element.checkVisibility() && bottom > 0 && top < innerHeight;
});

/** The list above the line of a narrow window; in the margin of a wide one it is there. */
async function unfold(page: Page, name: string): Promise<void> {
  const press = side(page).getByRole('button', { name: 'contents', exact: true });
  if (name === 'phone' && (await press.getAttribute('aria-expanded')) !== 'true') await press.tap();
}

describe('input and effect in one view', () => {
  for (const [name, opening] of openings) {
    for (const colorScheme of colours) {
      test(`${name}: who types a diameter sees stress and life move, as their lines do, and a press goes there: ${colorScheme}`, async () => {
        await withPage({ sheet: SHORT, ...opening, colorScheme }, async ({ page }) => {
          const shown = page.locator(name === 'phone' ? '.in-short .to-line' : '.what-follows > ul > li');
          await expect.poll(() => shown.count()).toBeGreaterThanOrEqual(2);
          await screenshot(page, `side-${name}-${colorScheme}`, { fullPage: false });
          await intoView(blank(page, 'd'));
          await fill(page, 'd', '7.2 mm');
          await expect.poll(() => line(page, 'sigma_a').locator('.moved').count()).toBe(1);
          expect(await textOf(shown.first())).toContain(await result(page, 'sigma_a'));
          expect(await textOf(shown.first())).toContain(await textOf(line(page, 'sigma_a').locator('.moved')));
          expect(await textOf(shown.nth(1))).toContain(await textOf(line(page, 'N_f').locator('.moved')));
          expect([await isSeen(page, '[data-symbol="d"]'), await isSeen(page, name === 'phone' ? '.in-short .moved' : '.what-follows .moved')]).toEqual([true, true]);
          await screenshot(page, `side-moved-${name}-${colorScheme}`, { fullPage: false });
          await checkAccess(page);
          if (name === 'phone') await shown.first().tap();
          else await shown.first().getByRole('button').click();
          await expect.poll(() => isFocused(page, 'sigma_a')).toBe(true);
          await fill(page, 'n', '2900 rev/min');
          await expect.poll(() => shown.first().locator('.moved').count()).toBe(0);
        });
      });
    }

    test(`${name}: the way from the blank to the results, each on a line that goes to its own`, async () => {
      await withPage(opening, async ({ page }) => {
        await fill(page, 'd', '7.2 mm');
        await unfold(page, name);
        const way = side(page).getByRole('button', { name: 'the way from d' });
        await way.focus();
        await page.keyboard.press('Enter');
        const lines = page.locator('.chain li');
        await expect.poll(() => lines.count()).toBeGreaterThan(5);
        for (const symbol of ['I', 'sigma_a', 'N_f']) {
          await expect.poll(async () => {
            const value = await result(page, symbol);
            return (await lines.allTextContents()).some((text) => text.replace(/\s+/g, ' ').includes(value.split(' ')[0] ?? ''));
          }, { message: symbol }).toBe(true);
        }
        await screenshot(page, `side-chain-${name}`, { fullPage: false });
        await checkAccess(page);
        await lines.first().getByRole('button').focus();
        await page.keyboard.press('Enter');
        await expect.poll(() => isFocused(page, 'I')).toBe(true);
        // The reader can go back to the blank.
        await expect.poll(() => line(page, 'I').locator('.came-from').count()).toBe(1);
      });
    });

    test(`${name}: what the sheet withholds stays withheld beside it`, async () => {
      await withPage(opening, async ({ page }) => {
        const stress = await result(page, 'sigma_a');
        await fill(page, 'd', '7.2 mm');
        await page.locator('.title-block').getByRole('checkbox', { name: 'hide results until I have worked them out' }).check();
        await unfold(page, name);
        await side(page).getByRole('button', { name: 'the way from d' }).click();
        await expect.poll(() => textOf(page.locator('.what-follows'))).toContain('after your own working');
        const said = await textOf(side(page));
        expect(said).not.toContain(stress);
        expect(said).not.toMatch(/MPa|cycles|%/);
        expect(said).toMatch(/\d+ blanks open/);
      });
    });

    test(`${name}: undo and redo are at hand at any place`, async () => {
      await withPage(opening, async ({ page }) => {
        const before = await result(page, 'sigma_a');
        await fill(page, 'd', '7.2 mm');
        await expect.poll(() => result(page, 'sigma_a')).not.toBe(before);
        await intoView(page.locator('.cell-remark').last());
        await side(page).getByRole('button', { name: 'undo', exact: true }).click();
        for (let i = 0; i < 4 && (await result(page, 'sigma_a')) !== before; i += 1) await page.keyboard.press('Control+Z');
        await expect.poll(() => result(page, 'sigma_a')).toBe(before);
        expect(await textOf(page.locator('.step-strip p'))).toMatch(/^Undone: /);
        await unfold(page, name);
        await side(page).getByRole('button', { name: 'redo', exact: true }).click();
        await expect.poll(() => textOf(page.locator('.step-strip p'))).toMatch(/^Done again: /);
      });
    });
  }

  test('what is open: each press goes to the next place', async () => {
    await withPage({}, async ({ page }) => {
      await side(page).getByRole('button', { name: '31 of 31 ticks open' }).click();
      await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-cell'))).toBe('safety');
      await side(page).getByRole('button', { name: '31 of 31 ticks open' }).click();
      await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-cell'))).toBe('set-up');
      await page.locator('[data-cell="set-up"]').getByRole('checkbox').first().check();
      await side(page).getByRole('button', { name: '30 of 31 ticks open' }).waitFor();
    });
  });

  test('on a phone the line gives way to the keyboard and to what must not be missed', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      expect(await page.locator('.side-line').evaluate((element) => element.getBoundingClientRect().height)).toBeLessThanOrEqual(48);
      await intoView(blank(page, 'd'));
      await blank(page, 'd').focus();
      expect(await page.locator('.side-line').isVisible()).toBe(true);
      await page.setViewportSize({ width: 390, height: 500 });
      await expect.poll(() => page.locator('.side-line').isVisible()).toBe(false);
      await page.setViewportSize({ width: 390, height: 844 });
      await expect.poll(() => page.locator('.side-line').isVisible()).toBe(true);
      const record = page.locator('[data-cell="test"]');
      await intoView(record);
      await record.getByLabel('Counter at the start', { exact: true }).last().fill('0');
      await record.getByLabel('Counter at the start', { exact: true }).last().blur();
      await record.getByRole('button', { name: 'Start the test', exact: true }).click();
      await expect.poll(() => textOf(page.locator('.watch-strip'))).toContain('A test is running');
      expect(await page.locator('.in-short').isVisible()).toBe(false);
      await screenshot(page, 'side-watch-phone', { fullPage: false });
      await side(page).getByRole('button', { name: 'contents', exact: true }).tap();
      await expect.poll(() => page.locator('.contents').isVisible()).toBe(true);
    });
  });
});

describe('finding the way', () => {
  for (const [name, opening] of openings) {
    test(`${name}: the contents mark the section in view, and a press goes to another`, async () => {
      await withPage(opening, async ({ page }) => {
        await blanks(page, 'd').first().waitFor({ state: 'attached' });
        await unfold(page, name);
        await screenshot(page, `side-contents-${name}`, { fullPage: false });
        const contents = page.getByRole('navigation', { name: 'Contents' });
        await contents.getByRole('button', { name: /Stress at the thinnest section/ }).click();
        const heading = page.locator('.sheet h2').filter({ hasText: 'Stress at the thinnest section' });
        await expect.poll(() => heading.evaluate((element) => element.getBoundingClientRect().top)).toBeLessThan(200);
        expect(await heading.evaluate((element) => element.getBoundingClientRect().top)).toBeGreaterThanOrEqual(-1);
        await unfold(page, name);
        await expect.poll(() => textOf(contents.locator('[aria-current="location"]'))).toContain('Stress at the thinnest section');
        expect(await textOf(contents.getByRole('button', { name: /Before anything turns/ }))).toBe('1 Before anything turns 16 ticks open');
      });
    });

    test(`${name}: a symbol or a word is found from anywhere by keyboard`, async () => {
      await withPage(opening, async ({ page }) => {
        await blanks(page, 'd').first().waitFor({ state: 'attached' });
        await page.keyboard.press('F9');
        expect((await focus(page)).name).toBe('Find a symbol or word');
        await page.keyboard.type('N_f');
        await expect.poll(() => textOf(page.locator('.contents .count'))).toMatch(/^\d+ places?/);
        await screenshot(page, `side-find-${name}`, { fullPage: false });
        await checkAccess(page);
        await page.keyboard.press('Enter');
        await expect.poll(() => isFocused(page, 'N_f')).toBe(true);
        await page.keyboard.press('F9');
        await page.keyboard.type('diameter');
        await page.keyboard.press('ArrowDown');
        await page.keyboard.press('ArrowDown');
        const second = page.locator('.contents-found button').nth(1);
        expect(await second.evaluate((element) => element === document.activeElement)).toBe(true);
        await page.keyboard.press('ArrowUp');
        await page.keyboard.press('ArrowUp');
        expect((await focus(page)).name).toBe('Find a symbol or word');
        await page.keyboard.press('Escape');
        await expect.poll(() => page.locator('.contents-found').count()).toBe(0);
      });
    });
  }

  test('nothing of it is printed or in the lecture view', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await blanks(page, 'd').first().waitFor({ state: 'attached' });
      await page.emulateMedia({ media: 'print' });
      expect(await side(page).isVisible()).toBe(false);
      await page.emulateMedia({ media: 'screen' });
      await page.keyboard.press('F8');
      await expect.poll(() => side(page).isVisible()).toBe(false);
    });
  });

  test('the column stands where it stood before the script started', async () => {
    const left = (page: Page): Promise<number> => page.locator('.sheet h1, .sheet .title-blank').last().evaluate((element) => element.getBoundingClientRect().left);
    const places: number[] = [];
    for (const withoutScripts of [true, false]) {
      await withPage({ withoutScripts }, async ({ page }) => {
        if (!withoutScripts) await blanks(page, 'd').first().waitFor({ state: 'attached' });
        places.push(await left(page));
      });
    }
    expect(Math.abs((places[0] ?? 0) - (places[1] ?? 99))).toBeLessThanOrEqual(8);
  });
});
