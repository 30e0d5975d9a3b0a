/** A tap goes where the finger is, and a pointer pushes nothing: nothing moves between the touch and the click, whatever is tapped after whatever. */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { size } from '../sizes.ts';
import { colours, intoView, screenshot, withPage } from './harness.ts';
import { line, textOf } from './sheet-page.ts';
import { tapAll, untilDrawn, watchTaps, type Tap } from './tap-watch.ts';

const worksheets = fileURLToPath(new URL('../../worksheets/', import.meta.url));
const sheets = readdirSync(worksheets).filter((name) => name.endsWith('.md')).sort();

/** Kinds of controls that were tapped on a sheet before. In full size each sheet is tapped all over. */
const known = size(1, 0) === 1 ? new Set<string>() : undefined;

const amiss = (taps: readonly Tap[]): readonly Tap[] => taps.filter(({ reached, moved }) => !reached || moved.length > 0);

describe('with a finger', () => {
  test.each(sheets)('every control of %s is reached, and nothing moves under it', async (name) => {
    await withPage({ sheet: name, size: 'phone', before: watchTaps, context: { deviceScaleFactor: 1 } }, async ({ page }) => {
      await untilDrawn(page);
      const { taps, kinds, left } = await tapAll(page, '.title-block, .sheet > .cell', { alike: size(4, 1e6), ...(known && { known }) });
      expect(amiss(taps), JSON.stringify(amiss(taps))).toEqual([]);
      expect(left.filter((why) => !why.startsWith('gone'))).toEqual([]);
      for (const kind of ['button', 'text']) expect(kinds.get(kind) ?? 0, kind).toBeGreaterThan(0);
      expect(taps.length).toBeGreaterThan(5);
    });
  });

  for (const colorScheme of colours) {
    test(`what can be done with a line opens below it and is reached: ${colorScheme}`, async () => {
      await withPage({ size: 'phone', before: watchTaps, colorScheme }, async ({ page }) => {
        await untilDrawn(page);
        for (const [symbol, press, fewest] of [['L', 'input.blank', 6], ['sigma_a', '.result', 8]] as const) {
          const here = line(page, symbol);
          await intoView(here);
          await here.locator(press).first().tap();
          await here.locator('.menu-button').waitFor();
          await screenshot(page, `taps-${symbol}-${colorScheme}`, { fullPage: false });
          const { taps, left } = await tapAll(page, `[data-symbol="${symbol}"]`, { opener: here.locator(press).first() });
          expect(amiss(taps), JSON.stringify(amiss(taps))).toEqual([]);
          expect(left.filter((why) => !why.startsWith('gone'))).toEqual([]);
          expect(taps.length).toBeGreaterThanOrEqual(fewest);
        }
        await screenshot(page, `taps-opened-${colorScheme}`, { fullPage: false });
      });
    });
  }

  test('a result of one’s own brings lines to light only once the tap that leaves its blank has come to its own', async () => {
    await withPage({ size: 'phone', before: watchTaps }, async ({ page }) => {
      await untilDrawn(page);
      await page.locator('.title-block').getByRole('checkbox', { name: 'hide results until I have worked them out' }).tap();
      const first = line(page, 'W').locator('.answer-blank');
      await intoView(first);
      await first.tap();
      await page.keyboard.type('308.5 N');
      const { taps } = await tapAll(page, '.cell-step:has(.answer-blank)', { first: 12 });
      // A tap on a line’s control may put others away.
      expect(taps.length).toBeGreaterThan(5);
      expect(amiss(taps), JSON.stringify(amiss(taps))).toEqual([]);
      await expect.poll(() => textOf(line(page, 'W'))).toContain('Yours: 308.5 N');
    });
  });

  test('a remark that is left closes only after the tap', async () => {
    await withPage({ size: 'phone', before: watchTaps }, async ({ page }) => {
      await untilDrawn(page);
      const remark = page.locator('[data-cell="aim"]');
      await remark.locator('.text').tap();
      await expect.poll(() => remark.locator('.writing').evaluate((one) => one.clientHeight)).toBeGreaterThan(40);
      await page.keyboard.type('By hand. ');
      const { taps } = await tapAll(page, '[data-cell="aim"] ~ .cell-given', { first: 3 });
      expect(taps.length).toBeGreaterThan(0);
      expect(amiss(taps), JSON.stringify(amiss(taps))).toEqual([]);
      expect(await remark.locator('.writing').evaluate((one) => one.clientHeight)).toBeLessThan(40);
    });
  });
});

describe('with a pointer', () => {
  test.each(['rotating-bending.md', 'sn-line.md'])('pointing at the lines of %s, and pressing them, pushes nothing', async (name) => {
    await withPage({ sheet: name }, async ({ page }) => {
      await untilDrawn(page);
      const tops = (): Promise<number[]> => page.locator('.sheet > .cell').evaluateAll((cells) => cells.map((cell) => Math.round(cell.getBoundingClientRect().top + scrollY)));
      for (const kind of ['cell-given', 'cell-step', 'cell-choice', 'cell-check', 'cell-table', 'cell-remark', 'cell-fit', 'cell-prose', 'cell-checklist']) {
        const one = page.locator(`.sheet > .${kind}`).first();
        if ((await one.count()) === 0) continue;
        await page.mouse.move(0, 0);
        await one.evaluate((element) => element.scrollIntoView({ block: 'center' }));
        // What came near is set, and a chart is drawn, when the page has nothing better to do: still is what two rests of it leave as it was.
        await expect.poll(async () => {
          const before = JSON.stringify(await tops());
          await page.evaluate(() => new Promise<void>((done) => requestIdleCallback(() => requestAnimationFrame(() => requestIdleCallback(() => done())))));
          return JSON.stringify(await tops()) === before;
        }).toBe(true);
        const before = await tops();
        const box = await one.locator('.line').boundingBox();
        if (box === null) throw new Error(`no ${kind}`);
        await page.mouse.move(box.x + 5, box.y + 5);
        expect(await tops(), kind).toEqual(before);
        await page.mouse.down();
        expect(await tops(), kind).toEqual(before);
        await page.mouse.up();
      }
      await line(page, name === 'sn-line.md' ? 'S_x' : 'sigma_a').hover();
      await screenshot(page, `pointing-${name}`, { fullPage: false });
    });
  });
});
