/** The lecture view, without a pointer: the sheet step by step, a span changed under the pause, the guess, the effect. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens as withPage, checkAccess, screenshot, type Opening } from './harness.ts';
import { blanks, line, result, textOf, typed } from './sheet-page.ts';

const WALL = { viewport: { width: 1280, height: 720 }, deviceScaleFactor: 1 };
const PHONE = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true };

/** What is on the wall: ids of the cells, and how far each is brought to light. */
function stage(page: Page): Promise<{ readonly cell: string; readonly reveals: string }[]> {
  return page.locator('[data-lecture="stage"]').evaluateAll((cells) =>
    cells.map((cell) => ({ cell: (cell as HTMLElement).dataset['cell'] ?? '', reveals: (cell as HTMLElement).dataset['reveals'] ?? '' })));
}

const isSeen = (page: Page, selector: string): Promise<boolean> =>
  page.locator(`[data-lecture="stage"] ${selector}`).first().evaluate((element) => element.checkVisibility({ visibilityProperty: true }));

/** Goes on until a cell is on the wall, as fast as the page can. */
async function onTo(page: Page, cell: string): Promise<void> {
  await page.evaluate((wanted) => {
    for (let i = 0; i < 400; i += 1) {
      if (document.querySelector(`[data-lecture="stage"][data-cell="${wanted}"]`) !== null) return;
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'PageDown', bubbles: true, cancelable: true }));
    }
    throw new Error(`${wanted} was not reached`);
  }, cell);
}

/** Whether the pinned drawing tells the figures of these names, which stand behind or below them. */
function drawnFigures(page: Page, names: readonly string[]): Promise<boolean[]> {
  return page.locator('[data-lecture="drawing"] svg.drawing').evaluate((drawing, wanted) => wanted.map((name) => {
    const letters = name.replace('_', '');
    const text = [...drawing.querySelectorAll('text.value')].find((one) => new RegExp(`^${letters}(\\s*=|$)`, 'u').test(one.textContent));
    const figure = text?.textContent === letters ? text.nextElementSibling?.lastElementChild : text?.lastElementChild;
    if (!figure) throw new Error(`no ${name} in the drawing`);
    return getComputedStyle(figure).visibility === 'visible';
  }), names);
}

const guess = (page: Page) => page.locator('.lecture-guess');

/** Tab until something has the focus. */
async function tabTo(page: Page, reached: (name: string) => boolean): Promise<void> {
  for (let i = 0; i < 60; i += 1) {
    await page.keyboard.press('Tab');
    const name = await page.evaluate(() => {
      const element = document.activeElement;
      return element?.getAttribute('aria-label') ?? (element instanceof HTMLInputElement || element instanceof HTMLSelectElement ? element.labels?.[0]?.textContent : element?.textContent) ?? '';
    });
    if (reached(name.replace(/\s+/g, ' ').trim())) return;
  }
  throw new Error('not reached with Tab');
}

async function begin(page: Page): Promise<void> {
  await blanks(page, 'd').first().waitFor();
  await page.keyboard.press('F8');
  await page.locator('.lecture-bar').waitFor();
}

const openings: readonly (readonly [string, Opening])[] = [
  ['1280x720', { context: WALL }],
  ['390x844', { context: PHONE }],
];

