/** The lecture view, without a pointer: the sheet step by step, a span changed under the pause, the guess, the effect. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { checkAccess, screenshot, withPage, type Opening } from './harness.ts';
import { blanks, bringIn, line, result, textOf, typed } from './sheet-page.ts';

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
  ['1280x720-dark', { context: WALL, colorScheme: 'dark' }],
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

      await page.keyboard.press('Escape');
      expect(await page.locator('.lecture-bar').count()).toBe(0);
      expect(await page.evaluate(() => document.activeElement?.getAttribute('data-cell'))).toBe('sigma_a');
      await page.keyboard.press('F8');
      expect((await stage(page))[0]).toEqual({ cell: 'sigma_a', reveals: 'words symbols numbers result' });
    });
  });
});

/** Every station of a sheet with all that it shows: what is cut off, scrolls, or reaches beyond the window. */
async function cutOff(page: Page): Promise<{ readonly count: number; readonly steps: number; readonly cut: string[] }> {
  return page.evaluate(async () => {
    const press = (key: string): boolean => document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    const place = (): string => document.querySelector('.lecture-bar .count')?.textContent?.replace(/\s+/g, ' ') ?? '';
    const frames = async (): Promise<void> => {
      for (let i = 0; i < 2; i += 1) await new Promise<void>((done) => requestAnimationFrame(() => setTimeout(done)));
    };
    const overflows = (element: Element): boolean => element.scrollWidth > element.clientWidth + 1 || element.scrollHeight > element.clientHeight + 1;
    const cut: string[] = [];
    const seen = new Set<string>();
    let steps = 0;
    press('Home');
    for (let presses = 0; presses < 2000; presses += 1) {
      const here = place();
      const stage = [...document.querySelectorAll<HTMLElement>('[data-lecture="stage"]')];
      if (!seen.has(here)) {
        seen.add(here);
        steps += stage.filter((cell) => cell.classList.contains('cell-step')).length;
        await frames();
        const name = stage.map((cell) => cell.dataset['cell']).join(' ');
        // Tables, what is found from them and records may be taller than any wall; they go on screen by screen.
        const mayBeTall = stage.some((cell) => cell.matches('.cell-table, .cell-fit, .cell-record, .cell-photo'));
        for (const around of document.querySelectorAll<HTMLElement>('.sheet, .lecture-wall')) {
          if (around.checkVisibility() && (mayBeTall ? around.scrollWidth > around.clientWidth + 1 : overflows(around))) cut.push(`${name}: ${around.className} scrolls`);
        }
        for (const element of document.querySelectorAll<HTMLElement>('[data-lecture] *, .lecture-wall *, .lecture-strip *, .lecture-bar *')) {
          if (!element.checkVisibility() || element.closest('.katex-mathml, .visually-hidden, .vlist-t, svg *, .writing') !== null) continue;
          const { left, right, top, bottom, width, height } = element.getBoundingClientRect();
          const style = getComputedStyle(element);
          if (/auto|scroll/.test(style.overflowX + style.overflowY) && element.clientWidth > 0 && overflows(element)) cut.push(`${name}: ${element.className} scrolls`);
          if (width > 0 && height > 0 && (left < -1 || right > innerWidth + 1 || (!mayBeTall && (top < -1 || bottom > innerHeight + 1)))) {
            cut.push(`${name}: ${element.tagName} ${element.className} reaches to ${Math.round(right)}, ${Math.round(bottom)}`);
          }
        }
      }
      const before = `${here} ${stage[0]?.dataset['reveals'] ?? ''} ${document.querySelector('.sheet')?.scrollTop ?? 0}`;
      press('PageDown');
      const after = document.querySelector<HTMLElement>('[data-lecture="stage"]');
      if (`${place()} ${after?.dataset['reveals'] ?? ''} ${document.querySelector('.sheet')?.scrollTop ?? 0}` === before) break;
    }
    return { count: seen.size, steps, cut };
  });
}

describe('nothing is cut off on the wall', () => {
  const folder = new URL('../../worksheets/', import.meta.url);
  const sheets = readdirSync(folder).filter((name) => name.endsWith('.md'));
  // A large wall shows what the usual one shows; the longest sheet stands for the others there.
  for (const [width, height, told] of [[1280, 720, sheets], [1920, 1080, ['alternating-bending.md']]] as const) {
    test.each(told)(`every station of %s at ${width}x${height}`, async (name) => {
      await withPage({ context: { viewport: { width, height }, deviceScaleFactor: 1 } }, async ({ page }) => {
        await blanks(page, 'd').first().waitFor();
        const title = /^title: (.*)$/m.exec(readFileSync(new URL(name, folder), 'utf8'))?.[1] ?? '';
        await bringIn(page, fileURLToPath(new URL(name, folder)));
        await page.waitForFunction((wanted) => document.title === wanted && document.querySelector('.sheet .title-blank') !== null, title);
        await page.keyboard.press('F8');
        await page.locator('.lecture-bar').waitFor();
        await page.evaluate(() => document.fonts.ready);
        const { count, steps, cut } = await cutOff(page);
        expect(cut).toEqual([]);
        expect(count).toBe(Number(/\d+$/.exec(await textOf(page.locator('.lecture-bar .count')))?.[0]));
        expect(steps).toBe(await page.locator('.cell-step').count());
      });
    }, 300_000);
  }
});
