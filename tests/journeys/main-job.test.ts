/** The main job on the built page: from measured spans to predicted life, held against arithmetic of its own. */
import { describe, expect, test } from 'vitest';
import { intoView, screenshot, sizes, withPage } from './harness.ts';
import { blank, blanks, fill, line, result, resultNumber, textOf } from './sheet-page.ts';

/**
 * The chain in plain arithmetic, SI, from statics (moments about the supports), sigma = M c / I (any textbook on strength of
 * materials) and the estimated line through (10^3, f S_ut), f = 1.06 − 4.1e-4 S_ut + 1.5e-7 S_ut² in MPa, and (10^6, S_e) (Shigley's Mechanical Engineering Design, 9th ed., 6-8),
 * polished, 50 % reliability, size factor 1.24 d^-0.107 (eq. 6-20) but at most 1.
 */
function predicted({ s1, s2, s3, L, load, d, x, n, Sut }: Record<'s1' | 's2' | 's3' | 'L' | 'load' | 'd' | 'x' | 'n' | 'Sut', number>) {
  const F = load / 2;
  const RA = (F * (s2 + s3) + F * s3) / L;
  const M = RA * x - (x > s1 ? F * (x - s1) : 0) - (x > s1 + s2 ? F * (x - s1 - s2) : 0);
  const I = (Math.PI * d ** 4) / 64;
  const sigma = (M * (d / 2)) / I;
  const Se = Math.min(1, 1.24 * (d * 1e3) ** -0.107) * Math.min(0.5 * Sut, 700e6);
  const f = 1.06 - 4.1e-4 * (Sut / 1e6) + 1.5e-7 * (Sut / 1e6) ** 2;
  const B = (3 - 6) / (Math.log10(f * Sut) - Math.log10(Se));
  const A = 3 - B * Math.log10((f * Sut) / 1e6);
  const N = 10 ** (A + B * Math.log10(sigma / 1e6));
  return { RA, M, sigma: sigma / 1e6, I: I * 1e12, Se: Se / 1e6, A, B, N, hours: N / n / 3600 };
}

/** The page shows so many digits that it agrees within this share. */
const SHOWN = 0.005;
/** What an estimated line says is uncertain by a tenth and more, and shows fewer digits. */
const BLURRED = 0.02;

describe('the main job', () => {
  for (const size of Object.keys(sizes) as (keyof typeof sizes)[]) {
    test(`spans, load and diameter are typed, the life follows: ${size}`, async () => {
      await withPage({ size }, async ({ page }) => {
        await fill(page, 'L', '410 mm');
        await fill(page, 's_1', '105 mm');
        await fill(page, 's_2', '200 mm');
        await fill(page, 's_3', '105 mm');
        await fill(page, 'x_s', '205 mm');
        await fill(page, 'd', '7.00 mm');
        await fill(page, 'F', '301.5 N');
        const expected = predicted({ s1: 0.105, s2: 0.2, s3: 0.105, L: 0.41, load: 300, d: 0.007, x: 0.205, n: 2800 / 60, Sut: 630e6 });
        for (const [symbol, value, shown] of [
          ['R_A', expected.RA, SHOWN], ['M_s', expected.M, SHOWN], ['I', expected.I, SHOWN], ['sigma_a', expected.sigma, SHOWN],
          ['S_e', expected.Se, BLURRED], ['A', expected.A, BLURRED], ['B', expected.B, BLURRED],
        ] as const) {
          await expect.poll(async () => Math.abs((await resultNumber(page, symbol)) / value - 1), { message: `${symbol} against ${value}` }).toBeLessThan(shown);
        }
        // A life with its own spread shows two digits of it.
        const life = await resultNumber(page, 'N_f');
        expect(Math.abs(life / expected.N - 1), `N_f: ${life} against ${expected.N}`).toBeLessThan(0.05);
        expect(await result(page, 'N_f')).toMatch(/cycles$/);
        await intoView(line(page, 'N_f'));
        await screenshot(page, `main-job-life-${size}`, { fullPage: false });
        await intoView(line(page, 'R_A'));
        await screenshot(page, `main-job-statics-${size}`, { fullPage: false });
        // The test begun now: a clock time stands beside the duration.
        await intoView(line(page, 't_f'));
        await expect.poll(() => textOf(line(page, 't_f'))).toMatch(/Begun now, it is expected to end .*\d\d:\d\d/);
      });
    });
  }

  test('an edit shows the numbers put in and marks what moved; checks turn; undo and redo go there and back', async () => {
    await withPage({}, async ({ page }) => {
      const before = await resultNumber(page, 'sigma_a');
      await fill(page, 'd', '7.00 mm');
      await intoView(line(page, 'I'));
      await expect.poll(() => textOf(line(page, 'I').locator('.numbers'))).toMatch(/7\.00/);
      const after = await resultNumber(page, 'sigma_a');
      expect(after / before).toBeCloseTo((7.52 / 7) ** 3, 2);
      await expect.poll(() => textOf(line(page, 'sigma_a'))).toMatch(/moved up\s*\+?2\d(\.\d+)? ?%/);
      // Spans do not depend on the diameter: nothing is marked there.
      expect(await textOf(line(page, 'R_A'))).not.toMatch(/moved/);

      const elastic = page.locator('[data-cell="elastic"]');
      expect(await textOf(elastic)).toMatch(/stays below the yield strength/);
      await fill(page, 'd', '5.00 mm');
      await expect.poll(() => textOf(elastic)).toMatch(/pseudo-stress/);
      await expect.poll(() => textOf(page.getByText(/Does not hold:/).first())).toMatch(/elastic formula/);
      await screenshot(page, 'main-job-check-fails', { fullPage: false });

      await page.locator('.side').getByRole('button', { name: 'undo' }).click();
      await expect.poll(() => resultNumber(page, 'sigma_a')).toBeCloseTo(after, 6);
      await page.keyboard.press('Control+Shift+Z');
      await expect.poll(() => textOf(elastic)).toMatch(/pseudo-stress/);
      await page.keyboard.press('Control+Z');
      await page.keyboard.press('Control+Z');
      await expect.poll(() => resultNumber(page, 'sigma_a')).toBeCloseTo(before, 6);
      expect(await blank(page, 'd').inputValue()).toBe('7.52 mm');
    });
  });

  test('below the endurance limit it says so in place of a number', async () => {
    await withPage({}, async ({ page }) => {
      await fill(page, 'F', '120 N');
      await expect.poll(() => textOf(line(page, 'N_f').locator('.result'))).toMatch(/below/);
      await intoView(line(page, 'N_f'));
      await screenshot(page, 'main-job-below-limit', { fullPage: false });
      expect(await line(page, 'N_f').locator('.quantity').count()).toBe(0);
    });
  });

  test('Enter goes on to the next blank, and typing there replaces what stood in it', async () => {
    await withPage({}, async ({ page }) => {
      await blank(page, 's_3').click();
      const readings = ['101 mm', '101.5 mm', ...Array<string>((await blanks(page, 's_3').count()) - 2).fill('101.25 mm')];
      for (const text of [...readings, '199 mm']) {
        if (text === readings[0]) await page.keyboard.press('Control+A');
        await page.keyboard.type(text);
        await page.keyboard.press('Enter');
      }
      expect(await page.getByRole('textbox', { name: /Section looked at/ }).inputValue()).toBe('199 mm');
      expect(await textOf(line(page, 's_3'))).toMatch(/mean 101\.25 mm/);
    });
  });
});
