/** What journeys look for on the sheet, in one place: blanks by their labels, lines by the symbol they define. */
import { expect } from 'vitest';
import type { Locator, Page } from 'playwright';
import { builtPage, goToFile } from './harness.ts';

/** Labels of the standard sheet's blanks, as a reader sees them. */
export const LABELS = {
  L: 'Overall span between the supports',
  s_1: 'Left support to left load point',
  s_2: 'Left load point to right load point',
  s_3: 'Right load point to right support',
  x_s: 'Section looked at (the thinnest), from the left support',
  d: 'Minimum diameter, read around the bar',
  F: 'Load, indicated or marked on the weights',
  F_0: 'Zero reading, with no load on the specimen',
  n: 'Speed',
  S_ut: 'Tensile strength',
  K_t: 'Stress concentration factor (1 for a smooth waist)',
} as const;

/** The head of the page. What is looked for in a part of the page is found ten times as fast as in all of it, names and roles being worked out. */
export function head(page: Page): Locator {
  return page.locator('.head');
}

/** What draws charts is unpacked a moment after the page has come to life: then so many are there, and drawn or ready to be. */
export async function chartsBrought(page: Page, count: number): Promise<void> {
  await expect.poll(() => page.locator('.chart-drawn').count()).toBe(count);
  await expect.poll(() => page.locator('.chart-drawn[aria-busy]').count()).toBe(0);
}

/** The line that defines a symbol. */
export function line(page: Page, symbol: string): Locator {
  return page.locator(`[data-symbol="${symbol}"]`);
}

/** The blanks of a given, one for each reading. */
export function blanks(page: Page, symbol: string): Locator {
  return line(page, symbol).locator('.blanks').getByRole('textbox');
}

/** The first blank of a given. */
export function blank(page: Page, symbol: keyof typeof LABELS): Locator {
  return line(page, symbol).getByRole('textbox', { name: new RegExp(`^${LABELS[symbol].replace(/[()]/g, '\\$&')}(?:, reading 1 of \\d+)?$`) });
}

/** The blanks once the page is alive: as delivered it has none, only what stands in them. */
async function liveBlanks(page: Page, symbol: string): Promise<Locator> {
  const all = blanks(page, symbol);
  await all.first().waitFor({ state: 'attached' });
  return all;
}

/** One value in place of whatever stood in a given's blanks: the further readings are emptied first. */
export async function fill(page: Page, symbol: keyof typeof LABELS, text: string): Promise<void> {
  const all = await liveBlanks(page, symbol);
  for (let i = (await all.count()) - 1; i > 0; i -= 1) await all.nth(i).fill('');
  await all.first().fill(text);
  await all.first().blur();
}

/** Types over all that stands in the blanks of a line, with the keyboard. */
export async function typeOver(page: Page, symbol: string, text: string): Promise<void> {
  const all = blanks(page, symbol);
  await all.first().waitFor({ state: 'attached' });
  for (let i = (await all.count()) - 1; i >= 0; i -= 1) {
    await all.nth(i).focus();
    await page.keyboard.press('Control+A');
    if (i > 0) await page.keyboard.press('Delete');
    else await page.keyboard.type(text);
  }
  await page.keyboard.press('Enter');
}

/** What stands in a given's blanks. */
export async function typed(page: Page, symbol: string): Promise<string[]> {
  const all = await liveBlanks(page, symbol);
  const texts: string[] = [];
  for (let i = 0; i < (await all.count()); i += 1) texts.push(await all.nth(i).inputValue());
  return texts;
}

/** What a part of the page says, also where it lies out of view and is not laid out. */
export async function textOf(locator: Locator): Promise<string> {
  return plain((await locator.textContent()) ?? '');
}

/** The result of a step as it stands on the page, double-underlined: `249.7 MPa`. */
export async function result(page: Page, symbol: string): Promise<string> {
  return textOf(line(page, symbol).locator('.result .quantity'));
}

