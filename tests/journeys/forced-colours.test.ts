/** Colours chosen by the reader's system, and controls that are seen at rest by those who can not find them with a pointer. */
import { expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { intoView, screenshot, withPage } from './harness.ts';
import { blank, fill, head, line, scrollThrough } from './sheet-page.ts';

/** Runs in the page: texts in view that stand out less than 4.5:1 from what is behind them, in the colours that are drawn. */
function faintTexts(): string[] {
  const channels = (colour: string): number[] => (colour.match(/[\d.]+/g) ?? []).map(Number);
  const light = (colour: readonly number[]): number => {
    const [r = 0, g = 0, b = 0] = colour.map((channel) => {
      const part = channel / 255;
      return part <= 0.03928 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const over = (upper: readonly number[], lower: readonly number[]): number[] => [0, 1, 2].map((i) => (upper[i] ?? 0) * (upper[3] ?? 1) + (lower[i] ?? 0) * (1 - (upper[3] ?? 1)));
  const groundOf = (element: Element | null): number[] => {
    if (element === null) return [255, 255, 255];
    const own = channels(getComputedStyle(element).backgroundColor);
    return (own[3] ?? 1) === 1 ? own : over(own, groundOf(element.parentElement));
  };
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const faint: string[] = [];
  while (walk.nextNode() !== null) {
    const element = walk.currentNode.parentElement;
    const text = (walk.currentNode.textContent ?? '').trim();
    if (element === null || text === '' || element.closest('script, style, math, title, .visually-hidden') !== null) continue;
    if (!element.checkVisibility({ opacityProperty: true, visibilityProperty: true, contentVisibilityAuto: true })) continue;
    const style = getComputedStyle(element);
    const ink = element instanceof SVGElement ? style.fill : style.color;
    const ground = groundOf(element);
    const [more = 0, less = 0] = [light(over(channels(ink), ground)), light(ground)].sort((one, other) => other - one);
    if ((more + 0.05) / (less + 0.05) < 4.5) faint.push(`“${text.slice(0, 40)}” ${ink} on ${ground.map(Math.round).join(' ')}`);
  }
  return [...new Set(faint)];
}

/** Runs in the page: what can be pressed at one place of less than 24 by 24 px (WCAG 2.2, 2.5.8); words within a sentence may be. */
function smallTargets(): string[] {
  // Less a rounding of the layout's fractions.
  const least = 24 - 0.05;
  const isSeen = (one: Element): boolean => one.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && getComputedStyle(one).clipPath === 'none';
  const isHidden = (one: Element): boolean => one.closest('.writing:not([data-open]), .past-head') !== null;
  return [...document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, summary, label:has(> input[type=file]), [role=slider]')].flatMap((one) => {
    if (!isSeen(one) || isHidden(one) || getComputedStyle(one).display === 'inline') return [];
    const face = one.matches('[type=checkbox], [type=radio]') ? (one.closest('label') ?? one) : one;
    const { width, height } = face.getBoundingClientRect();
    // What takes presses around itself does so by a part that is drawn before it.
    const around = parseFloat(getComputedStyle(face, '::before').height);
    const high = face.matches('.typed-over') && Number.isFinite(around) ? Math.max(height, around) : height;
    return width < least || high < least ? [`${face.tagName} ${face.className} “${(face.getAttribute('aria-label') ?? face.textContent ?? '').trim().slice(0, 30)}” ${width} × ${high}`] : [];
  });
}

/** Runs in the page: words that the mark of a line's menu lies over, by its place at rest. What is folded away is measured where it would stand and is seen by nobody: it is looked at unfolded. */
function textsUnderMarks(): string[] {
  const marks = [...document.querySelectorAll('.sheet > .cell .menu-button svg')].map((mark) => ({ box: mark.getBoundingClientRect(), cell: mark.closest('.cell') }));
  return marks.flatMap(({ box: mark, cell }) =>
    [cell, cell?.nextElementSibling].flatMap((part) => {
      if (part === null || part === undefined) return [];
      const under: string[] = [];
      const walk = document.createTreeWalker(part, NodeFilter.SHOW_TEXT, (node) => (node.parentElement?.closest('math, .visually-hidden, .writing, option') || node.parentElement?.checkVisibility() === false ? NodeFilter.FILTER_REJECT : NodeFilter.FILTER_ACCEPT));
      while (walk.nextNode() !== null) {
        const range = document.createRange();
        range.selectNodeContents(walk.currentNode);
        // The lines of the mark stand in the middle half of its picture, as letters do in that of their line.
        // Of a long note the beginning is seen.
        const seenTo = walk.currentNode.parentElement?.closest('.said')?.getBoundingClientRect().bottom ?? Number.POSITIVE_INFINITY;
        const isUnder = [...range.getClientRects()].some((box) =>
          box.top < seenTo - 1 && box.left < mark.right && box.right > mark.left && box.top + box.height / 4 < mark.bottom - mark.height / 4 && box.bottom - box.height / 4 > mark.top + mark.height / 4);
        if (isUnder) under.push(`${cell?.getAttribute('data-cell')}: “${walk.currentNode.textContent?.trim().slice(0, 40)}”`);
      }
      return under;
    }));
}

const layOut = (page: Page): Promise<void> => page.evaluate(() => document.querySelectorAll<HTMLElement>('.sheet > .cell').forEach((cell) => { cell.style.contentVisibility = 'visible'; }));

const look = (one: Locator): Promise<Readonly<Record<'outline' | 'edge' | 'line' | 'seen', string>>> =>
  one.evaluate((element) => {
    const { outlineStyle, outlineWidth, borderBottomStyle, outlineColor, opacity, visibility, pointerEvents } = getComputedStyle(element);
    return { outline: `${outlineStyle} ${outlineWidth}`, edge: borderBottomStyle, line: outlineColor, seen: `${opacity} ${visibility} ${pointerEvents}` };
  });

test('in forced colours every text can be read, and lines tell what washes and shades did', async () => {
  await withPage({ context: { forcedColors: 'active' } }, async ({ page }) => {
    await scrollThrough(page);
    await head(page).getByRole('button', { name: /^Hold/ }).click();
    await head(page).getByLabel('Hold what the sheet says now under the name').fill('as built');
    await page.keyboard.press('Enter');
    const compare = head(page).getByRole('button', { name: 'Compare with this: as built' });
    await compare.click();
    await line(page, 'L').locator('input.blank').first().focus();
    expect((await look(compare)).outline).toBe('solid 2px');

    // Wrong, at rest, and with the focus.
    await fill(page, 'd', '6.35 kg');
    await line(page, 'd').locator('.problem').first().waitFor();
    expect((await look(blank(page, 'd'))).edge).toBe('dashed');
    expect((await look(blank(page, 'x_s'))).edge).toBe('solid');
    await fill(page, 'd', '7.1 mm');
    await blank(page, 'x_s').focus();
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Tab');
    expect(await look(blank(page, 'x_s'))).toMatchObject({ outline: 'solid 3px' });

    // What can be done with a line is there without a pointer.
    const stress = line(page, 'sigma_a');
    await intoView(stress);
    expect((await look(stress.locator('.menu-button'))).seen).toBe('1 visible auto');
    const [numbers, fold] = [stress.getByRole('button', { name: 'numbers', exact: true }), stress.getByRole('button', { name: 'fold', exact: true })];
    expect((await look(numbers)).outline).toBe('solid 2px');
    expect((await look(fold)).outline).toMatch(/^none/);
    await stress.getByRole('button', { name: 'uncertainty budget', exact: true }).click();
    await stress.locator('.budget-table').waitFor();

    await layOut(page);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await page.evaluate(faintTexts), colorScheme).toEqual([]);
      await screenshot(page, `forced-colours-${colorScheme}`, { fullPage: false });
    }
    expect(await page.evaluate(smallTargets)).toEqual([]);

    await page.keyboard.press('F8');
    await page.locator('.lecture-bar').waitFor();
    await page.keyboard.press('c');
    await page.locator('.lecture-chain').getByTitle('Nominal stress amplitude', { exact: true }).click();
    await page.keyboard.press('c');
    await page.locator('.lecture-chain [aria-current]').waitFor();
    await page.locator('.lecture-bar').getByRole('button', { name: 'more' }).click();
    expect((await look(page.locator('.lecture-bar').getByRole('button', { name: /^chain/ }))).outline).toBe('solid 2px');
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await page.evaluate(faintTexts), `${colorScheme}, the chain`).toEqual([]);
      await screenshot(page, `forced-colours-chain-${colorScheme}`, { fullPage: false });
    }
  });
});

test('with a finger what can be done is seen at rest, is large enough, and lies over no text', async () => {
  await withPage({ size: 'phone', context: { deviceScaleFactor: 1 } }, async ({ page }) => {
    await scrollThrough(page);
    await layOut(page);
    for (const one of ['sigma_a', 'd', 'n']) expect((await look(line(page, one).locator('.menu-button'))).seen, one).toBe('1 visible auto');
    expect((await look(line(page, 'd').locator('.instrument .light'))).seen).toBe('1 visible auto');
    expect((await look(line(page, 'd').getByRole('button', { name: /^add a reading of/ }))).seen).toBe('1 visible auto');
    expect(await page.evaluate(smallTargets)).toEqual([]);
    expect(await page.evaluate(textsUnderMarks)).toEqual([]);
    await page.locator('.sheet > .cell .sets').evaluateAll((folds) => folds.forEach((fold) => (fold as HTMLDetailsElement).open = true));
    expect(await page.evaluate(textsUnderMarks), 'with what options set unfolded').toEqual([]);
    for (const width of [390, 360]) {
      await page.setViewportSize({ width, height: 780 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), `${width}`).toBeLessThanOrEqual(0);
    }
  });
});
