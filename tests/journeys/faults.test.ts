/** A fault of the page's own: it is told where it is, nothing of before stays on the screen, the rest lives, and what was typed is kept. */
import { expect, test } from 'vitest';
import { intoView, screenshot, SHORT, withPage } from './harness.ts';
import { blanks, fill, head, line, notice, result, textOf, typed, untilKept } from './sheet-page.ts';

/** Made to fail: the writing of one number, wherever it is to be shown. */
function failAt76543(): void {
  const { padStart } = String.prototype;
  String.prototype.padStart = function fails(this: string, ...rest: [number, string?]) {
    if (String(this) === '76543') throw new Error('made to fail');
    return padStart.apply(this, rest);
  };
}

test('a line that can not be shown says so, shows no number of before, and comes back when its text is changed', async () => {
  await withPage({ sheet: SHORT, before: failAt76543 }, async ({ page }) => {
    await fill(page, 'd', '7.1 mm');
    const before = await result(page, 'sigma_a');
    await blanks(page, 'd').first().fill('7.6543 mm');
    await expect.poll(() => result(page, 'sigma_a')).not.toBe(before);
    const broken = page.locator('.cell.fault').filter({ hasText: 'made to fail' });
    await broken.first().waitFor();
    for (const words of await broken.allTextContents()) {
      expect(words).toContain('This line could not be shown (made to fail).');
      expect(words).not.toContain('7.1');
    }
    await untilKept(page);
    await screenshot(page, 'faults-line', { fullPage: false });
    await page.reload();
    await page.locator('.cell.fault').first().waitFor();
    await line(page, 'd').getByRole('button', { name: 'change its text' }).click();
    const editor = line(page, 'd').getByRole('textbox');
    await editor.fill((await editor.inputValue()).replace('7.6543', '7.2'));
    await expect.poll(() => typed(page, 'd')).toEqual(['7.2 mm']);
    expect(await page.locator('.cell.fault').count()).toBe(0);
  });
});

test('a formula whose unit has no name is told at its line; the others follow, and all of it is kept', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    const step = line(page, 'I');
    await intoView(step);
    await step.focus();
    await page.keyboard.press('Control+.');
    await page.getByRole('menu').waitFor();
    await page.keyboard.press('t');
    const editor = step.getByRole('textbox', { name: /Own text/ });
    await editor.fill('symbol: I\nlabel: I\nformula: pi*d^40/64');
    await expect.poll(() => textOf(step)).toContain('powers of a unit go up to 12');
    await fill(page, 'F', '250 N');
    await expect.poll(() => result(page, 'W')).not.toBe('310 N');
    await untilKept(page);
    await page.reload();
    await expect.poll(() => typed(page, 'F')).toEqual(['250 N']);
    await expect.poll(() => textOf(line(page, 'I'))).toContain('powers of a unit go up to 12');
    expect(await notice(page).count()).toBe(0);
    expect(await textOf(head(page))).not.toContain('could not');
  });
});
