/** The student's own working first: nothing on the page gives a result away before it was entered. */
import { expect, test } from 'vitest';
import type { Page } from 'playwright';
import { checkAccess, download, intoView, screenshot, withPage } from './harness.ts';
import { chooseTakeaway, line, result, textOf, untilKept, words } from './sheet-page.ts';

const SWITCH = 'hide results until I have worked them out';

const own = (page: Page, label: string) => page.getByRole('textbox', { name: `Your own result for ${label}` });

/** Whether a text stands there by itself and not as the end or the beginning of a longer number. */
function standsIn(text: string, number: string): boolean {
  return new RegExp(`(?<![\\d.])${number.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?!\\d)`).test(text);
}

test('results hide everywhere, the own one is entered with its unit, both stand side by side and stay', async () => {
  await withPage({}, async ({ page }) => {
    const symbols = ['r', 'W', 'R_A', 'R_B', 'M_s', 'sigma_a', 'S_e', 'N_f', 't_f'];
    const results = new Map<string, string>();
    for (const symbol of symbols) results.set(symbol, await result(page, symbol));
    await page.getByRole('checkbox', { name: SWITCH }).check();
    for (const symbol of symbols) await expect.poll(() => line(page, symbol).locator('.quantity').count(), { message: symbol }).toBe(0);
    // Not in drawings, prose, checks, margins, text alternatives either. Results that also stand in a blank say nothing.
    const told = [...results].filter(([, text]) => !/^[\d.]+$/.test(text));
    const standing = async (): Promise<string[]> => {
      const all = await words(page);
      return told.filter(([, text]) => standsIn(all, text)).map(([symbol]) => symbol);
    };
    await expect.poll(standing).toEqual([]);
    await intoView(page.locator('[data-cell="free-body"]'));
    await screenshot(page, 'own-working-drawing', { fullPage: false });

    // Neither in what is taken away.
    const report = await download(page, () => chooseTakeaway(page, 'Report'));
    const tex = await download(page, () => chooseTakeaway(page, 'Equations'));
    for (const symbol of ['R_A', 'M_s', 'sigma_a']) {
      const number = (results.get(symbol) ?? '').split(' ')[0] ?? '';
      expect(number).toMatch(/\d\.\d/);
      expect(standsIn(report.text, number), `${symbol} in the report`).toBe(false);
      expect(standsIn(tex.text, number), `${symbol} in the LaTeX`).toBe(false);
    }

    const blank = own(page, 'Load on the specimen');
    await intoView(blank);
    await blank.fill('310 mm');
    await blank.press('Enter');
    await expect.poll(() => textOf(line(page, 'W').locator('.problem'))).toMatch(/force/);
    expect(await blank.inputValue()).toBe('310 mm');
    await screenshot(page, 'own-working-wrong-unit', { fullPage: false });
    await checkAccess(page);
    expect(await line(page, 'W').locator('.quantity').count()).toBe(0);

    // A wrong one is told, with what it comes of, and nothing comes to light before the tries are used up; too short a one is none.
    await blank.fill('0.617 kN');
    await blank.press('Enter');
    await expect.poll(() => textOf(line(page, 'W'))).toMatch(/This is not the sheet’s\. 2 tries are left\./);
    expect(await line(page, 'W').locator('.quantity').count()).toBe(0);
    await blank.fill('3e2');
    await blank.press('Enter');
    await expect.poll(() => textOf(line(page, 'W'))).toMatch(/More digits, please/);
    await blank.fill('500 N');
    await blank.press('Enter');
    await expect.poll(() => textOf(line(page, 'W'))).toMatch(/One try is left/);
    await blank.fill('0.617 kN');
    await blank.press('Enter');
    await expect.poll(() => textOf(line(page, 'W'))).toMatch(/Yours: 0\.617 kN.*Yours is 2\.00 times the sheet/);
    expect(await result(page, 'W')).toBe(results.get('W'));
    // What follows from it stays hidden until it is entered too.
    expect(await line(page, 'F_1').locator('.quantity').count()).toBe(0);
    await intoView(line(page, 'W'));
    await screenshot(page, 'own-working-side-by-side', { fullPage: false });

    await untilKept(page);
    await page.reload();
    await expect.poll(() => page.getByRole('checkbox', { name: SWITCH }).isChecked()).toBe(true);
    await expect.poll(() => textOf(line(page, 'W'))).toMatch(/Yours: 0\.617 kN/);
    expect(await line(page, 'R_A').locator('.quantity').count()).toBe(0);
    await page.getByRole('checkbox', { name: SWITCH }).uncheck();
    expect(await result(page, 'R_A')).toBe(results.get('R_A'));
  });
});

test('whoever hands out the sheet says how results are judged, and all are told once they are handed in', async () => {
  await withPage({}, async ({ page }) => {
    await page.getByRole('checkbox', { name: SWITCH }).check();
    await page.getByText('How own results are judged').press('Enter');
    await page.getByRole('textbox', { name: 'Right within' }).fill('near');
    await page.keyboard.press('Tab');
    await expect.poll(() => words(page)).toContain('“near” is no tolerance.');
    await page.getByRole('textbox', { name: 'Right within' }).press('ControlOrMeta+a');
    await page.keyboard.type('2 %');
    await page.keyboard.press('Tab');
    await page.getByRole('checkbox', { name: 'the unit has to be typed' }).press('Space');
    await page.getByRole('checkbox', { name: 'told only when handed in' }).press('Space');
    await expect.poll(() => textOf(line(page, 'W'))).toContain('Right within 2 %. With its unit. You are told once you hand in.');
    await checkAccess(page);
    const blank = own(page, 'Load on the specimen');
    await intoView(blank);
    await blank.fill('308');
    await blank.press('Enter');
    await expect.poll(() => textOf(line(page, 'W'))).toContain('“308” has no unit, and this sheet asks for one.');
    await blank.fill('617 N');
    await blank.press('Enter');
    await expect.poll(() => textOf(line(page, 'W'))).toContain('Kept. You are told once you hand in.');
    expect(await line(page, 'W').locator('.quantity').count()).toBe(0);
    await screenshot(page, 'own-working-kept', { fullPage: false });
    await page.getByRole('button', { name: 'Hand in my results' }).press('Enter');
    await expect.poll(() => textOf(line(page, 'W'))).toMatch(/Yours is 2\.00 times the sheet/);
    expect(await line(page, 'R_A').locator('.quantity').count()).toBe(0);
    await page.getByRole('button', { name: 'take back' }).press('Enter');
    await expect.poll(() => textOf(line(page, 'W'))).toContain('Kept.');
  });
});
