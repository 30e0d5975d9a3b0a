/** Common mistakes switched on and off with the keys alone, told in the sheet and in all that is taken away. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { checkAccess, download, goToFile, intoView, screenshot, withPage } from './harness.ts';
import { focus, tabTo } from './keyboard.ts';
import { renamed } from './saved-file.ts';
import { bringIn, chooseTakeaway, expectNoLeaks, head, line, resultNumber, textOf } from './sheet-page.ts';

const band = (page: Page) => page.locator('.sheet > .title-block .slip-band');
const stress = (page: Page) => resultNumber(page, 'sigma_a');

/** Opens the list at the head and goes to a slip by its name, as the focus calls it. */
async function goToSlip(page: Page, name: RegExp): Promise<void> {
  await page.locator('.head [data-unfolds="slips"]').focus();
  if ((await page.locator('.head [data-unfolds="slips"]').getAttribute('aria-expanded')) !== 'true') await page.keyboard.press('Enter');
  await tabTo(page, (now) => now.tag === 'INPUT' && name.test(now.name));
}

describe.each([['phone', 'dark'], ['desktop', 'light']] as const)('on a %s, %s', (size, colorScheme) => {
  test('a slip is looked up, switched on, seen and switched off again', { timeout: 240_000 }, async () => {
    await withPage({ size, colorScheme }, async ({ page }) => {
      const right = await stress(page);
      await goToSlip(page, /^the radius put in where the formula takes the diameter/);
      const described = await page.evaluate(() => document.getElementById(document.activeElement?.getAttribute('aria-describedby') ?? '')?.textContent);
      expect(described).toContain('Nominal stress amplitude ×\u00a016; Predicted life (median): below 10³ cycles');
      await screenshot(page, `slips-list-${size}`, { fullPage: false });
      await page.keyboard.press('Space');
      await expect.poll(() => stress(page)).toBeGreaterThan(15.9 * right);
      expect((await focus(page)).name).toContain('(on)');
      await page.locator('.slip-entry.on').waitFor();
      await screenshot(page, `slips-list-on-${size}`, { fullPage: false });
      await checkAccess(page);
      await page.keyboard.press('Escape');
      expect((await focus(page)).name).toMatch(/^Slips \(1 on\)/);

      // At the top, where it acts, and further down; what it does not reach bears no mark.
      expect(await textOf(band(page))).toContain('A slip is switched on: values marked [slip] are wrong on purpose, not results');
      expect(await textOf(line(page, 'I'))).toMatch(/Slip: the radius put in.*Right is/);
      expect(await textOf(line(page, 'I').locator('.slip-mark'))).toContain('0.0625 times what is right');
      expect(await textOf(line(page, 'sigma_a').locator('.result'))).toMatch(/\[slip\]$/);
      expect(await textOf(line(page, 'sigma_a').locator('.slip-mark'))).toContain('Here it is 16 times what is right');
      expect(await line(page, 'M_s').locator('.slip-sign, .slip-mark').count()).toBe(0);
      expect(await textOf(page.locator('[data-cell="elastic"]'))).toContain('[slip]');
      await intoView(line(page, 'I'));
      await screenshot(page, `slips-step-${size}`, { fullPage: false });
      await intoView(line(page, 'sigma_a'));
      await screenshot(page, `slips-further-${size}`, { fullPage: false });
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);

      // Undo, a key of the sheet, takes the switch back; the band switches off with one press.
      await line(page, 'sigma_a').focus();
      await page.keyboard.press('Control+z');
      await expect.poll(() => stress(page)).toBe(right);
      expect(await band(page).count()).toBe(0);
      await page.keyboard.press('Control+Shift+z');
      await band(page).waitFor();
      await goToSlip(page, /^a reading in inches taken for millimetres/);
      await page.keyboard.press('Space');
      await expect.poll(() => textOf(band(page))).toContain('2 slips are switched on');
      await page.keyboard.press('Escape');
      await intoView(band(page));
      await screenshot(page, `slips-band-${size}`, { fullPage: false });
      expect(await textOf(line(page, 'd').locator('.slip-mark'))).toMatch(/\[slip\] Goes on as 0\.296/);
      await intoView(line(page, 'd'));
      await screenshot(page, `slips-given-${size}`, { fullPage: false });
      await checkAccess(page);
      await tabTo(page, ({ name }) => name.startsWith('switch it off: Minimum diameter'));
      await page.keyboard.press('Enter');
      await expect.poll(() => textOf(band(page))).toContain('A slip is switched on');
      await expect.poll(async () => (await focus(page)).name).toMatch(/^switch it off: Second moment/);
      await page.keyboard.press('Enter');
      await expect.poll(() => stress(page)).toBe(right);
      expect(await band(page).count()).toBe(0);
      await expect.poll(async () => (await focus(page)).name).toBe('Title of the sheet');
      await expectNoLeaks(page);
    });
  });
});

