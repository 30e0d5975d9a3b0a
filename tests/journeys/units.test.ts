/** The reader's switch changes results; what was typed keeps its unit. */
import { expect, test } from 'vitest';
import { intoView, screenshot, SHORT, withPage } from './harness.ts';
import { fill, line, result, resultNumber, textOf, typed } from './sheet-page.ts';

// NIST SP 811 (2008), appendix B: 1 ksi = 6.894 757 MPa; 1 lbf = 4.448 222 N; 1 lbf·in = 0.112 984 8 N·m.
const KSI = 6.894757;
const POUND_FORCE = 4.448222;
const POUND_FORCE_INCH = 0.1129848;

test('US customary shows results in ksi, lbf and lbf·in and leaves the blanks alone', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    const si = { sigma: await resultNumber(page, 'sigma_a'), reaction: await resultNumber(page, 'R_A'), moment: await resultNumber(page, 'M_s'), life: await result(page, 'N_f') };
    const before = { d: await typed(page, 'd'), F: await typed(page, 'F') };
    await page.getByRole('radio', { name: 'US customary' }).check();
    await expect.poll(() => result(page, 'sigma_a')).toMatch(/ ksi$/);
    await expect.poll(() => result(page, 'R_A')).toMatch(/ lbf$/);
    await expect.poll(() => result(page, 'M_s')).toMatch(/ lbf·in$/);
    expect((await resultNumber(page, 'sigma_a')) * KSI / si.sigma).toBeCloseTo(1, 2);
    expect((await resultNumber(page, 'R_A')) * POUND_FORCE / si.reaction).toBeCloseTo(1, 2);
    expect((await resultNumber(page, 'M_s')) * POUND_FORCE_INCH / si.moment).toBeCloseTo(1, 2);
    expect(await result(page, 'N_f')).toBe(si.life);
    expect({ d: await typed(page, 'd'), F: await typed(page, 'F') }).toEqual(before);
    await intoView(line(page, 'sigma_a'));
    await screenshot(page, 'units-us', { fullPage: false });
    await intoView(page.locator('[data-cell="free-body"]'));
    await screenshot(page, 'units-us-drawing', { fullPage: false });

    await page.getByRole('radio', { name: 'SI', exact: true }).check();
    await expect.poll(() => resultNumber(page, 'sigma_a')).toBe(si.sigma);
  });
});

test('a quantity may be typed in any unit of its kind', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await fill(page, 'd', '0.300in');
    expect(await result(page, 'c')).toMatch(/^3\.81/);
    await fill(page, 'd', '1/4 in');
    expect(await result(page, 'c')).toMatch(/^3\.17/);
    await fill(page, 'd', '6,35 mm');
    expect(await result(page, 'c')).toMatch(/^3\.17/);
    expect(await textOf(line(page, 'd'))).toMatch(/6\.35/);
    await fill(page, 'F', '70 lbf');
    // Read in pounds-force less a zero reading in newtons: 70 × 4.448222 − 1.5 (NIST SP 811).
    expect(await resultNumber(page, 'W')).toBeCloseTo(70 * POUND_FORCE - 1.5, 0);
    expect(await typed(page, 'F')).toEqual(['70 lbf']);
  });
});
