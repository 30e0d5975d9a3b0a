/** Whatever is typed: a clear message at its place, what was typed still there, and the rest of the sheet alive. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { checkAccess, intoView, screenshot, SHORT, withPage } from './harness.ts';
import { blank, bringIn, expectNoLeaks, fill, line, notice, plain, result, textOf, typed, words, type LABELS } from './sheet-page.ts';
import { size } from '../sizes.ts';

/** What the line says is wrong or worth a look. */
async function complaint(page: Page, symbol: string): Promise<string> {
  const [first = ''] = await line(page, symbol).locator('.problem').allTextContents();
  return plain(first);
}

interface Case {
  readonly symbol: keyof typeof LABELS;
  readonly text: string;
  /** What is said at the blank. */
  readonly says: RegExp;
  /** A result that depends on it and has no number then; absent where the value is only warned of. */
  readonly stops?: string;
}

const CASES: readonly Case[] = [
  // An empty blank is in nobody's error: what reads it says in its place what it waits for.
  { symbol: 'd', text: '', says: /waits for d\b/, stops: 'sigma_a' },
  { symbol: 'd', text: '0 mm', says: /must be greater than 0/, stops: 'sigma_a' },
  { symbol: 'd', text: '-7.5 mm', says: /must be greater than 0/, stops: 'sigma_a' },
  { symbol: 'd', text: '6.35 kg', says: /mass/, stops: 'sigma_a' },
  { symbol: 'd', text: '1e999', says: /large|big/, stops: 'sigma_a' },
  { symbol: 'd', text: '1e999 mm', says: /large|big/, stops: 'sigma_a' },
  { symbol: 'd', text: '7.5e300 m', says: /./ },
  { symbol: 'd', text: '1e-300 mm', says: /./ },
  { symbol: 'd', text: '1,234 mm', says: /1234|1\.234|comma/, stops: 'sigma_a' },
  { symbol: 'd', text: 'about seven', says: /./, stops: 'sigma_a' },
  { symbol: 'd', text: '7.5 mm mm', says: /./, stops: 'sigma_a' },
  { symbol: 'd', text: '<img src=x onerror=alert(1)>', says: /./, stops: 'sigma_a' },
  { symbol: 'd', text: '7,5 mm: {a: [', says: /./, stops: 'sigma_a' },
  { symbol: 'd', text: '7.5 ± 1e999 mm', says: /./, stops: 'sigma_a' },
  { symbol: 'L', text: '-400 mm', says: /must be greater than 0/, stops: 'R_A' },
  { symbol: 'L', text: '400 km', says: /unusual|usual|plausible|expected/ },
  { symbol: 'F', text: '1e308 N', says: /./ },
  { symbol: 'n', text: '0 rev/min', says: /./ },
  { symbol: 'S_ut', text: '-630 MPa', says: /must be greater than 0/, stops: 'S_e' },
];

/** Types it, and holds what is said, what stops and what lives on. */
async function expectTold(page: Page, { symbol, text, says, stops }: Case): Promise<void> {
  await fill(page, symbol, text);
  const what = `${symbol} = ${text === '' ? '(empty)' : text}`;
  expect(await typed(page, symbol), what).toEqual([text]);
  const messages = async (): Promise<string> => `${await textOf(line(page, symbol))} ${stops === undefined ? '' : await textOf(line(page, stops))}`;
  await expect.poll(messages, { message: what }).toMatch(says);
  expect(text === '' || /\w.*\./.test(await complaint(page, symbol)), `${what} is spoken of at the blank`).toBe(true);
  const stopped = async (): Promise<number> => (stops === undefined ? 0 : line(page, stops).locator('.quantity').count());
  await expect.poll(stopped, { message: `${what} leaves ${stops} without a number` }).toBe(0);
  const told = stops === undefined ? 'nothing stops' : await (text === '' ? textOf(line(page, stops).locator('.result')) : complaint(page, stops));
  expect(told, `${what}: why ${stops} has no number`).toMatch(/\w/);
  await expectNoLeaks(page);
}

