/** Opening puts the reader where they left: after loading again and from the list, in a sheet that has changed too, and not against a link. */
import { expect, test } from 'vitest';
import type { Page } from 'playwright';
import { type Opening, withPage } from './harness.ts';
import { blanks, fill, head, line, typed, untilKept } from './sheet-page.ts';

const openings: readonly (readonly [string, Opening])[] = [['phone', { size: 'phone' }], ['desktop', {}]];
const topOf = (page: Page, symbol: string): Promise<number> => line(page, symbol).evaluate((element) => Math.round(element.getBoundingClientRect().top));
const alive = (page: Page): Promise<void> => blanks(page, 'd').first().waitFor({ state: 'attached' });

/** The block at the head of the window, and where its top is. */
const atHead = (page: Page): Promise<readonly [string, number]> => page.evaluate(() => {
  const there = [...document.querySelectorAll<HTMLElement>('.sheet > .cell')].find((element) => element.getBoundingClientRect().bottom > 0);
  return [there?.dataset['cell'] ?? '', there?.getBoundingClientRect().top ?? 0] as const;
});

/** The block that the page remembers as the one at the head of the window; empty where it remembers none. */
const remembered = (page: Page): Promise<string> =>
  page.evaluate(() => Object.values(JSON.parse(localStorage.getItem('spanlife-places') ?? '{}') as Record<string, { blocks: string[] }>)[0]?.blocks[0] ?? '');

/** Puts a line at a place of the window, in the lines' own heights, and waits until that is remembered. */
async function scrollTo(page: Page, symbol: string, top: number): Promise<void> {
  await expect.poll(() => line(page, symbol).evaluate(async (element, at) => {
    const off = element.getBoundingClientRect().top - at;
    scrollBy({ top: off, behavior: 'instant' });
    // What comes near is drawn when there is time, and moves it.
    await new Promise((done) => requestAnimationFrame(() => requestIdleCallback(() => requestAnimationFrame(done))));
    return Math.abs(off);
  }, top)).toBeLessThan(1);
  await expect.poll(async () => (await remembered(page)) === (await atHead(page))[0]).toBe(true);
}

test.each(openings)('%s: loading again shows the same lines at the same place', async (_name, opening) => {
  await withPage(opening, async ({ page }) => {
    await fill(page, 'd', '7.2 mm');
    await untilKept(page);
    await scrollTo(page, 'sigma_a', 150);
    // A busy page sets equations late, and what is above them moves.
    await expect.poll(async () => Math.abs((await topOf(page, 'sigma_a')) - 150)).toBeLessThanOrEqual(3);
    const [block, top] = await atHead(page);
    const moved = async (): Promise<number> => Math.abs((await page.locator(`[data-cell="${block}"]`).evaluate((element) => element.getBoundingClientRect().top)) - top);
    await page.reload();
    await alive(page);
    await expect.poll(moved).toBeLessThanOrEqual(3);
    // It stays there once all is drawn.
    await page.waitForTimeout(2500);
    expect(await moved()).toBeLessThanOrEqual(3);
    // What moved with the last edit is told no more, which takes a line or two of a phone.
    expect(Math.abs((await topOf(page, 'sigma_a')) - 150)).toBeLessThanOrEqual(60);
    // Last, since looking for the blank scrolls to it.
    expect(await typed(page, 'd')).toEqual(['7.2 mm']);
  });
});

test('each sheet has its own place, and what the reader does meanwhile comes first', async () => {
  await withPage({}, async ({ page }) => {
    await fill(page, 'd', '7.2 mm');
    await untilKept(page);
    await scrollTo(page, 'sigma_a', 150);
    await page.evaluate(() => window.scrollTo({ top: 0, behavior: 'instant' }));
    await expect.poll(() => remembered(page)).toBe('');
    await scrollTo(page, 'W', 100);
    await head(page).getByRole('button', { name: 'Sheets', exact: true }).click({ force: true });
    await head(page).getByRole('button', { name: 'An empty sheet' }).click();
    await expect.poll(() => blanks(page, 'd').count()).toBe(0);
    expect(await page.evaluate(() => scrollY)).toBe(0);
    await page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).fill('Another');
    await untilKept(page);
    await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
    await head(page).getByRole('button', { name: /^Rotating bending/ }).first().click();
    await alive(page);
    // Who went to the head to open the list has left at the head.
    await expect.poll(() => page.evaluate(() => scrollY)).toBeLessThan(3000);
  });
});

test('where the block is gone the nearest one before it is shown; a link to a line goes there', async () => {
  await withPage({}, async ({ page }) => {
    await fill(page, 'd', '7.2 mm');
    await untilKept(page);
    await scrollTo(page, 'sigma_a', 0);
    const kept = await page.evaluate(() => Object.entries(JSON.parse(localStorage.getItem('spanlife-places') ?? '{}') as Record<string, { blocks: string[]; offset: number }>)[0]);
    const [id, place] = kept ?? ['', { blocks: [], offset: 0 }];
    const [, earlier = ''] = place.blocks;
    expect(earlier).not.toBe('');
    // Before the page's own script: the page that is left may write its place once more.
    await page.addInitScript(([sheet, blocks]) => localStorage.setItem('spanlife-places', JSON.stringify({ [sheet as string]: { blocks: ['not there any more', ...(blocks as string[])], offset: 40 } })), [id, place.blocks.slice(1)]);
    await page.reload();
    await alive(page);
    await expect.poll(() => page.evaluate((block) => Math.abs(document.querySelector(`[data-cell="${block}"]`)?.getBoundingClientRect().top ?? 9999), earlier)).toBeLessThanOrEqual(3);
    await page.evaluate(() => void (location.hash = '#cell-L'));
    await page.reload();
    await alive(page);
    await expect.poll(() => topOf(page, 'L')).toBeLessThan(900);
    expect(await topOf(page, 'L')).toBeGreaterThanOrEqual(0);
  });
});
