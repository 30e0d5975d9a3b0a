/** Kept means kept: storage that fails, windows side by side and records that are damaged. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens as withPage, checkAccess, download, screenshot, SHORT } from './harness.ts';
import { blank, fill, head, notice, pageBeside, textOf, typed, untilKept } from './sheet-page.ts';

const status = (page: Page) => head(page).getByRole('navigation', { name: 'Sheets and files' }).getByRole('status');
const openList = (page: Page) => head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
describe('storage that fails', () => {
  test('full: told where it can not be missed, with a working file at one press; kept by itself once there is room', async () => {
    await withPage({ sheet: SHORT, size: 'phone', before: fullUntilToldOtherwise }, async ({ page }) => {
      await blank(page, 'F').waitFor({ state: 'attached' });
      await fill(page, 'F', '300 N');
      await expect.poll(() => textOf(status(page))).toMatch(/Not kept: there is no room left/);
      await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
      expect(await status(page).evaluate((one) => one.getBoundingClientRect().top)).toBeLessThan(200);
      const file = await download(page, () => status(page).getByRole('button', { name: 'Take a working file away' }).click());
      expect(file.text).toContain('300 N');
      await screenshot(page, 'kept-full-phone', { fullPage: false });
      await checkAccess(page);
      await page.evaluate(() => void ((globalThis as { hasRoom?: boolean }).hasRoom = true));
      await expect.poll(() => textOf(status(page))).toMatch(/^Kept in this browser/);
      await page.reload();
      await expect.poll(() => typed(page, 'F')).toEqual(['300 N']);
    });
  });

  test('a database deleted, or raised to a later version, by another page takes nothing and blocks nothing', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await fill(page, 'F', '300 N');
      await untilKept(page);
      await page.evaluate(() => new Promise<void>((done, failed) => {
        const request = indexedDB.deleteDatabase('spanlife');
        request.onsuccess = () => done();
        request.onerror = request.onblocked = () => failed(new Error('blocked'));
      }));
      await fill(page, 'F', '301 N');
      await untilKept(page);
      const other = await pageBeside(page);
      await expect.poll(() => typed(other, 'F')).toEqual(['301 N']);
      await other.evaluate(() => new Promise<void>((done, failed) => {
        const request = indexedDB.open('spanlife', 7);
        request.onsuccess = () => {
          request.result.close();
          done();
        };
        request.onerror = request.onblocked = () => failed(new Error('blocked'));
      }));
      await fill(other, 'F', '302 N');
      await untilKept(other);
      const third = await pageBeside(page);
      await expect.poll(() => typed(third, 'F')).toEqual(['302 N']);
    });
  });

  test('a damaged record is set aside, can be taken away as it is and deleted; the page lives', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await fill(page, 'F', '300 N');
      await untilKept(page);
      await page.evaluate(() => new Promise<void>((done) => {
        const request = indexedDB.open('spanlife');
        request.onsuccess = () => {
          const transaction = request.result.transaction('sheets', 'readwrite');
          for (const record of [{ id: 'zzz', title: 5, text: null, changed: '9999', order: 1e9 }, { id: 'yyy' }]) transaction.objectStore('sheets').put(record);
          transaction.oncomplete = () => done();
        };
      }));
      await page.reload();
      await expect.poll(() => typed(page, 'F')).toEqual(['300 N']);
      await openList(page);
      const damaged = head(page).getByRole('list', { name: 'Damaged' }).getByRole('listitem');
      await expect.poll(() => damaged.count()).toBe(2);
      await checkAccess(page);
      await screenshot(page, 'kept-damaged', { fullPage: false });
      const file = await download(page, () => head(page).getByRole('button', { name: 'Take it away as it is: zzz' }).click());
      expect(JSON.parse(file.text)).toMatchObject({ id: 'zzz', title: 5 });
      await head(page).getByRole('button', { name: 'Delete zzz' }).click();
      await head(page).getByRole('button', { name: 'Delete yyy' }).click();
      await expect.poll(() => damaged.count()).toBe(0);
      // Each can be put back, whatever was told after it.
      await expect.poll(() => notice(page).count()).toBe(2);
      await notice(page).last().getByRole('button', { name: 'Put it back' }).click();
      await expect.poll(() => damaged.count()).toBe(1);
      expect(await textOf(damaged.first())).toMatch(/^zzz/);
      await expect.poll(() => notice(page).count()).toBe(1);
      expect(await typed(page, 'F')).toEqual(['300 N']);
    });
  });
});

test('windows on one sheet know each other before either types, and what one has kept is shown in the other at a press', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await fill(page, 'F', '300 N');
    await untilKept(page);
    const other = await pageBeside(page);
    const third = await pageBeside(page);
    for (const one of [page, other, third]) await expect.poll(() => textOf(notice(one))).toMatch(/open in another window too/);
    await fill(other, 'F', '301 N');
    await untilKept(other);
    for (const one of [page, third]) await expect.poll(() => textOf(notice(one))).toMatch(/Another window has changed this sheet/);
    await head(page).getByRole('button', { name: 'Show what it holds now' }).click();
    await expect.poll(() => typed(page, 'F')).toEqual(['301 N']);
    // The third one did not look: what is typed there goes on as a copy, and stays told.
    await fill(third, 'F', '303 N');
    await expect.poll(() => textOf(notice(third))).toMatch(/kept as a copy of its own/);
    await fill(third, 'F', '304 N');
    await untilKept(third);
    expect(await textOf(notice(third))).toMatch(/kept as a copy of its own/);
    await head(third).getByRole('button', { name: 'Show the other one' }).click();
    await expect.poll(() => typed(third, 'F')).toEqual(['301 N']);
  });
});

/** Runs in the page: there is no room in the browser's storage until it is told that there is. */
function fullUntilToldOtherwise(): void {
  const { put } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.put = function full(this: IDBObjectStore, ...rest: Parameters<IDBObjectStore['put']>) {
    if ((globalThis as { hasRoom?: boolean }).hasRoom !== true && !sessionStorage.getItem('room')) throw new DOMException('full', 'QuotaExceededError');
    sessionStorage.setItem('room', 'yes');
    return put.apply(this, rest);
  };
}
