/** States held, compared and gone back to, with the keyboard only. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { shipped } from '../shipped.ts';
import { checkAccess, download, intoView, screenshot, SHORT, withPage } from './harness.ts';
import { bringIn, chooseTakeaway, expectNoLeaks, head, line, plain, textOf, typed, typeOver } from './sheet-page.ts';

/** Focuses by name, as a reader who tabs there; what is pressed then is pressed by key. */
async function press(page: Page, name: string | RegExp): Promise<void> {
  await page.locator('.head, .title-block, .side, .strip-place').getByRole('button', { name, exact: typeof name === 'string' }).first().focus();
  await page.keyboard.press('Enter');
}

const standard = shipped('rotating-bending');

const shift = (page: Page, symbol: string) => line(page, symbol).locator('.margin .shift');

async function holdAs(page: Page, name: string): Promise<void> {
  await head(page).getByLabel('Hold what the sheet says now under the name').focus();
  await page.keyboard.type(name);
  await page.keyboard.press('Enter');
  await head(page).getByRole('textbox', { name: `Name of the held state ${name}` }).waitFor();
}

/** The standard sheet as another team filled it in. */
function otherTeam(team: string, diameter: string): string {
  const before = /```given\nsymbol: d\n[\s\S]*?```/;
  return standard.replace(/^team:.*$/m, `team: ${JSON.stringify(team)}`)
    .replace(before, (cell) => cell.replace(/^(?:value|readings):.*\n/gm, '').replace('symbol: d\n', `symbol: d\nvalue: ${JSON.stringify(diameter)}\n`));
}

