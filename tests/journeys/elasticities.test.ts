/** One percent on an input or a result, lit up along the chain: by keyboard alone, at the bench and at the desk. */
import { describe, expect, test } from 'vitest';
import { checkAccess, intoView, screenshot, SHORT, withPage } from './harness.ts';
import { expectNoLeaks, line, textOf } from './sheet-page.ts';

describe.each(['phone', 'desktop'] as const)('on a %s', (size) => {
  test('what 1 % on the diameter does is lit up from the line\'s menu, and ended with Escape', async () => {
    await withPage({ sheet: SHORT, size }, async ({ page }) => {
      const diameter = line(page, 'd');
      await intoView(diameter);
      await diameter.focus();
      await page.keyboard.press('Control+.');
      await page.getByRole('menu').waitFor();
      await page.keyboard.press('g');
      // sigma = 32 M/(pi d³): −3 % per 1 %.
      await expect.poll(() => textOf(line(page, 'sigma_a').locator('.one-percent'))).toMatch(/slope at this point, per 1 % of .*: -3 % on .*\+1 %: -2\.94 %, -1 %: \+3\.06 %/);
      expect(await textOf(line(page, 'I').locator('.percent'))).toBe('+4 %');
      expect(await textOf(line(page, 'c').locator('.percent'))).toBe('+1 %');
      expect(await textOf(line(page, 'N_f').locator('.percent'))).toMatch(/^\+\d\d? %$/);
      expect(await line(page, 'R_A').locator('.one-percent').count()).toBe(0);
      expect(await line(page, 'R_A').evaluate((element) => element.classList.contains('lit'))).toBe(false);
      await expect.poll(() => page.locator('p.visually-hidden[role=status]').textContent()).toMatch(/^\d+ lines light up\. By the slope at this point, per 1 % of Minimum diameter.*: .*Predicted life.*Escape ends it\.$/);
      // Another change, at the foot of the window: 1.05^-3 = 0.8638, 0.95^-3 = 1.1664.
      await page.getByRole('region', { name: 'Elasticities' }).getByRole('combobox').selectOption('5 %');
      await expect.poll(() => textOf(line(page, 'sigma_a').locator('.effects'))).toBe('+5 %: -13.6 %, -5 %: +16.6 %');
      await screenshot(page, `elasticities-given-${size}`, { fullPage: false });
      await intoView(line(page, 'sigma_a'));
      await screenshot(page, `elasticities-down-${size}`, { fullPage: false });
      await checkAccess(page);
      await expectNoLeaks(page);
      // The names in the drawings light up with their lines: the span does nothing by itself, and recedes.
      const names = page.locator('svg.drawing text.lit');
      await expect.poll(() => names.allTextContents()).toContainEqual(expect.stringMatching(/^d[\s=]/));
      expect(await page.locator('svg.drawing text.lit.chosen').first().textContent()).toMatch(/^d[\s=]/);
      expect((await names.allTextContents()).some((text) => /^(?:L|s1|RA)[\s=]/.test(text))).toBe(false);
      await intoView(names.first());
      await screenshot(page, `elasticities-drawing-${size}`, { fullPage: false });
      await page.keyboard.press('Escape');
      await expect.poll(() => page.locator('.one-percent').count()).toBe(0);
      await expect.poll(() => names.count()).toBe(0);
      expect(await page.getByRole('region', { name: 'Elasticities' }).count()).toBe(0);

      // From a result: what it follows from, and what follows from it.
      const stress = line(page, 'sigma_a');
      await stress.focus();
      await page.keyboard.press('Control+.');
      await page.keyboard.press('g');
      await expect.poll(() => textOf(line(page, 'R_A').locator('.percent'))).toMatch(/^\+/);
      expect(await textOf(line(page, 'I').locator('.percent'))).toBe('-1 %');
      expect(await textOf(line(page, 'd').locator('.percent'))).toBe('-3 %');
      await page.getByRole('region', { name: 'Elasticities' }).getByRole('button', { name: 'End' }).press('Enter');
      await expect.poll(() => page.locator('.one-percent').count()).toBe(0);
    });
  });
});

test('what is still asked lights up without its number', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await page.locator('.title-block').getByRole('checkbox', { name: 'hide results until I have worked them out' }).check();
    await line(page, 'd').focus();
    await page.keyboard.press('Control+.');
    await page.keyboard.press('g');
    await expect.poll(() => textOf(line(page, 'sigma_a').locator('.one-percent'))).toMatch(/after your own working/);
    // What nobody is asked for and rests on nothing that is asked keeps its number.
    for (const hidden of ['I', 'sigma_a', 'N_f']) expect(await line(page, hidden).locator('.percent').count()).toBe(0);
    // A hidden result offers no light of its own.
    await line(page, 'sigma_a').focus();
    await page.keyboard.press('Control+.');
    expect(await page.getByRole('menuitem', { name: /light up/ }).count()).toBe(0);
  });
});
