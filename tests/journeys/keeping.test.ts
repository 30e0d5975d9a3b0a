/** Sheets are kept in the browser: without being asked, several side by side, and never one over another. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens as withPage, builtPage, checkAccess, goToFile, screenshot, SHORT } from './harness.ts';
import { blank, fill, head, notice, textOf, typed, untilKept } from './sheet-page.ts';

const status = (page: Page) => head(page).getByRole('navigation', { name: 'Sheets and files' }).getByRole('status');
const openList = (page: Page) => head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
const keptSheets = (page: Page) => head(page).getByRole('list', { name: 'Kept in this browser' }).getByRole('listitem');
const title = (page: Page) => page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' });

/** The sheet that it opens with under a name of its own, and another one with empty blanks, named and open. */
async function twoSheets(page: Page): Promise<void> {
  await title(page).fill('First sheet');
  await untilKept(page);
  await openList(page);
  await head(page).getByRole('button', { name: 'Rotating bending, blank' }).click();
  await expect.poll(() => typed(page, 'F')).toEqual(['']);
  await title(page).fill('Second sheet');
}

describe('keeping', () => {
  test('what is typed is kept within a second of the last key and is there after reloading', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await blank(page, 'F').fill('325 N');
      const begun = Date.now();
      await untilKept(page);
      // The machine that tests may be slow; the page itself waits 400 ms.
      expect(Date.now() - begun).toBeLessThan(2500);
      await page.reload();
      await expect.poll(() => typed(page, 'F')).toEqual(['325 N']);
      await expect.poll(async () => (await typed(page, 's_1')).slice(0, 2)).toEqual(['101.0 mm', '101.5 mm']);
    });
  });

  test('a page that is closed right after the last key has lost nothing', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await untilFilled(page);
      await blank(page, 'F').fill('327 N');
      await page.close({ runBeforeUnload: true });
      await expect.poll(() => page.isClosed()).toBe(true);
      const next = await pageBeside(page);
      await expect.poll(() => typed(next, 'F')).toEqual(['327 N']);
      // It is in the list now, and nothing is left over that would come back later.
      await openList(next);
      await expect.poll(() => keptSheets(next).count()).toBe(1);
      // That the browser was asked, what is folded and where the reader was are remembered on purpose.
      const remembered = ['spanlife-asked', 'spanlife-folds', 'spanlife-places'];
      await expect.poll(() => next.evaluate((known) => Object.keys(localStorage).filter((key) => !known.includes(key)), remembered)).toEqual([]);
    });
  });

  test('several sheets lie side by side: another, a copy, back to the first; deleting can be put back', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      await twoSheets(page);
      await fill(page, 'F', '250 N');
      await untilKept(page);
      await openList(page);
      await expect.poll(() => keptSheets(page).count()).toBe(2);
      await screenshot(page, 'keeping-list-phone', { fullPage: false });
      await checkAccess(page);
      await head(page).getByRole('button', { name: 'A copy of this one' }).click();
      await untilKept(page);
      await openList(page);
      await expect.poll(() => keptSheets(page).count()).toBe(3);
      expect(await textOf(keptSheets(page).first())).toMatch(/Second sheet \(copy\)/);
      await head(page).getByRole('button', { name: 'First sheet', exact: true }).click();
      await expect.poll(() => title(page).inputValue()).toBe('First sheet');
      expect(await typed(page, 'F')).toEqual(['310 N']);

      await openList(page);
      await head(page).getByRole('button', { name: /^Delete First sheet/ }).click();
      await expect.poll(() => textOf(notice(page))).toMatch(/“First sheet” is deleted/);
      await expect.poll(() => keptSheets(page).count()).toBe(2);
      expect(await title(page).inputValue()).not.toBe('First sheet');
      await screenshot(page, 'keeping-deleted-phone', { fullPage: false });
      await head(page).getByRole('button', { name: 'Put it back' }).click();
      await expect.poll(() => title(page).inputValue()).toBe('First sheet');
      await expect.poll(() => keptSheets(page).count()).toBe(3);
      expect(await notice(page).count()).toBe(0);
    });
  });

  test('no sheet changes places in the list under the finger, whatever is kept meanwhile', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await twoSheets(page);
      // Every order in which the sheets stand there, from the first sight of the list on.
      await page.evaluate(() => {
        const orders: string[] = [];
        (globalThis as { orders?: string[] }).orders = orders;
        new MutationObserver(() => {
          const names = [...document.querySelectorAll('.panel ul[aria-labelledby="kept-sheets"] .entry')].map((entry) => entry.textContent);
          if (names.length > 0 && orders.at(-1) !== names.join(', ')) orders.push(names.join(', '));
        }).observe(document.querySelector('.head') as Element, { childList: true, subtree: true, characterData: true });
      });
      await openList(page);
      await untilKept(page);
      await expect.poll(() => keptSheets(page).count()).toBe(2);
      const other = await pageBeside(page);
      await openList(other);
      await head(other).getByRole('button', { name: 'First sheet', exact: true }).click();
      await fill(other, 'F', '250 N');
      await untilKept(other);
      await head(page).getByRole('button', { name: /^Delete Second sheet/ }).waitFor();
      await page.bringToFront();
      await fill(page, 'F', '260 N');
      await untilKept(page);
      await expect.poll(() => textOf(keptSheets(page).filter({ hasText: 'Second sheet' }))).toMatch(/open here/);
      expect(await page.evaluate(() => (globalThis as { orders?: string[] }).orders)).toEqual(['Second sheet, First sheet']);
      await openList(page);
      await openList(page);
      await expect.poll(() => keptSheets(page).first().textContent()).toMatch(/Second sheet/);
    });
  });

  test('two windows on one sheet: the later one goes on as a copy and says so', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await fill(page, 'F', '300 N');
      await untilKept(page);
      const other = await pageBeside(page);
      await expect.poll(() => typed(other, 'F')).toEqual(['300 N']);
      await fill(other, 'F', '301 N');
      await untilKept(other);
      await fill(page, 'F', '302 N');
      await expect.poll(() => textOf(notice(page))).toMatch(/Another window changed this sheet as well: what stands here is kept as a copy/);
      await screenshot(page, 'keeping-two-windows', { fullPage: false });
      await openList(page);
      await expect.poll(() => keptSheets(page).count()).toBe(2);
      expect(await textOf(keptSheets(page).first())).toMatch(/\(copy\)/);
      // The copy stays one after its next change.
      await fill(page, 'F', '303 N');
      await untilKept(page);
      await expect.poll(() => textOf(keptSheets(page).first())).toMatch(/\(copy\)/);
      await other.reload();
      await openList(other);
      await other.getByRole('list', { name: 'Kept in this browser' }).getByRole('button', { name: 'Rotating bending, two load points', exact: true }).click();
      await expect.poll(() => typed(other, 'F')).toEqual(['301 N']);
    });
  });

  test('a browser that keeps nothing says so, and the sheet works', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await page.addInitScript(() => {
        IDBFactory.prototype.open = () => {
          throw new DOMException('refused', 'SecurityError');
        };
        Object.defineProperty(window, 'localStorage', { get: () => { throw new DOMException('refused', 'SecurityError'); } });
      });
      await goToFile(page, builtPage);
      await page.reload();
      await expect.poll(() => textOf(status(page))).toMatch(/Not kept: this browser keeps nothing for this page\. It is tried again; take a working file away/);
      await fill(page, 'F', '300 N');
      await expect.poll(() => typed(page, 'F')).toEqual(['300 N']);
      await screenshot(page, 'keeping-refused', { fullPage: false });
      await openList(page);
      await expect.poll(() => keptSheets(page).count()).toBe(0);
    });
  });
});

async function untilFilled(page: Page): Promise<void> {
  await expect.poll(() => typed(page, 'F')).toEqual(['310 N']);
}

/** Another window of the same browser. */
async function pageBeside(page: Page): Promise<Page> {
  const next = await page.context().newPage();
  await goToFile(next, builtPage);
  return next;
}