describe('the lecture view', () => {
  test.each(openings)('a span is changed under the pause, guessed and shown: %s', async (name, opening) => {
    await withPage(opening, async ({ page }) => {
      await begin(page);
      expect(await page.getByRole('heading', { level: 1 }).filter({ visible: true }).textContent()).toBe('Rotating bending, two load points');
      await screenshot(page, `lecture-title-${name}`, { fullPage: false });

      // The question, the equation, the numbers put in, the result; and back again.
      await onTo(page, 'R_A');
      for (const [reveals, seen] of [
        ['words', [false, false, false]], ['words symbols', [true, false, false]],
        ['words symbols numbers', [true, true, false]], ['words symbols numbers result', [true, true, true]],
      ] as const) {
        expect(await stage(page)).toEqual([{ cell: 'R_A', reveals }]);
        expect(await Promise.all(['.symbols', '.numbers', '.result'].map((part) => isSeen(page, part)))).toEqual(seen);
        // The drawing beside tells no more than the lines have told.
        expect(await drawnFigures(page, ['F_1', 'R_A', 'R_B'])).toEqual([true, reveals.endsWith('result'), false]);
        if (reveals.endsWith('result')) break;
        await page.keyboard.press('ArrowRight');
      }
      await screenshot(page, `lecture-step-${name}`, { fullPage: false });
      expect(await page.locator('[data-lecture="drawing"]').getAttribute('data-cell')).toBe('free-body');
      await page.keyboard.press('PageUp');
      expect(await stage(page)).toEqual([{ cell: 'R_A', reveals: 'words symbols numbers' }]);
      await checkAccess(page);

      // The pause: an input at hand is changed, and no result is to be seen anywhere.
      await onTo(page, 'sigma_a');
      for (let i = 0; i < 3; i += 1) await page.keyboard.press(' ');
      const before = await result(page, 'sigma_a');
      await page.keyboard.press('p');
      if (name === '390x844') {
        await tabTo(page, (words) => words === 'more');
        await page.keyboard.press('Enter');
      }
      await tabTo(page, (words) => words.startsWith('at hand'));
      await page.keyboard.press('M');
      await expect.poll(() => page.locator('[data-lecture="input"]').getAttribute('data-symbol')).toBe('d');
      await page.evaluate(() => (document.activeElement as HTMLElement).blur());
      await tabTo(page, (words) => words.startsWith('Minimum diameter'));
      for (let i = 0; i < 4; i += 1) {
        await page.keyboard.press('Control+A');
        await page.keyboard.type('7.00 mm');
        await page.keyboard.press('Enter');
      }
      expect(new Set(await typed(page, 'd'))).toEqual(new Set(['7.00 mm']));
      await expect.poll(() => textOf(line(page, 'sigma_a').locator('.result'))).toContain('held back for a guess');
      await expect.poll(() => textOf(guess(page))).toContain('Which way');
      expect(await textOf(guess(page))).toContain(before);
      const after = (371.8 * (7.52 / 7) ** 3).toFixed(0);
      expect(await page.locator('body').evaluate((body) => (body as HTMLElement).innerText)).not.toContain(after);
      await page.keyboard.press('ArrowUp');
      await expect.poll(() => page.getByRole('button', { name: /^up/ }).getAttribute('aria-pressed')).toBe('true');
      await screenshot(page, `lecture-guess-${name}`, { fullPage: false });
      await checkAccess(page);
      await page.keyboard.press('PageDown');
      // (7.52/7.00)³ = 1.240
      await expect.poll(() => textOf(guess(page))).toMatch(/went up by 24 %, as guessed/);
      expect(await result(page, 'sigma_a')).toContain(after.slice(0, 2));
      await screenshot(page, `lecture-shown-${name}`, { fullPage: false });

      // An edit of the sheet, and so undo takes it back; again nothing shows before it is asked for.
      for (let i = 0; i < 4; i += 1) await page.keyboard.press('Control+Z');
      await expect.poll(async () => (await typed(page, 'd'))[0]).toBe('7.52 mm');
      await page.keyboard.press('p');
      await expect.poll(() => result(page, 'sigma_a')).toBe(before);

      // The screen is blanked by what remotes send, and any key brings it back.
      await page.keyboard.press('.');
      expect(await page.locator('.lecture-dark').count()).toBe(1);
      await page.keyboard.press('PageDown');
      expect(await page.locator('.lecture-dark').count()).toBe(0);
      expect((await stage(page))[0]?.cell).toBe('sigma_a');

      // What leaves the wall keeps no focus; what comes there has it.
      await page.keyboard.press('o');
      expect(await page.evaluate(() => document.activeElement?.className)).toBe('lecture-wall');
      await page.keyboard.press('o');
      expect(await page.evaluate(() => document.activeElement?.getAttribute('data-cell'))).toBe('sigma_a');

      await page.keyboard.press('Escape');
      expect(await page.locator('.lecture-bar').count()).toBe(0);
      expect(await page.evaluate(() => document.activeElement?.getAttribute('data-cell'))).toBe('sigma_a');
      await page.keyboard.press('F8');
      expect((await stage(page))[0]).toEqual({ cell: 'sigma_a', reveals: 'words symbols numbers result' });
    });
  });
});
