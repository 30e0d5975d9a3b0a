/** The lecture view, without a pointer: the sheet step by step, a span changed under the pause, the guess, the effect. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens as withPage, checkAccess, screenshot, type Opening } from './harness.ts';
import { inFirefox } from './harness-firefox.ts';
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
      await tabTo(page, (words) => words === 'more');
      await page.keyboard.press('Enter');
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
      // The last row reads the question too.
      expect(await guess(page).locator('p, button, kbd').evaluateAll((all) => Math.min(...all.map((one) => parseFloat(getComputedStyle(one).fontSize))))).toBeGreaterThanOrEqual(name === '1280x720' ? 28 : 15);
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
      await page.keyboard.press('l');
      expect(await page.evaluate(() => document.activeElement?.className)).toBe('lecture-wall');
      await page.keyboard.press('l');
      expect(await page.evaluate(() => document.activeElement?.getAttribute('data-cell'))).toBe('sigma_a');

      await page.keyboard.press('Escape');
      expect(await page.locator('.lecture-bar').count()).toBe(0);
      expect(await page.evaluate(() => document.activeElement?.getAttribute('data-cell'))).toBe('sigma_a');
      await page.keyboard.press('F8');
      expect((await stage(page))[0]).toEqual({ cell: 'sigma_a', reveals: 'words symbols numbers result' });
    });
  });
});

test('the rotating sheet as it ships is at its life within sixty presses of a remote, from the title on', async () => {
  await withPage({ context: WALL }, async ({ page }) => {
    await begin(page);
    await page.keyboard.press('Home');
    const presses = await page.evaluate(() => {
      for (let i = 0; i < 400; i += 1) {
        const cell = document.querySelector<HTMLElement>('[data-lecture="stage"][data-symbol="N_f"]');
        if (cell?.dataset['reveals']?.endsWith('result') === true) return i;
        document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'PageDown', bubbles: true, cancelable: true }));
      }
      return Infinity;
    });
    expect(presses).toBeLessThanOrEqual(60);
  });
});

test('a class predicts by hands with a remote alone: up, down, same, and then what 1 % less does, not what the slope says', async () => {
  await withPage({ context: WALL }, async ({ page }) => {
    await begin(page);
    await onTo(page, 'N_f');
    const before = await result(page, 'N_f');
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('PageDown');
    expect(await textOf(guess(page).locator('.question'))).toMatch(/^1 % less of d.*which way does N.*go\?$/u);
    const hand = (): Promise<string> => textOf(guess(page).locator('[aria-current="step"]'));
    expect(await hand()).toContain('up');
    await page.keyboard.press('b');
    expect(await page.locator('.lecture-dark').count()).toBe(0);
    expect(await guess(page).getByRole('button', { name: /^up/ }).getAttribute('aria-pressed')).toBe('true');
    await checkAccess(page);
    await screenshot(page, 'lecture-hands', { fullPage: false });
    await page.keyboard.press('PageDown');
    expect(await textOf(guess(page).locator('.outcome'))).toMatch(/goes down by 31\.\d %, and not “up” as guessed/u);
    // Nothing of the sheet was changed by that.
    expect(await result(page, 'N_f')).toBe(before);
    await page.keyboard.press('PageDown');
    expect((await stage(page))[0]?.cell).toBe('t_f');
    expect(await guess(page).isVisible()).toBe(false);
  });
});

test('what stands for a drawing, and its caption, keep a result to themselves until its line has told it, and again on the sheet nothing', async () => {
  await withPage({ context: WALL }, async ({ page }) => {
    await begin(page);
    const words = (): Promise<string> => page.locator('[data-cell="free-body"]').evaluate((cell) => `${cell.querySelector('desc')?.textContent} ${cell.querySelector('figcaption')?.textContent}`);
    await onTo(page, 'free-body');
    expect(await words()).not.toContain('153.77');
    await onTo(page, 'sigma_a');
    await page.keyboard.press('Escape');
    await expect.poll(words).toContain('153.77');
  });
});

/** Keys as a presenter's remote sends them, and no others: PageUp, PageDown, F5, Escape, b or a full stop. */
describe('with a remote alone', () => {
  test('begun with F5; own working is told press by press; sections are skipped in the list and by holding the key', async () => {
    await withPage({ context: WALL }, async ({ page }) => {
      await blanks(page, 'd').first().waitFor();
      const [right, later] = [await result(page, 'R_A'), await result(page, 'R_B')];
      await page.getByRole('checkbox', { name: 'hide results until I have worked them out' }).check();
      await expect.poll(() => line(page, 'R_A').locator('.quantity').count()).toBe(0);
      await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
      await page.keyboard.press('F5');
      await page.locator('.lecture-bar').waitFor();
      const place = (): Promise<string> => textOf(page.locator('.lecture-bar .count'));
      const section = (): Promise<string> => textOf(page.locator('.lecture-strip p'));
      const first = await section();
      await page.keyboard.press('F5');
      await page.locator('.lecture-overview').waitFor();
      for (let i = 0; i < 3; i += 1) await page.keyboard.press('PageDown');
      await page.keyboard.press('PageUp');
      await page.keyboard.press('F5');
      expect(await page.locator('.lecture-overview').count()).toBe(0);
      const second = await section();
      expect(second).not.toBe(first);
      // Held: one press on, and then, however long it is held, the next section.
      await page.keyboard.down('PageDown');
      for (let i = 0; i < 5; i += 1) await page.keyboard.down('PageDown');
      await page.keyboard.up('PageDown');
      expect(Number(/^\d+/.exec(await section())?.[0])).toBe(Number(/^\d+/.exec(second)?.[0]) + 1);
      const there = await place();
      await page.keyboard.press('b');
      await page.keyboard.press('b');
      expect(await place()).toBe(there);

      // The class works it out before its blank; the press after that tells the result, and only then what is said of it.
      await onTo(page, 'R_A');
      const shown = async (): Promise<unknown> => ({
        blank: await page.locator('[data-lecture="stage"] .result input').evaluateAll((all) => all.some((one) => one.checkVisibility({ visibilityProperty: true }))),
        result: await page.locator('[data-lecture="stage"] .quantity').count(),
        isSaid: await page.locator('[data-lecture="stage"] .margin').evaluateAll((all) => all.some((one) => one.checkVisibility({ visibilityProperty: true }))),
      });
      const ways: unknown[] = [];
      for (let i = 0; i < 4; i += 1) {
        ways.push(await shown());
        if (i < 3) await page.keyboard.press('PageDown');
      }
      const [nothing, blank, told] = [{ blank: false, result: 0, isSaid: false }, { blank: true, result: 0, isSaid: false }, { blank: false, result: 1, isSaid: true }];
      expect(ways).toEqual([nothing, nothing, blank, told]);
      expect(await result(page, 'R_A')).toBe(right);
      expect(await drawnFigures(page, ['R_A'])).toEqual([true]);
      const drawn = await textOf(page.locator('[data-lecture="drawing"] svg.drawing'));
      expect([drawn.includes(right.split(' ')[0] ?? '?'), drawn.includes(later.split(' ')[0] ?? '?')]).toEqual([true, false]);
      // What was told is hidden again on the way back, and on the sheet.
      await page.keyboard.press('PageUp');
      expect(await shown()).toEqual(blank);
      await page.keyboard.press('PageDown');
      await page.keyboard.press('Escape');
      // A browser that is driven as a reader does takes the first one for the full screen that F5 asked for.
      if (inFirefox) {
        await page.waitForFunction(() => document.fullscreenElement === null);
        await page.keyboard.press('Escape');
      }
      await expect.poll(() => page.locator('.lecture-bar').count()).toBe(0);
      await expect.poll(() => line(page, 'R_A').locator('.quantity').count()).toBe(0);
    });
  });
});