/** Number of a result, with its power of ten. */
export async function resultNumber(page: Page, symbol: string): Promise<number> {
  const html = line(page, symbol).locator('.result .quantity');
  const text = plain(
    await html.evaluate((element) => {
      const copy = element.cloneNode(true) as HTMLElement;
      for (const raised of copy.querySelectorAll('.unit')) raised.remove();
      for (const raised of copy.querySelectorAll('sup')) raised.textContent = `^${raised.textContent}`;
      return copy.textContent ?? '';
    }),
  );
  const match = /^(-?[\d.]+)(?:[·×]10\^(-?\d+))?$/.exec(text.replaceAll(' ', ''));
  if (match === null) throw new Error(`no number in the result of ${symbol}: ${text}`);
  return Number(match[1]) * 10 ** Number(match[2] ?? 0);
}

/** Thin and other spaces as one space, the minus sign as a hyphen. */
export function plain(text: string): string {
  return text.replace(/[\s\u2009\u202f\u00a0]+/g, ' ').replaceAll('−', '-').trim();
}

/** Everything that can be read on the page, also by those who do not see it. */
export async function words(page: Page): Promise<string> {
  return plain(
    await page.evaluate(() => {
      const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT, (node) =>
        node.parentElement?.closest('script, style, template') ? NodeFilter.FILTER_REJECT : NodeFilter.FILTER_ACCEPT);
      const parts: string[] = [];
      while (walk.nextNode() !== null) parts.push(walk.currentNode.textContent ?? '');
      for (const element of document.querySelectorAll('[aria-label], [aria-valuetext], [title], input, textarea')) {
        parts.push(element.getAttribute('aria-label') ?? '', element.getAttribute('aria-valuetext') ?? '', element.getAttribute('title') ?? '');
      }
      return parts.join('\n');
    }),
  );
}

/** What never stands on a page: the names of what went wrong inside. */
export async function expectNoLeaks(page: Page): Promise<void> {
  const text = await words(page);
  for (const leak of ['NaN', 'undefined', 'Infinity', '[object', 'TypeError', 'RangeError', 'Error:', ' at http', 'null']) {
    const at = text.indexOf(leak);
    expect(at < 0 ? '' : text.slice(Math.max(0, at - 60), at + 60), `“${leak}” stands on the page`).toBe('');
  }
}

/** The line at the head says that the sheet is kept. */
export async function untilKept(page: Page): Promise<void> {
  await head(page).getByRole('navigation', { name: 'Sheets and files' }).getByText(/^Kept in this browser at/).waitFor({ timeout: 5000 });
}

/** Chooses what to take away. */
export async function chooseTakeaway(page: Page, name: string): Promise<void> {
  await head(page).getByRole('button', { name: 'Take away', exact: true }).click();
  await head(page).getByRole('button', { name, exact: true }).click();
}

/** Brings files in by the file input. */
export async function bringIn(page: Page, files: string | string[] | { name: string; mimeType: string; buffer: Buffer }): Promise<void> {
  await head(page).getByLabel('Bring in', { exact: true }).setInputFiles(files);
}

/** The note at the head of the page. */
export function notice(page: Page): Locator {
  return head(page).getByRole('alert').filter({ has: page.getByRole('button', { name: 'Close this note' }) });
}

/** Lays out every line as reading through would: the page measures a line when it comes near and there is time to. */
export async function scrollThrough(page: Page): Promise<void> {
  await page.evaluate(async () => {
    for (let y = 0; y < document.documentElement.scrollHeight; y += innerHeight * 0.9) {
      scrollTo(0, y);
      // On a busy machine a browser may have nothing idle for minutes.
      await new Promise((done) => requestAnimationFrame(() => requestIdleCallback(done, { timeout: 500 })));
    }
    scrollTo(0, 0);
  });
}

/** The built page once more, in another window of the same reader. */
export async function pageBeside(page: Page): Promise<Page> {
  const next = await page.context().newPage();
  await goToFile(next, builtPage);
  await blank(next, 'F').waitFor({ state: 'attached' });
  return next;
}
