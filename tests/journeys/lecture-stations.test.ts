/** The lecture view shows every station of every sheet whole: nothing is cut off on the wall. */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { withPage } from './harness.ts';
import { textOf } from './sheet-page.ts';
import { untilDrawn } from './tap-watch.ts';

/** Every station of a sheet with all that it shows: what is cut off, scrolls, or reaches beyond the window. */
async function cutOff(page: Page): Promise<{ readonly count: number; readonly steps: number; readonly cut: string[] }> {
  return page.evaluate(async () => {
    const press = (key: string): boolean => document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    const place = (): string => document.querySelector('.lecture-bar .count')?.textContent?.replace(/\s+/g, ' ') ?? '';
    const frames = async (): Promise<void> => {
      await new Promise<void>((done) => requestAnimationFrame(() => setTimeout(done)));
    };
    const overflows = (element: Element): boolean => element.scrollWidth > element.clientWidth + 1 || element.scrollHeight > element.clientHeight + 1;
    const cut: string[] = [];
    const seen = new Set<string>();
    let steps = 0;
    press('Home');
    for (let presses = 0; presses < 2000; presses += 1) {
      const here = place();
      const shown = [...document.querySelectorAll<HTMLElement>('.sheet > [data-lecture]')];
      const stage = shown.filter((cell) => cell.dataset['lecture'] === 'stage');
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
        // Parts are asked for theirs: to look for all of them at once takes the long way through the sheet.
        const parts = [...shown, ...document.querySelectorAll('.lecture-wall, .lecture-strip, .lecture-bar')];
        for (const element of parts.flatMap((part) => [...part.querySelectorAll<HTMLElement>('*')])) {
          const { left, right, top, bottom, width, height } = element.getBoundingClientRect();
          const mayScroll = element.clientWidth > 0 && overflows(element);
          const reachesOut = width > 0 && height > 0 && (left < -1 || right > innerWidth + 1 || (!mayBeTall && (top < -1 || bottom > innerHeight + 1)));
          // Few do either: only these are asked for what takes long to tell.
          if (!mayScroll && !reachesOut) continue;
          if (!element.checkVisibility() || element.closest('.katex-mathml, .visually-hidden, .vlist-t, svg *, .writing') !== null) continue;
          const style = getComputedStyle(element);
          if (mayScroll && /auto|scroll/.test(style.overflowX + style.overflowY)) cut.push(`${name}: ${element.className} scrolls`);
          if (reachesOut) cut.push(`${name}: ${element.tagName} ${element.className} reaches to ${Math.round(right)}, ${Math.round(bottom)}`);
        }
      }
      const before = `${here} ${stage[0]?.dataset['reveals'] ?? ''} ${document.querySelector('.sheet')?.scrollTop ?? 0}`;
      press('PageDown');
      const after = document.querySelector<HTMLElement>('.sheet > [data-lecture="stage"]');
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
      await withPage({ sheet: name, isToldWhole: true, context: { viewport: { width, height }, deviceScaleFactor: 1 } }, async ({ page }) => {
        await untilDrawn(page);
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
