/** The lecture view shows every station of every sheet whole, in letters that the last row can read: nothing is cut off on the wall. */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { withPage } from './harness.ts';
import { textOf } from './sheet-page.ts';
import { untilDrawn } from './tap-watch.ts';

/** Every station of a sheet with all that it shows: what is cut off, scrolls, or reaches beyond the window. */
async function cutOff(page: Page): Promise<{ readonly count: number; readonly steps: number; readonly cut: string[]; readonly small: string[] }> {
  return page.evaluate(async () => {
    const press = (key: string): boolean => document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    const place = (): string => document.querySelector('.lecture-bar .count')?.textContent?.replace(/\s+/g, ' ') ?? '';
    /** All that a press can change. */
    const spot = (): string => {
      const cell = document.querySelector<HTMLElement>('.sheet > [data-lecture="stage"]');
      const aside = [...(cell?.querySelectorAll('.ruled, .symbols, .numbers') ?? [])].map(({ scrollLeft }) => scrollLeft);
      return `${place()} ${cell?.dataset['reveals'] ?? ''} ${document.querySelector('.sheet')?.scrollTop ?? 0} ${aside.join(' ')}`;
    };
    const frames = async (): Promise<void> => {
      await new Promise<void>((done) => requestAnimationFrame(() => setTimeout(done)));
    };
    const overflows = (element: Element): boolean => element.scrollWidth > element.clientWidth + 1 || element.scrollHeight > element.clientHeight + 1;
    const cut: string[] = [];
    const PADDING = 16;
    const small = new Set<string>();
    /** Letters below 28 px of a wall of 1280 by 720, of figures below 20, of equations below 20 where they are indices and exponents; also those not told yet, which have their place. */
    const measure = (part: Element): void => {
      const texts = document.createTreeWalker(part, NodeFilter.SHOW_TEXT);
      while (texts.nextNode()) {
        const text = texts.currentNode as Text;
        const element = text.parentElement;
        // KaTeX puts signs without width where a line may end.
        if (element === null || text.data.replace(/[\s\u200b]/g, '') === '' || element.closest('.katex-mathml, .visually-hidden, option, title, desc, [hidden], .writing, .sentence') !== null) continue;
        if (!element.checkVisibility()) continue;
        const drawing = element.closest('svg');
        const size = parseFloat(getComputedStyle(element).fontSize) * (drawing === null ? 1 : (element as unknown as SVGGraphicsElement).getScreenCTM?.()?.a ?? 1);
        const isFine = drawing !== null || element.closest('.mtight, sub, sup') !== null;
        // On a larger wall indices in figures stay at that.
        const least = (isFine ? 20 : 28) * (element.closest('.subscript, .axis-figure') !== null ? 1 : innerHeight / 720);
        if (size < least - 0.05) small.add(`${size.toFixed(1)} “${text.data.trim().slice(0, 20)}” in ${element.className.toString() || element.tagName} of ${part.id || part.className}`);
      }
    };
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
        for (const around of document.querySelectorAll<HTMLElement>('.sheet, .lecture-wall')) {
          if (around.checkVisibility() && around.scrollWidth > around.clientWidth + 1) cut.push(`${name}: ${around.className} scrolls`);
        }
        // Parts are asked for theirs: to look for all of them at once takes the long way through the sheet.
        for (const part of [...shown, ...document.querySelectorAll('.lecture-wall:not([hidden]), .lecture-strip, .lecture-bar')]) measure(part);
        const parts = [...shown, ...document.querySelectorAll('.lecture-wall, .lecture-strip, .lecture-bar')];
        for (const element of parts.flatMap((part) => [...part.querySelectorAll<HTMLElement>('*')])) {
          const { left, right, bottom, width, height } = element.getBoundingClientRect();
          const mayScroll = element.clientWidth > 0 && overflows(element);
          const reachesOut = width > 0 && height > 0 && (left < -1 || right > innerWidth + 1);
          // Few do either: only these are asked for what takes long to tell.
          if (!mayScroll && !reachesOut) continue;
          // A wide table, or a line that can break nowhere, goes on to the side, screen by screen.
          if (!element.checkVisibility() || element.closest(':is(.ruled, .symbols, .numbers) *, .katex-mathml, .visually-hidden, .vlist-t, svg *, .writing') !== null) continue;
          const style = getComputedStyle(element);
          if (mayScroll && !element.matches('.ruled') && /auto|scroll/.test(style.overflowX + style.overflowY)) cut.push(`${name}: ${element.className} scrolls`);
          if (reachesOut) cut.push(`${name}: ${element.tagName} ${element.className} reaches to ${Math.round(right)}, ${Math.round(bottom)}`);
        }
      }
      // What is taller or wider than the wall has gone on screen by screen before the next station.
      const around = document.querySelector('.sheet')?.getBoundingClientRect();
      const [name, ends] = [stage.map((cell) => cell.dataset['cell']).join(' '), Math.max(0, ...stage.map((cell) => cell.getBoundingClientRect().bottom - (around?.bottom ?? 0)))];
      const aside = Math.max(0, ...stage.flatMap((cell) => [...cell.querySelectorAll('.ruled, .symbols, .numbers')].map((table) => table.scrollWidth - table.clientWidth - table.scrollLeft)));
      const before = spot();
      press('PageDown');
      if (place() !== here && (ends > PADDING || aside > 1)) cut.push(`${name} ends ${Math.round(ends)} px below the wall and ${Math.round(aside)} beside it`);
      if (spot() === before) break;
    }
    return { count: seen.size, steps, cut, small: [...small] };
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
        const { count, steps, cut, small } = await cutOff(page);
        expect(small).toEqual([]);
        expect(cut).toEqual([]);
        expect(count).toBe(Number(/\d+$/.exec(await textOf(page.locator('.lecture-bar .count')))?.[0]));
        expect(steps).toBe(await page.locator('.cell-step').count());
      });
    }, 300_000);
  }
});
