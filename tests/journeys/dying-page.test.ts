/** A page that dies takes nothing with it that is older than a second. Made in Chromium alone, whose driver can let a page die. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens as withPage, builtPage, checkAccess, goToFile, intoView, SHORT } from './harness.ts';
import { size } from '../sizes.ts';
import { blank, head, line, notice, pageBeside, textOf, typed, untilKept } from './sheet-page.ts';

/** What is typed within this time before a page dies may be lost, ms: the promise is one second, and a busy machine types late. */
const PROMISED = 1000;

/** The page dies without a chance to say anything more. */
async function kill(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const crashed = page.waitForEvent('crash');
  void session.send('Page.crash').catch(() => undefined);
  await crashed;
  await page.close();
}

describe('a page that dies while somebody types', () => {
  test('loses nothing older than a second', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      let open = page;
      for (let round = 0; round < size(4, 100); round += 1) {
        await intoView(line(open, 'F'));
        await blank(open, 'F').fill('');
        const stamps: number[] = [];
        const pace = 60 + ((round * 97) % 300);
        for (let i = 0; i < Math.ceil(2600 / pace); i += 1) {
          await open.keyboard.type('1');
          stamps.push(await open.evaluate(() => Date.now()));
          await new Promise((done) => setTimeout(done, pace));
        }
        const died = await open.evaluate(() => Date.now());
        await kill(open);
        open = await pageBeside(page.context().pages()[0] ?? open).catch(async () => {
          const fresh = await page.context().newPage();
          await goToFile(fresh, builtPage);
          return fresh;
        });
        const [text = ''] = await typed(open, 'F');
        const lost = stamps[text.length];
        expect(lost === undefined ? 0 : died - lost, `round ${round}, a key every ${pace} ms`).toBeLessThanOrEqual(PROMISED);
      }
    });
  });

  test('keeps what stood in a blank that is entered only when it is left, and offers to enter it', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const counter = page.locator('[data-cell="test"]').getByLabel('Counter at the start', { exact: true }).last();
      await intoView(counter);
      // What is emptied again is no draft.
      await counter.pressSequentially('77');
      await counter.press('Backspace');
      await counter.press('Backspace');
      await untilKept(page);
      await page.reload();
      await intoView(counter);
      expect(await notice(page).count()).toBe(0);
      await counter.pressSequentially('0012345');
      await untilKept(page);
      const other = await page.context().newPage();
      await kill(page);
      await goToFile(other, builtPage);
      await expect.poll(() => textOf(notice(other))).toMatch(/“0012345” was typed in “Counter at the start” and not entered yet/);
      await checkAccess(other);
      await head(other).getByRole('button', { name: 'Enter it there' }).click();
      await untilKept(other);
      await other.reload();
      await expect.poll(() => other.locator('[data-cell="test"]').getByLabel('Counter at the start', { exact: true }).last().inputValue()).toBe('0012345');
      expect(await notice(other).count()).toBe(0);
    });
  });
});
