/** Numbers for each team: from the sheet to the archive with the keys alone, and from there to each team's own sheet. */
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import type { Page } from 'playwright';
import { unzipped } from '../unzipped.ts';
import { asItOpens as withPage, checkAccess, download, goToFile, screenshot, SHORT } from './harness.ts';
import { tabTo } from './keyboard.ts';
import { blanks, head, line, textOf } from './sheet-page.ts';

const LIST = '\ufeffteam;name\nT1;Ada\nT2;Ben\n第三班;試験\nT1;Cem';

/** A line of the key, of which only names are in quotation marks. */
function fieldsOf(row: string): readonly string[] {
  return [...row.matchAll(/(?:^|,)(?:"([^"]*)"|([^,]*))/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
}

/** With the focus in a list: the entry that begins with these words. */
async function choose(page: Page, words: string): Promise<void> {
  const index = await page.evaluate((wanted) => [...(document.activeElement as HTMLSelectElement).options].findIndex(({ label }) => label.startsWith(wanted)), words);
  expect([words, index]).not.toEqual([words, -1]);
  for (let i = 0; i < index; i += 1) await page.keyboard.press('ArrowDown');
}

async function takeUp(page: Page, list: string, words: string): Promise<void> {
  await tabTo(page, ({ name }) => name.startsWith(list));
  await choose(page, words);
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
}

/** A text in place of what stands in the field that has the focus. */
async function write(page: Page, text: string): Promise<void> {
  await page.keyboard.press('Control+A');
  await page.keyboard.insertText(text);
}

/** A lecture tells what is asked for press by press; in a team's file it does not. */
async function expectNothingToldByLecture(page: Page): Promise<void> {
  const numbers = () => line(page, 'R_A').locator('.quantity').count();
  expect(await numbers()).toBe(0);
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press('F8');
  await page.locator('.lecture-bar').waitFor();
  await page.keyboard.press('End');
  await page.locator('[data-lecture="stage"]').first().waitFor();
  expect(await numbers()).toBe(0);
  await page.keyboard.press('Escape');
  await page.locator('.lecture-bar').waitFor({ state: 'detached' });
}

const press = async (page: Page, name: string): Promise<void> => {
  await tabTo(page, (now) => now.tag === 'BUTTON' && now.name === name);
  await page.keyboard.press('Enter');
};

test('with the keys alone: ranges, a class list, the numbers, the archive, and each team’s file opened again', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await blanks(page, 'd').first().waitFor();
    await press(page, 'Take away');
    await press(page, 'A file for each team');
    await takeUp(page, 'One more given', 'Left support to left');
    // Taken up with a range about its value, in which the focus stands.
    await expect.poll(() => page.evaluate(() => (document.activeElement as HTMLInputElement).value)).toMatch(/^9\d mm \.\. 11\d mm step 1 mm$/);
    await write(page, '95 mm .. 105 mm step 0.5');
    await takeUp(page, 'One more given', 'Load, indicated');
    await write(page, '260 N .. 340 N step 5 N');
    await takeUp(page, 'One more given', 'Overall span');
    await write(page, 's_1 + s_2 + s_3 ± 0.5 mm step 0.5 mm');
    await takeUp(page, 'One more result', 'Nominal stress amplitude');
    await write(page, '900 GPa .. 901 GPa');
    await tabTo(page, ({ name }) => name.startsWith('Ask for the reader’s own'));
    await page.keyboard.press('Space');
    await tabTo(page, ({ name }) => name.startsWith('Class list'));
    await page.keyboard.insertText(LIST);
    await tabTo(page, ({ name }) => name.startsWith('Seed'));
    await write(page, 'autumn');
    await press(page, 'Draw the numbers');
    await expect.poll(() => textOf(head(page).locator('#class-files'))).toContain('No numbers in 2000 tries meet everything at once. Not met: σₐ between 900 GPa and 901 GPa, 2000 times'.slice(0, 60));

    await tabTo(page, ({ name }) => name.startsWith('Nominal stress'), 'Shift+Tab');
    await write(page, '300 MPa .. 450 MPa');
    await press(page, 'Draw the numbers');
    // The short sheet is filled by its example, which does not vary in all.
    await expect.poll(() => textOf(head(page).locator('#class-files'))).toContain('Values of the invented example go along');
    const table = head(page).locator('#class-files table');
    await expect.poll(() => table.locator('tbody tr').count()).toBe(3);
    expect(await textOf(table.locator('tbody tr').first())).toMatch(/T1\s*Ada, Cem/);
    await checkAccess(page);
    await screenshot(page, 'teams-desktop');

    const archive = await download(page, () => press(page, 'Take the files away (ZIP)'));
    expect(archive.name).toMatch(/-class\.zip$/);
    const files = await unzipped(readFileSync(archive.path));
    expect(files.map(({ name }) => /^(.*?)-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-/.exec(name)?.[1])).toEqual(['t1', 't2', '第三班']);
    const key = await download(page, () => press(page, 'Take the key away (CSV)'));
    const [heads = [], ...rows] = key.text.replace(/^\ufeff/, '').trimEnd().split('\r\n').map((row) => fieldsOf(row));
    expect(rows).toHaveLength(3);

    for (const [i, { text }] of files.entries()) {
      const path = join(dirname(archive.path), `team-${i}.html`);
      writeFileSync(path, text);
      await goToFile(page, path);
      await blanks(page, 's_1').first().waitFor();
      const of = (head: string): string => rows[i]?.[heads.indexOf(head)] ?? '';
      const field = async (name: string): Promise<string> => page.locator('.title-block').getByRole('textbox', { name }).inputValue();
      expect([await field('Team'), await field('Operators'), await field('Variant')]).toEqual([of('team'), of('names'), of('variant')]);
      expect([of('team'), of('names')]).toEqual([['T1', 'Ada, Cem'], ['T2', 'Ben'], ['第三班', '試験']][i]);
      for (const symbol of ['s_1', 'F', 'L']) expect([symbol, await blanks(page, symbol).first().inputValue()]).toEqual([symbol, of(symbol)]);
      expect(await textOf(line(page, 's_1'))).toContain('set for this team');
      // Nothing at the head shows at a press what is asked for.
      expect(await page.getByText('hide results until I have').count() + await page.getByText('How own results are judged').count()).toBe(0);
      if (i === 0) await expectNothingToldByLecture(page);
      expect(await textOf(line(page, 'R_A'))).toContain('then the sheet’s shows');
      expect(await textOf(line(page, 'sigma_a'))).not.toMatch(/= *\d{3}\.\d/);
    }
  });
});

test('on a telephone: nothing hangs out at the side, and what is wrong with a range is said at it', async () => {
  await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
    await blanks(page, 'd').first().waitFor();
    await head(page).getByRole('button', { name: 'Take away' }).click();
    await head(page).getByRole('button', { name: 'A file for each team' }).click();
    await head(page).getByLabel('One more given').selectOption({ label: 'Minimum diameter, read around the bar (d)' });
    await head(page).getByRole('button', { name: 'Let it vary' }).click();
    const field = head(page).locator('[data-range-of="d"]');
    await field.fill('7 mm .. 9 mm');
    await field.press('Tab');
    await expect.poll(() => textOf(head(page).locator('#class-files .refused').first())).toContain('What varies has no step.');
    await head(page).getByLabel('Class list').fill('T1\nT2');
    await head(page).getByRole('button', { name: 'Draw the numbers' }).click();
    await expect.poll(() => textOf(head(page).locator('#class-files .refused').last())).toContain('no step');
    expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    await checkAccess(page);
    await screenshot(page, 'teams-phone');
  });
});
