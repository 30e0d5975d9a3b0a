/** Limits of life and strength, two steels compared, and other models, in the page by keyboard alone. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, screenshot, withPage, type Opening } from './harness.ts';
import { expectNoLeaks, head, textOf } from './sheet-page.ts';

const cell = (page: Page, id: string): Locator => page.locator(`[data-cell="${id}"]`);
const lead = (page: Page, id: string): Promise<string> => textOf(cell(page, id).locator('.method').first());

async function openLine(page: Page): Promise<void> {
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).focus();
  await page.keyboard.press('Enter');
  await head(page).getByRole('button', { name: 'The S-N line of a class, with the invented example', exact: true }).focus();
  await page.keyboard.press('Enter');
  await cell(page, 'limits').waitFor();
}

/** Types over a given's one blank and leaves it. */
async function type(page: Page, label: string, text: string): Promise<void> {
  await page.getByRole('textbox', { name: label, exact: true }).focus();
  await page.keyboard.press('ControlOrMeta+A');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

async function choose(page: Page, option: string): Promise<void> {
  await page.getByRole('radio', { name: option, exact: true }).focus();
  await page.keyboard.press('Space');
}

/** What a row of a cell's small tables says. */
function row(page: Page, id: string, head: string): Promise<string> {
  return textOf(cell(page, id).getByRole('row').filter({ has: page.getByRole('rowheader', { name: head }) }).first());
}

async function show(page: Page, id: string, picture: string): Promise<void> {
  await cell(page, id).evaluate((element) => element.scrollIntoView({ block: 'start' }));
  await screenshot(page, picture, { fullPage: false });
}

const openings: readonly (readonly [string, Opening])[] = [
  ['phone', { size: 'phone' }],
  ['desktop', { size: 'desktop' }],
];

describe('what a line allows to be promised', () => {
  test.each(openings)('%s: stress, life, method and model are changed by keyboard, and all follows', async (name, opening) => {
    await withPage(opening, async ({ page }) => {
      await openLine(page);
      expect(await lead(page, 'limits')).toMatch(/^At 380 MPa half of all specimens last 393 000 cycles; with 95 % confidence at least 90 % last longer than 169 000 cycles\./);
      expect(await row(page, 'limits', 'Next specimen')).toContain('156 000');
      expect(await lead(page, 'groups')).toContain('steel K and steel M do not share one line');
      await show(page, 'limits', `sn-limits-${name}`);
      await show(page, 'groups', `sn-groups-${name}`);
      await checkAccess(page);

      await type(page, 'A stress to ask about', '250 MPa');
      await expect.poll(() => lead(page, 'limits')).toContain('At 250 MPa');
      await expect.poll(() => textOf(cell(page, 'limits'))).toContain('lies below every stress that was tested');
      await type(page, 'A stress to ask about', '400 MPa');
      await expect.poll(() => lead(page, 'limits')).toContain('At 400 MPa');
      await expect.poll(() => cell(page, 'limits').locator('.moved').count()).toBeGreaterThan(0);
      await type(page, 'A life to ask about', '2e5 cycles');
      await expect.poll(() => lead(page, 'limits')).toContain('The median life is 200 000 cycles at');

      await choose(page, 'maximum likelihood, runouts too');
      await expect.poll(() => textOf(cell(page, 'limits'))).toContain('adjusted for few specimens');
      await expect.poll(() => textOf(cell(page, 'groups'))).toContain('Likelihood-ratio tests');
      const others = page.getByRole('button', { name: 'Compare with other models' });
      await others.focus();
      await page.keyboard.press('Enter');
      await expect.poll(() => others.getAttribute('aria-expanded')).toBe('true');
      await expect.poll(() => textOf(cell(page, 'line'))).toContain('straight line, lognormal lives (chosen)');
      await expect.poll(() => textOf(cell(page, 'line'))).toContain('by profile likelihood');
      await show(page, 'line', `sn-models-${name}`);

      await choose(page, 'with a fatigue limit (maximum likelihood)');
      await type(page, 'A stress to ask about', '100 MPa');
      await expect.poll(() => lead(page, 'limits')).toContain('100 MPa lies at or below the fatigue limit of this line');
      await expect.poll(() => lead(page, 'groups')).toContain('lines with a fatigue limit can’t be compared here');
      await expectNoLeaks(page);
      await checkAccess(page);
    });
  });
});
