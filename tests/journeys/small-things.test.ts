/** Small things that somebody who sits before the page sees: what moves, what is written where, which colour says what. */
import { expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { asItOpens, checkAccess, colours, intoView, screenshot, SHORT, withPage } from './harness.ts';
import { blanks, fill, head, line, textOf } from './sheet-page.ts';

/** Where a block begins and how tall it is, with the two after it, seen from the block itself. */
async function around(page: Page, id: string): Promise<readonly number[]> {
  return page.evaluate((cell) => {
    const cells = [...document.querySelectorAll('.sheet > [data-cell]')];
    const at = cells.findIndex((one) => (one as HTMLElement).dataset['cell'] === cell);
    const top = cells[at]?.getBoundingClientRect().top ?? 0;
    return cells.slice(at, at + 3).flatMap((one) => [one.getBoundingClientRect().top - top, one.getBoundingClientRect().height]);
  }, id);
}

/** By how much the farthest of them moved; a rule below a blank may take a pixel. */
const farthest = (before: readonly number[], after: readonly number[]): number => Math.max(...before.map((place, i) => Math.abs(place - (after[i] ?? NaN))));
const A_RULE = 1.5;

/** Once nothing is laid out any more: what was out of view gets its equations, and its own height, when it comes near. */
async function atRest(page: Page, id: string): Promise<readonly number[]> {
  let before = await around(page, id);
  let still = 0;
  await expect.poll(async () => {
    const now = await around(page, id);
    still = farthest(before, now) === 0 ? still + 1 : 0;
    before = now;
    return still;
  }, { interval: 120, timeout: 15_000 }).toBeGreaterThanOrEqual(5);
  return before;
}

const style = (part: Locator, name: string): Promise<string> => part.evaluate((element, property) => getComputedStyle(element).getPropertyValue(property), name);

const KINDS = ['safety', 'e', 'runs-true', 'd', 'load', 'F', 'W', 'R_A', 'sigma_a', 'material', 'S_ut', 'N_f', 's-n', 'test', 'blocks'];

test.each([1440, 1000, 700])('pointing at a line or going into it moves nothing, %d px wide', async (width) => {
  await withPage({ context: { viewport: { width, height: 900 } } }, async ({ page }) => {
    await line(page, 'd').waitFor({ state: 'attached' });
    let looked = 0;
    for (const id of KINDS) {
      const cell = page.locator(`.sheet > [data-cell="${id}"]`);
      // In a part on demand that is closed.
      if (!(await cell.isVisible())) continue;
      looked += 1;
      await page.mouse.move(1, 1);
      await cell.evaluate((element) => element.scrollIntoView({ block: 'center' }));
      await expect.poll(() => cell.boundingBox()).not.toBeNull();
      const before = await atRest(page, id);
      await cell.locator('.line').hover({ position: { x: 40, y: 8 } });
      expect(farthest(before, await around(page, id)), `pointing at ${id}`).toBeLessThan(A_RULE);
      await page.mouse.move(1, 1);
      const control = cell.locator('input, select, textarea, button').first();
      await control.evaluate((element: HTMLElement) => element.focus({ preventScroll: true }));
      await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
      expect(farthest(before, await around(page, id)), `going into ${id}`).toBeLessThan(A_RULE);
      await control.evaluate((element: HTMLElement) => element.blur());
    }
    expect(looked).toBeGreaterThanOrEqual(8);
  });
});

test('what can be done with a line lies over no blank of the next', async () => {
  await withPage({}, async ({ page }) => {
    const before = page.locator('.sheet > .cell:has(> .line > .result-row > .line-actions):has(+ :is(.cell-given, .cell-choice))');
    await expect.poll(() => before.count()).toBeGreaterThanOrEqual(4);
    // What is out of view gets its height as it comes near.
    const over = await before.evaluateAll(async (cells) => {
      const told: string[] = [];
      for (const cell of cells) {
        cell.scrollIntoView({ block: 'center' });
        for (let frames = 0; frames < 4; frames += 1) await new Promise((done) => requestAnimationFrame(done));
        const by = (cell.querySelector('.line-actions')?.getBoundingClientRect().bottom ?? NaN) - (cell.nextElementSibling?.getBoundingClientRect().top ?? NaN);
        if (!(by <= 0)) told.push(`${cell.getAttribute('data-cell') ?? ''} by ${by} px`);
      }
      return told;
    });
    expect(over).toEqual([]);
    await line(page, 'k_d').locator('.line').hover({ position: { x: 40, y: 8 } });
    await screenshot(page, 'actions-above-a-blank', { fullPage: false });
  });
});

test('a new remark is one box to write in, and its first letter is a letter of the text', async () => {
  await asItOpens({ sheet: SHORT }, async ({ page }) => {
    await line(page, 'n').focus();
    await page.keyboard.press('Control+.');
    await page.getByRole('menu').waitFor();
    for (const letter of ['w', 'r']) await page.keyboard.press(letter);
    const remark = page.locator('.cell-remark').filter({ hasText: 'New remark' });
    const box = remark.getByRole('textbox', { name: 'New remark: your text' });
    await expect.poll(() => box.evaluate((field) => field === document.activeElement)).toBe(true);
    expect(await remark.getByRole('textbox').count()).toBe(1);
    await page.keyboard.type('W');
    await expect.poll(() => remark.locator('.text').textContent().then((text) => text?.trim())).toBe('W');
    expect(await remark.locator('.problem').count()).toBe(0);
    await page.keyboard.type('e polished it by hand.');
    await screenshot(page, 'remark-new', { fullPage: false });
    // While its own text is open, that is the box.
    await remark.focus();
    await page.keyboard.press('Control+.');
    await page.getByRole('menu').waitFor();
    await page.keyboard.press('t');
    await remark.getByRole('textbox', { name: /^Own text/ }).waitFor();
    expect(await remark.getByRole('textbox').count()).toBe(1);
    await checkAccess(page);
  });
});

test('what moved is in the ink of the page', async () => {
  await asItOpens({ sheet: SHORT }, async ({ page }) => {
    await fill(page, 'd', '7.4 mm');
    const moved = line(page, 'sigma_a').locator('.moved');
    await expect.poll(() => textOf(moved)).toMatch(/%/);
    expect(await style(moved, 'color')).toBe(await style(page.locator('.sheet'), 'color'));
  });
});

test('an own result is asked for with what counts as right, before the first try', async () => {
  await asItOpens({ sheet: SHORT }, async ({ page }) => {
    await page.getByRole('checkbox', { name: 'hide results until I have worked them out' }).check();
    const blank = line(page, 'I').getByRole('textbox');
    await intoView(blank);
    expect(await blank.getAttribute('placeholder')).toBe('your result, mm⁴');
    expect(await textOf(line(page, 'I').locator('.answer-rule'))).toBe('Right within 0.5 %. 3 tries, then the sheet’s shows.');
    expect(await blank.getAttribute('aria-describedby')).toBe(await line(page, 'I').locator('.answer-rule').getAttribute('id'));
    await screenshot(page, 'own-working-rule', { fullPage: false });
    const force = line(page, 'W').getByRole('textbox');
    await force.fill('308.5 kN');
    await force.press('Enter');
    await expect.poll(() => textOf(line(page, 'W').locator('.sentence'))).toBe('This is not the sheet’s. 2 tries are left. Just this comes of a power of ten: 1000 times too large, so look at the units put in.');
    await checkAccess(page);
  });
});

test.each(colours)('on a telephone no field is smaller than 16 px, boxes are drawn, and the menu closes outside: %s', async (colorScheme) => {
  await withPage({ sheet: SHORT, size: 'phone', colorScheme }, async ({ page }) => {
    const given = line(page, 'd');
    await intoView(given);
    await blanks(page, 'd').first().tap();
    await given.locator('.instrument button').first().tap();
    await given.locator('.menu-button').tap();
    // As in a browser that does not close it by itself.
    await page.locator('.cell-menu').evaluate((menu: HTMLElement) => {
      menu.hidePopover();
      menu.setAttribute('popover', 'manual');
    });
    await given.locator('.menu-button').tap();
    await page.getByRole('menu').waitFor();
    await screenshot(page, `small-things-menu-${colorScheme}`, { fullPage: false });
    await page.touchscreen.tap(20, 30);
    await expect.poll(() => page.getByRole('menu').count()).toBe(0);
    await given.locator('.menu-button').tap();
    await page.getByRole('menuitem', { name: /own text/ }).tap();
    await given.getByRole('textbox', { name: /^Own text/ }).waitFor();
    const small = await page.evaluate(() => [...document.querySelectorAll<HTMLElement>('input:not([type=radio], [type=checkbox], [type=file]), select, textarea')]
      .filter((field) => parseFloat(getComputedStyle(field).fontSize) < 16).map((field) => `${field.tagName} ${field.className} ${field.getAttribute('aria-label') ?? field.id}`));
    expect(small).toEqual([]);
    const box = page.locator('[data-cell="safety"] input').first();
    await intoView(box);
    expect(await style(box, 'appearance')).toBe('none');
    expect(await style(box, 'background-color')).toBe('rgba(0, 0, 0, 0)');
    await box.check();
    await screenshot(page, `small-things-boxes-${colorScheme}`, { fullPage: false });
    const bezels = await page.evaluate(() => [...document.querySelectorAll('.sheet select')].filter((list) => getComputedStyle(list).appearance !== 'none').map((list) => `${list.className} ${list.id}`));
    expect(bezels).toEqual([]);
    expect(await head(page).count()).toBe(1);
    await page.getByRole('group', { name: 'Results in' }).getByRole('radio', { name: 'US customary' }).check();
    await checkAccess(page);
  });
});
