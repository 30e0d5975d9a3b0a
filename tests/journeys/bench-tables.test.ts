/** Tables at the bench, by touch on a phone: numbers in full, a row as a form, words by one press. */
import { expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { asItOpens, checkAccess, intoView, screenshot } from './harness.ts';
import { pdfPages } from './pdf-text.ts';
import { expectNoLeaks, textOf } from './sheet-page.ts';

const inTable = (page: Page, id: string): Locator => page.locator(`[data-cell="${id}"]`);
const form = (page: Page): Locator => page.locator('.row-form');
const count = (page: Page, id: string): Promise<string> => textOf(inTable(page, id).locator('.count'));

test('rows on a phone: read in full, opened as a form, written by a press, one step to undo each', async () => {
  await asItOpens({ sheet: 'sn-line.md', size: 'phone' }, async ({ page }) => {
    const table = inTable(page, 'specimens');
    await table.getByRole('textbox', { name: 'Life, row 1', exact: true }).waitFor();
    await intoView(table.locator('tbody tr').first());
    // Every number that the phone shows at once is there with all its digits.
    const cut = await table.evaluate((cell) => {
      const edge = cell.querySelector('.ruled')?.getBoundingClientRect().right ?? 0;
      return [...cell.querySelectorAll<HTMLInputElement>('tbody .figures > input[data-column="2"], tbody .figures > input[data-column="3"]')]
        .filter((one) => one.scrollWidth > one.clientWidth || one.getBoundingClientRect().right > edge).map(({ value }) => value);
    });
    expect(cut).toEqual([]);
    await screenshot(page, 'bench-table', { fullPage: false });

    await table.getByRole('button', { name: 'row 4 as a form' }).tap();
    await expect.poll(() => textOf(form(page).locator('strong'))).toBe('Row 4 of 24');
    const fracture = form(page).getByRole('button', { name: 'fracture', exact: true });
    expect(await fracture.getAttribute('aria-pressed')).toBe('true');
    await form(page).getByRole('textbox', { name: /^Life/ }).fill('81O93');
    await form(page).getByRole('button', { name: 'invalid', exact: true }).tap();
    await expect.poll(() => count(page, 'specimens')).toContain('1 left out');
    expect(await textOf(table.locator('tr.told .out'))).toBe('Row 4 is left out.');
    expect(await form(page).getByRole('textbox', { name: /^Life/ }).inputValue()).toBe('81O93');
    const told = await form(page).getByRole('textbox', { name: /^Life/ }).evaluate((one) => document.getElementById(one.getAttribute('aria-describedby') ?? '')?.textContent);
    expect(told).toContain('Row 4 is left out.');
    await screenshot(page, 'bench-row-form', { fullPage: false });
    await checkAccess(page);
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => fracture.getAttribute('aria-pressed')).toBe('true');
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => count(page, 'specimens')).toBe('24 rows');

    // A fresh row is typed where it stands, from one field to the next by the keyboard's own key.
    await table.getByRole('button', { name: 'new row as a form' }).tap();
    await expect.poll(() => form(page).getByRole('textbox', { name: 'Specimen' }).evaluate((one) => one === document.activeElement)).toBe(true);
    for (const text of ['K13', 'steel K', '310', '1234567']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await form(page).getByRole('button', { name: 'fracture', exact: true }).tap();
    await expect.poll(() => count(page, 'specimens')).toBe('25 rows');
    expect(await textOf(form(page).locator('strong'))).toBe('Row 25 of 25');
    expect(await table.getByRole('textbox', { name: 'Life, row 25', exact: true }).inputValue()).toBe('1234567');
    await form(page).getByRole('button', { name: 'new row', exact: true }).tap();
    await expect.poll(() => textOf(form(page).locator('strong'))).toBe('New row');
    await expectNoLeaks(page);
  });
});

test('the staircase at the bench: the level in large letters, each outcome by one press, the walk beside it', async () => {
  await asItOpens({ sheet: 'staircase.md', size: 'phone' }, async ({ page }) => {
    const bench = page.locator('.bench');
    await bench.waitFor();
    await intoView(bench);
    const level = (): Promise<string> => textOf(bench.locator('.level'));
    const ended = (name: string): Locator => bench.getByRole('button', { name, exact: true });
    expect(await level()).toBe('280 MPa');
    expect(await bench.locator('.level').evaluate((one) => parseFloat(getComputedStyle(one).fontSize))).toBeGreaterThan(40);
    const walk = page.locator('[data-cell="stairs"]');
    await expect.poll(() => textOf(walk)).toContain('The next specimen is for 280 MPa');
    await screenshot(page, 'bench-staircase', { fullPage: false });

    // Nothing waits: level and outcome go in as one row, at one press and as one step to undo.
    await ended('runout').tap();
    await expect.poll(level).toBe('290 MPa');
    await expect.poll(() => count(page, 'tests')).toBe('19 rows');
    await expect.poll(() => textOf(walk)).toContain('The next specimen is for 290 MPa');
    await ended('fracture').tap();
    await expect.poll(level).toBe('280 MPa');
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(level).toBe('290 MPa');
    await expect.poll(() => count(page, 'tests')).toBe('19 rows');

    // With a row that waits it is that row's outcome.
    await page.locator('[data-cell="staircase"]').getByRole('button', { name: /^add the next test/ }).tap();
    await page.getByRole('textbox', { name: 'Specimen, row 20', exact: true }).waitFor();
    await page.keyboard.type('Q20');
    await page.keyboard.press('Enter');
    await expect.poll(() => textOf(bench)).toContain('Row 20, Q20 at 290 MPa has ended as');
    await ended('fracture').tap();
    await expect.poll(level).toBe('280 MPa');
    expect(await page.getByRole('textbox', { name: 'Outcome, row 20', exact: true }).inputValue()).toBe('fracture');
    expect(await count(page, 'tests')).toBe('20 rows');
    await checkAccess(page);
    await expectNoLeaks(page);

    // By keyboard a row opens from what can be done with the rows; on paper the table is whole, and has neither form nor presses.
    await page.getByRole('textbox', { name: 'Specimen, row 3', exact: true }).focus();
    await inTable(page, 'tests').locator('.line-actions').getByRole('button', { name: 'row 3 as a form' }).press('Enter');
    await expect.poll(() => textOf(form(page).locator('strong'))).toBe('Row 3 of 20');
    const paper = pdfPages(await page.pdf({ format: 'A4' })).map(({ text }) => text).join(' ');
    for (const said of ['Q01', 'Q03', 'Q20290', 'Nexttest:280']) expect(paper).toContain(said);
    for (const unsaid of ['Row3of', 'asaform', 'When', 'class=']) expect(paper).not.toContain(unsaid);
    await expect.poll(() => textOf(form(page).locator('strong'))).toBe('Row 3 of 20');
  });
});