describe('hold and compare', () => {
  test.each(['desktop', 'phone'] as const)('with the keyboard, %s', async (size) => {
    await withPage({ sheet: SHORT, size }, async ({ page }) => {
      await typeOver(page, 'd', '7.00 mm');
      await press(page, 'Hold');
      expect(await page.locator('.panel').textContent()).toContain('keeps what stands in the blanks');
      await holdAs(page, 'as built');
      await press(page, 'Compare with this: as built');
      await head(page).getByRole('button', { name: 'Compare with this: as built', pressed: true }).waitFor();
      await page.keyboard.press('Escape');
      await page.locator('.reference-band').waitFor();

      // sigma = 32 M/(pi d^3): from 7.00 mm to 7.35 mm it falls by 1 − (7/7.35)^3 = 13.6 % (any textbook of strength of materials).
      await typeOver(page, 'd', '7.35 mm');
      await shift(page, 'sigma_a').waitFor();
      // Lines are drawn one after the other.
      await expect.poll(async () => plain(await textOf(shift(page, 'd')))).toContain('+0.350 mm, +5.00 % from “as built”');
      await expect.poll(async () => plain(await textOf(shift(page, 'sigma_a')))).toMatch(/lower: -[\d.]+ MPa, -13\.6 % from “as built”/);
      await expect.poll(async () => plain(await textOf(shift(page, 'N_f')))).toMatch(/higher: × [\d.]+ from “as built”/);
      expect(await shift(page, 'R_A').count()).toBe(0);
      await intoView(line(page, 'sigma_a'));
      await screenshot(page, `hold-margin-${size}`, { fullPage: false });
      // Forces, shear and moment are the same with another diameter; with another span the held ones stand behind.
      await typeOver(page, 's_1', '110 mm');
      const drawn = (title: string) => page.locator('main svg.drawing').filter({ has: page.locator('title', { hasText: title }) }).first();
      for (const title of ['Free-body drawing', 'Shear force and bending moment']) {
        await drawn(title).locator('.held-outline').first().waitFor({ state: 'attached' });
        await intoView(drawn(title));
        await screenshot(page, `hold-${title.split(' ')[0]?.toLowerCase() ?? ''}-${size}`, { fullPage: false });
      }
      await press(page, 'undo');
      await drawn('Free-body drawing').locator('.held-outline').first().waitFor({ state: 'detached' });

      await press(page, /^Hold \(1 held\)/);
      await holdAs(page, 'thicker');
      const table = page.locator('.panel .held-table');
      await expect.poll(async () => plain(await textOf(table))).toContain('-13.6 %');
      expect(await table.getByRole('columnheader').allTextContents()).toEqual([expect.stringMatching(/^Now/), expect.stringMatching(/^as built \(reference\)/), expect.stringMatching(/^thicker/)]);
      expect(plain(await textOf(table))).toContain('Minimum diameter');
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      expect(wide).toBeLessThanOrEqual(0);
      await page.evaluate(() => scrollTo(0, 0));
      await screenshot(page, `hold-panel-${size}`, { fullPage: false });
      await checkAccess(page);
      await expectNoLeaks(page);

      await press(page, 'Go back to it: as built');
      await expect.poll(() => typed(page, 'd')).toEqual(['7.00 mm']);
      await expect.poll(() => shift(page, 'sigma_a').count()).toBe(0);
      // With the focus still in the head of the page, the history is the sheet's.
      await page.keyboard.press('Control+z');
      await expect.poll(() => typed(page, 'd')).toEqual(['7.35 mm']);
      await page.keyboard.press('Control+Shift+z');
      await expect.poll(() => typed(page, 'd')).toEqual(['7.00 mm']);
      await page.keyboard.press('Control+z');
      await expect.poll(() => typed(page, 'd')).toEqual(['7.35 mm']);
      // A text field that was just changed has its own.
      await head(page).getByLabel('Hold what the sheet says now under the name').focus();
      await page.keyboard.type('ab');
      await page.keyboard.press('Control+z');
      expect(await typed(page, 'd')).toEqual(['7.35 mm']);

      await head(page).getByRole('textbox', { name: 'Name of the held state thicker' }).focus();
      await page.keyboard.press('Control+A');
      await page.keyboard.type('as built');
      await page.keyboard.press('Enter');
      await expect.poll(() => page.locator('.panel .refused').textContent()).toContain('held under the name “as built” already');
      await press(page, 'Drop thicker');
      await head(page).getByRole('button', { name: /^Hold \(1 held\)/ }).waitFor();
    });
  }, 300_000);

  test('held states are in the document, the report and the table taken away', async () => {
    await withPage({ sheet: SHORT, size: 'desktop' }, async ({ page }) => {
      await press(page, 'Hold');
      await holdAs(page, 'T4');
      await press(page, 'Compare with this: T4');
      await typeOver(page, 'd', '7.00 mm');
      const csv = await download(page, () => press(page, 'Take the table away (CSV)'));
      expect(csv.text).toMatch(/^Quantity,Symbol,Now,Now from T4,T4\r\n"Minimum diameter/);
      const document = await download(page, () => chooseTakeaway(page, 'Document'));
      expect(document.text).toMatch(/held:\n {2}- name: T4\n {4}at: 20\d\d-[^\n]+\n {4}inputs:\n/);
      const { text } = await download(page, () => chooseTakeaway(page, 'Report'));
      expect(text).toContain('Compared with the held state “T4”');
      expect(text).toContain('class="held-table"');
    });
  });

  test('another team’s file, a kept sheet and files that mean harm as held states', async () => {
    await withPage({ sheet: SHORT, size: 'desktop' }, async ({ page }) => {
      await typeOver(page, 'd', '7.00 mm');
      await press(page, 'Hold');
      const choose = (name: string, content: string | Buffer): Promise<void> =>
        head(page).getByLabel('Hold what files say').setInputFiles({ name, mimeType: 'application/octet-stream', buffer: Buffer.from(content) });
      const refused = page.locator('.panel .refused');

      await choose('team-b.md', otherTeam('Team B', '7.35 mm'));
      await head(page).getByRole('textbox', { name: 'Name of the held state Team B' }).waitFor();
      await press(page, 'Compare with this: Team B');
      await line(page, 'd').locator('.margin .shift').waitFor();
      expect(plain(await textOf(shift(page, 'd')))).toContain('-0.350 mm, -4.76 % from “Team B”');

      await choose('else.html', '<!doctype html><title>x</title><script>window.hit=1</script>');
      await expect.poll(() => refused.textContent()).toMatch(/does not hold a worksheet/);
      await choose('picture.md', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3, 0xff, 0xfe]));
      await expect.poll(() => refused.textContent()).toMatch(/not text/);
      await choose('bare.md', '---\ntitle: Bare\n---\n```given\nsymbol: other\nvalue: 1 mm\nunit: mm\n```\n');
      await expect.poll(() => refused.textContent()).toMatch(/none of the blanks, choices and tables of this one/);
      expect(await page.locator('.held-list li').count()).toBe(1);

      const attack = '"><script>window.hit=1</script><img src=x onerror="window.hit=1">';
      const harm = otherTeam(`${attack}${'x'.repeat(300)}`, attack).replace('---\n', `---\nheld:\n  - name: ${JSON.stringify(attack)}\n    inputs: [1, {__proto__: 2}]\n`);
      await choose('harm.md', harm);
      await expect.poll(() => page.locator('.held-list li').count()).toBe(2);
      expect(await refused.count()).toBe(0);
      expect(await head(page).getByRole('textbox', { name: /^Name of the held state ">/ }).inputValue()).toBe(`${attack}${'x'.repeat(300)}`.slice(0, 50));
      await expect.poll(() => page.locator('.panel .held-table').textContent()).toContain('no value');
      expect(await page.evaluate(() => (window as unknown as { hit?: number }).hit)).toBeUndefined();
      expect(await page.locator('.panel script, .panel img').count()).toBe(0);
      expect(await typed(page, 'd')).toEqual(['7.00 mm']);
      await expectNoLeaks(page);

      // A copy of the sheet, in which the diameter is another: what is kept under the first can be held there.
      await page.keyboard.press('Escape');
      await press(page, 'Sheets');
      await press(page, 'A copy of this one');
      await typeOver(page, 'd', '6.50 mm');
      await press(page, /^Hold \(2 held\)/);
      const list = head(page).getByLabel('Hold what another sheet says');
      const first = await list.locator('option').nth(1).getAttribute('value');
      await list.selectOption(first);
      await expect.poll(() => page.locator('.held-list li').count()).toBe(3);
      await expect.poll(async () => plain(await textOf(page.locator('.panel .held-table tbody').first()))).toMatch(/6\.50.*7\.35.*7\.00/);
    });
  }, 300_000);

  test('what the sheet no longer has of the reference is told at its head', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      const text = otherTeam('T', '7.00 mm').replace('---\n', '---\nheld:\n  - name: last year\n    inputs: {d_0: 7.00 mm, d: 7.35 mm}\nheld_reference: last year\n');
      await bringIn(page, { name: 'own.md', mimeType: 'text/markdown', buffer: Buffer.from(text) });
      const band = page.locator('main .reference-band');
      await band.waitFor();
      // The symbol is set, with its index below the line.
      expect(plain(await textOf(band))).toContain('Of the held state “last year”: No given or choice of this sheet is called d 0.');
      await shift(page, 'd').waitFor();
      await intoView(band);
      await screenshot(page, 'hold-stale-phone', { fullPage: false });
      await checkAccess(page);
      await press(page, 'stop comparing');
      await band.waitFor({ state: 'detached' });
    });
  });

  test('a table of specimens is held too: the line of then stands behind the one of now', async () => {
    await withPage({ sheet: SHORT, size: 'desktop' }, async ({ page }) => {
      await bringIn(page, { name: 'class.md', mimeType: 'text/markdown', buffer: Buffer.from(shipped('sn-line')) });
      await page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).and(page.locator('textarea')).waitFor();
      await press(page, 'Hold');
      await holdAs(page, 'all of us');
      await press(page, 'Compare with this: all of us');
      await page.keyboard.press('Escape');
      const cell = page.locator('[data-cell="specimens"] tbody textarea, [data-cell="specimens"] tbody input').nth(3);
      await cell.focus();
      await page.keyboard.press('Control+A');
      await page.keyboard.type('20000');
      await page.keyboard.press('Enter');
      // Drawn when it comes into view.
      await intoView(page.locator('.chart-drawn').first());
      const chart = page.locator('[data-cell] svg.chart').first();
      await chart.locator('.held-line').first().waitFor({ state: 'attached' });
      await intoView(chart);
      await screenshot(page, 'hold-class-chart', { fullPage: false });
      await expect.poll(() => textOf(page.locator('[data-cell="specimens"] .margin'))).toMatch(/In “all of us”: \d+ rows, 1 of them not there now\./);
      await press(page, /^Hold \(1 held\)/);
      await expect.poll(async () => plain(await textOf(page.locator('.panel .held-table')))).toMatch(/Rows of the table: .*rows, 1 of them not there now/);
      await page.evaluate(() => scrollTo(0, 0));
      await screenshot(page, 'hold-class-panel', { fullPage: false });
      await press(page, 'Go back to it: all of us');
      await chart.locator('.held-line').first().waitFor({ state: 'detached' });
      await expectNoLeaks(page);
    });
  }, 300_000);
});