describe('bad input', () => {
  test('in the blanks', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const others = { K_f: await result(page, 'K_f'), S_e: await result(page, 'S_e'), A: await result(page, 'A') };
      for (const one of CASES.filter(({ symbol }) => symbol !== 'S_ut')) {
        const [before = ''] = await typed(page, one.symbol);
        await expectTold(page, one);
        expect({ K_f: await result(page, 'K_f'), S_e: await result(page, 'S_e'), A: await result(page, 'A') }).toEqual(others);
        await fill(page, one.symbol, before);
      }
      const reaction = await result(page, 'R_A');
      for (const one of CASES.filter(({ symbol }) => symbol === 'S_ut')) await expectTold(page, one);
      expect(await result(page, 'R_A')).toBe(reaction);
      await fill(page, 'd', '0 mm');
      await intoView(line(page, 'd'));
      await screenshot(page, 'bad-input-zero', { fullPage: false });
      await intoView(line(page, 'sigma_a'));
      await screenshot(page, 'bad-input-downstream', { fullPage: false });
      await checkAccess(page);
    });
  });

  test('spans that cross, a section outside the beam', async () => {
    await withPage({ size: 'phone' }, async ({ page }) => {
      await fill(page, 'x_s', '900 mm');
      await expect.poll(() => textOf(line(page, 'M_s'))).toMatch(/outside the beam/);
      expect(await line(page, 'sigma_a').locator('.quantity').count()).toBe(0);
      expect(await result(page, 'R_A')).toMatch(/ N$/);
      await expectNoLeaks(page);
      await intoView(line(page, 'M_s'));
      await screenshot(page, 'bad-input-section-phone', { fullPage: false });
      await intoView(page.locator('[data-cell="free-body"]'));
      await screenshot(page, 'bad-input-section-drawing-phone', { fullPage: false });
      await fill(page, 'x_s', '200.5 mm');
      await fill(page, 's_2', '900 mm');
      await expect.poll(() => textOf(page.locator('[data-cell="closes"]'))).toMatch(/more than twice its standard uncertainty/);
      await expectNoLeaks(page);
      await fill(page, 's_1', '600 mm');
      await expectNoLeaks(page);
      await intoView(page.locator('[data-cell="free-body"]'));
      await screenshot(page, 'bad-input-spans-cross-phone', { fullPage: false });
    });
  });

  test('very long texts pasted into a blank and into a remark', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const factor = await result(page, 'K_f');
      for (const text of ['7'.repeat(size(300_000, 3_000_000)), 'x,'.repeat(size(100_000, 1_000_000))]) {
        await blank(page, 'F').fill(text);
        await blank(page, 'F').blur();
        expect((await typed(page, 'F')).join('').length).toBe(text.length);
        expect(await complaint(page, 'F')).toMatch(/\w.*\./);
        expect(await result(page, 'K_f')).toBe(factor);
        await fill(page, 'F', '310 N');
      }
      await expectNoLeaks(page);
    });
  });

  test('a long stretch of prose is set in part, and whole at a press', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      const text = `---\ntitle: Long\n---\n\n# Much to read\n\n${'A line of a long text. '.repeat(4000)}THE END.\n\n\`\`\`given\nsymbol: d\nlabel: Diameter\nunit: mm\nvalue: 7 mm\n\`\`\`\n`;
      await bringIn(page, { name: 'long.md', mimeType: 'text/markdown', buffer: Buffer.from(text) });
      const prose = page.locator('.cell-prose').first();
      const whole = prose.getByRole('button', { name: 'show all of it' });
      await whole.waitFor();
      expect(await textOf(prose)).toMatch(/Much to read.*\b42 \d{3} more characters of this text are not shown here/);
      expect(await textOf(prose)).not.toContain('THE END.');
      await checkAccess(page);
      await intoView(whole);
      await screenshot(page, 'long-prose-phone', { fullPage: false });
      await whole.click();
      await expect.poll(() => textOf(prose)).toContain('THE END.');
      expect(await whole.count()).toBe(0);
    });
  });

  test('a sheet of two thousand lines is drawn in parts, worked out whole, and printed whole', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      const steps = Array.from({ length: 1990 }, (_, i) => `\`\`\`step\nsymbol: x_${i + 1}\nformula: ${i === 0 ? 'd' : `x_${i}`} + 1*unit(mm)\nunit: mm\n\`\`\`\n`);
      const text = `---\ntitle: Many\n---\n\n\`\`\`given\nsymbol: d\nlabel: Diameter\nunit: mm\nvalue: 7 mm\n\`\`\`\n\n\`\`\`step\nsymbol: y\nlabel: last\nformula: x_1990\nunit: mm\n\`\`\`\n\n${steps.join('\n')}`;
      await bringIn(page, { name: 'many.md', mimeType: 'text/markdown', buffer: Buffer.from(text) });
      await notice(page).getByText('is brought in').waitFor();
      const foot = page.locator('.sheet-foot .long-sheet');
      await expect.poll(() => textOf(foot)).toMatch(/^600 of 1992 blocks of this long sheet are shown; all of them are worked out\./);
      await expect.poll(() => result(page, 'y')).toBe('1997 mm');
      await screenshot(page, 'long-sheet-phone', { fullPage: false });
      await foot.getByRole('button', { name: 'show the next 600' }).click();
      await expect.poll(() => textOf(foot)).toMatch(/^1200 of 1992/);
      await line(page, 'x_1100').waitFor({ state: 'attached' });
      await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
      expect(await result(page, 'x_1990')).toBe('1997 mm');
      await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
      await expect.poll(() => textOf(foot)).toMatch(/^1200 of 1992/);
      expect(await line(page, 'x_1990').count()).toBe(0);
    });
  });

  const ownTexts: readonly (readonly [what: string, symbol: string, change: (text: string) => string, says: RegExp])[] = [
    ['broken YAML', 'c', () => 'symbol: c\nlabel: "open\nformula: d/2\n', /line \d|quot/],
    ['a name that is nowhere', 'c', (text) => text.replace('d/2', 'dd/2'), /dd/],
    ['a cycle', 'c', (text) => text.replace('d/2', 'd/2 + 0*sigma_a*d/S_y'), /itself|circle|round|each other/],
    ['a symbol that is there already', 'c', (text) => text.replace('symbol: c', 'symbol: I'), /I\b.*(twice|already|more than once|also)/],
    ['kinds that cannot be added', 'c', (text) => text.replace('d/2', 'd/2 + F'), /add|force|length/],
    ['an implied product', 'c', (text) => text.replace('d/2', '2 d'), /2\s?\*\s?d/],
  ];

  test('a cell’s own text with broken YAML, names that are nowhere or twice, a cycle, wrong kinds and an implied product', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const reaction = await result(page, 'R_A');
      for (const [what, symbol, change, says] of ownTexts) {
        const cell = line(page, symbol);
        const id = await cell.getAttribute('data-cell');
        const here = page.locator(`[data-cell="${id}"]`);
        await cell.getByRole('button', { name: /^What can be done with/ }).click();
        await page.getByRole('menuitem', { name: /edit its own text/ }).click();
        const editor = page.locator('.source-editor').getByRole('textbox', { name: /Own text of this step/ });
        const text = change(await editor.inputValue());
        await editor.fill(text);
        // The line it was made from may have another name now; its editor is still open.
        const told = page.locator('[data-cell]').filter({ has: page.locator('.source-editor') });
        await expect.poll(() => textOf(told), { message: what }).toMatch(says);
        expect(await editor.inputValue(), what).toBe(text);
        expect(await result(page, 'R_A'), what).toBe(reaction);
        await expectNoLeaks(page);
        await screenshot(page, `bad-input-own-text-${what.replaceAll(' ', '-')}`, { fullPage: false });
        await editor.press('Escape');
        await expect.poll(() => textOf(here.locator('.result .quantity')), { message: what }).toMatch(/^3\.76/);
        expect(await words(page), what).not.toMatch(/To be mended/);
      }
    });
  });
});