test('whatever is taken away says which slips are on, and a report brings them back', { timeout: 240_000 }, async () => {
  await withPage({}, async ({ page }) => {
    await goToSlip(page, /^the radius put in where the formula takes the diameter/);
    await page.keyboard.press('Space');
    await band(page).waitFor();
    await page.keyboard.press('Escape');
    const report = await download(page, () => chooseTakeaway(page, 'Report'));
    expect(report.name).toContain('slips-on');
    expect(report.text).toContain('(slips switched on)</title>');
    expect(report.text).toMatch(/<footer class="print-footer">.*A slip is switched on/);
    expect(report.text).toContain('class="slip-band"');
    const working = await download(page, () => chooseTakeaway(page, 'Working file'));
    expect(working.name).toContain('slips-on');
    expect(working.text).toContain('class="slip-sign"');
    const tex = await download(page, () => chooseTakeaway(page, 'Equations'));
    expect(tex.text).toContain('A slip is switched on');
    const text = await download(page, () => chooseTakeaway(page, 'Document'));
    expect(text.text).toContain('\nslips: I.radius\n');

    // A drawing that rests on the stress bears a band of its own, one that does not is left as it is.
    await head(page).getByRole('button', { name: 'Take away', exact: true }).click();
    const along = await download(page, () => head(page).getByRole('button', { name: 'The life on the line as SVG' }).click());
    expect(along.text).toContain('A slip is switched on');
    expect(along.name).toContain('slips-on');
    await head(page).getByRole('button', { name: 'Take away', exact: true }).click();
    const body = await download(page, () => head(page).getByRole('button', { name: 'Free body of the shaft as SVG' }).click());
    expect(body.text).not.toContain('slip is');

    await bringIn(page, report.path);
    await expect.poll(() => textOf(band(page))).toContain('the radius put in');
    await page.emulateMedia({ media: 'print' });
    expect(await band(page).isVisible()).toBe(true);
    await line(page, 'sigma_a').locator('.slip-sign').waitFor();
    expect(await band(page).locator('.slip-off').first().isVisible()).toBe(false);
    await page.emulateMedia({ media: 'screen' });
    await goToFile(page, renamed(report));
    await page.locator('.slip-band').waitFor();
    await screenshot(page, 'slips-report');
    await checkAccess(page);
  });
});

test('a wrong answer is told by the name of its slip; no test is started while one is on', { timeout: 240_000 }, async () => {
  await withPage({}, async ({ page }) => {
    const right = await stress(page);
    await page.locator('.title-block').getByRole('checkbox', { name: 'hide results until I have worked them out' }).check();
    const own = page.getByRole('textbox', { name: 'Your own result for Second moment of area of the round section' });
    // π·(7.52/2)⁴/64 = 9.81 mm⁴.
    await own.fill('9.81 mm^4');
    await own.press('Enter');
    await expect.poll(() => textOf(line(page, 'I'))).toContain('Just this comes of the radius put in where the formula takes the diameter; or of the radius written down as the diameter (at Minimum diameter');
    await intoView(line(page, 'I'));
    await screenshot(page, 'slips-answer', { fullPage: false });
    await goToSlip(page, /^the whole diameter taken for the distance/);
    await page.keyboard.press('Space');
    await band(page).waitFor();
    // Nothing that is still hidden is told: neither in the list nor in the sheet.
    expect(await textOf(page.locator('.head .panel'))).toContain('Nominal stress amplitude: told after your own working');
    expect(await textOf(page.locator('.head .panel'))).not.toMatch(/Nominal stress amplitude ×/);
    expect(await textOf(line(page, 'sigma_a'))).not.toContain(String(right));
    expect(await line(page, 'sigma_a').locator('.slip-mark').count()).toBe(0);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: /^Start the test/i }).first().click();
    await expect.poll(() => textOf(page.locator('[data-cell="test"]'))).toContain('A slip is switched on, so what would be kept as the prediction is wrong on purpose.');
    await intoView(page.locator('[data-cell="test"]'));
    await screenshot(page, 'slips-record', { fullPage: false });
  });
});
