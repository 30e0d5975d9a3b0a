/** A class's returned files, with the keyboard only: collected as data, looked through, marked and taken away. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { archived } from '../../src/app/archive.ts';
import { fileOf, PLANTED, simulatedClass } from '../simulated-class.ts';
import { unzipped } from '../unzipped.ts';
import { asItOpens, checkAccess, download, screenshot, SHORT } from './harness.ts';
import { expectNoLeaks, head, plain, textOf } from './sheet-page.ts';

let folder: string;
const paths: string[] = [];

/** Thirty returns, one of them twice, a picture, a forged page, and a damaged report. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'spanlife-class-'));
  const put = (name: string, content: string | Uint8Array): void => {
    paths.push(join(folder, name));
    writeFileSync(join(folder, name), content);
  };
  const teams = simulatedClass();
  for (const team of teams) {
    const { name, content } = fileOf(team);
    put(name, content);
  }
  const [first] = teams;
  if (first !== undefined) put('team-01-again.md', first.text);
  put('forged.html', '<!doctype html><title>x</title><script>window.hit = 1</script><img src=x onerror="window.hit = 1">');
  put('damaged.html', '<!doctype html><template id="spanlife-document" data-format="1">["one line, and then</template>');
  put('picture.md', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3, 0xff, 0xfe]));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Focuses by name, as a reader who tabs there; what is pressed then is pressed by key. */
async function press(page: Page, name: string): Promise<void> {
  await head(page).getByRole('button', { name, exact: true }).first().focus();
  await page.keyboard.press('Enter');
}

/** Sheets, the files, and the table is there: three actions. */
async function collect(page: Page): Promise<Locator> {
  // The driver takes the browser's own dialog away from its first listener on, without telling when: a key right after it opened the dialog at times.
  page.on('filechooser', () => undefined);
  await page.locator('.sheet.at-work .menu-button').first().waitFor({ state: 'attached' });
  await press(page, 'Sheets');
  await head(page).getByLabel('Collect returned files').focus();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Space')]);
  await chooser.setFiles(paths);
  const table = head(page).locator('.collect-table');
  await table.waitFor();
  return table;
}

const row = (table: Locator, team: string): Locator => table.getByRole('row').filter({ has: table.page().getByRole('button', { name: team, exact: true }) });
const teamName = (number: number): string => `T${String(number).padStart(2, '0')}`;

test('thirty returns are in the table after three actions, looked through and taken away as a table', async () => {
  await asItOpens({ sheet: SHORT }, async ({ page }) => {
    const table = await collect(page);
    const said = plain(await textOf(head(page).locator('.collect-came [role="status"]')));
    expect(said).toBe('30 sheets; one file held a sheet that another one had brought already, and is counted once; 3 files could not be read.');
    expect(await table.getByRole('row').count()).toBe(31);
    expect(plain(await textOf(head(page).locator('.collect-refused')))).toMatch(/forged\.html This page does not hold a worksheet.*damaged\.html The worksheet inside this file is damaged.*picture\.md This file is not text/);
    // What it comes of follows when the table stands.
    await expect.poll(async () => plain(await textOf(row(table, teamName(PLANTED.radius))))).toMatch(/2976 MPa ✗ wrong.*radius/);
    expect(plain(await textOf(row(table, teamName(PLANTED.carried))))).toMatch(/✗ wrong.*✓ carried forward.*✓ carried forward/);
    await checkAccess(page);
    await screenshot(page, 'collect-answers', { fullPage: false });

    // The worst first, by the head of the column.
    await table.getByRole('columnheader', { name: /^σ|^sigma/ }).getByRole('button').focus();
    await page.keyboard.press('Enter');
    expect(await table.getByRole('columnheader', { name: /^σ|^sigma/ }).getAttribute('aria-sort')).toBe('ascending');
    expect(plain(await textOf(table.getByRole('row').nth(1)))).toMatch(/✗ wrong/);

    await table.getByRole('button', { name: teamName(PLANTED.radius), exact: true }).focus();
    await page.keyboard.press('Enter');
    const beside = head(page).getByRole('region', { name: `The sheet of ${teamName(PLANTED.radius)}` });
    await beside.waitFor();
    expect(plain(await textOf(beside))).toMatch(/Yours is 8\.00 times the sheet’s\..*The sheet has 372\.\d ± \d\.\d MPa/);
    await screenshot(page, 'collect-beside', { fullPage: false });

    await beside.getByRole('button', { name: 'Close' }).focus();
    await page.keyboard.press('Enter');
    await beside.waitFor({ state: 'detached' });
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(teamName(PLANTED.radius));
    expect(plain(await textOf(row(table, teamName(PLANTED.otherFormula))))).toContain('worked out otherwise: see The class');

    await head(page).getByRole('textbox', { name: 'that hold' }).focus();
    await page.keyboard.type('onerror');
    await expect.poll(() => table.getByRole('row').count()).toBe(2);
    await page.keyboard.press('Control+A');
    await page.keyboard.press('Delete');
    await expect.poll(() => table.getByRole('row').count()).toBe(31);

    await press(page, 'Points');
    const points = head(page).getByRole('group', { name: 'Points' }).getByLabel('Nominal stress amplitude');
    await points.focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('4');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await expect.poll(async () => plain(await textOf(row(table, teamName(1))))).toMatch(/^T01 6$/);
    // Half a point by hand for the right way.
    const byHand = table.getByLabel(`Points of ${teamName(PLANTED.radius)} for Nominal stress amplitude`);
    expect(await byHand.inputValue()).toBe('0');
    await byHand.focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('0,5');
    await page.keyboard.press('Enter');
    await expect.poll(async () => plain(await textOf(row(table, teamName(PLANTED.radius))))).toMatch(/^T03 2\.5$/);
    const csv = await download(page, () => press(page, 'Take the table away (CSV)'));
    expect(csv.name).toBe('class-rotating-bending-two-load-points.csv');
    const lines = csv.text.trim().split('\r\n');
    expect(lines.length).toBe(31);
    expect(lines[0]).toMatch(/^Team,Files,Operators,Machine,Specimen,Date,/);
    expect(lines.find((one) => one.startsWith('T01,'))).toContain('team-01-report.html; team-01-again.md');

    expect(await page.evaluate(() => (window as unknown as { hit?: number }).hit)).toBeUndefined();
    expect(await head(page).locator('.collect-table :is(img, script), .collect-beside :is(img, script)').count()).toBe(0);
    await expectNoLeaks(page);
  });
}, 120_000);

test('the class as a whole: outliers and same readings named, feedback in one archive, specimens in one S-N sheet, on a telephone', async () => {
  await asItOpens({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
    await collect(page);
    await press(page, 'The class');
    const whole = head(page).locator('.collect-class');
    const said = plain(await textOf(whole));
    expect(said).toContain(`${teamName(PLANTED.wrongDiameter)}: 9.5`);
    expect(said).toMatch(new RegExp(`${teamName(PLANTED.copied - 1)} and ${teamName(PLANTED.copied)} L, s ?_?1, s ?_?2, s ?_?3, d: 5 of 5`));
    expect(said).toMatch(new RegExp(`Worked out otherwise than in most sheets.*${teamName(PLANTED.otherFormula)} σ ?a`));
    expect(said).toContain(`Specimen PS-${PLANTED.sameSpecimen - 1} is there already, with another test, from ${teamName(PLANTED.sameSpecimen - 1)}.`);
    expect(await whole.getByRole('group', { name: 'The class’s specimens' }).getByRole('row').count()).toBe(30);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBeLessThanOrEqual(0);
    await checkAccess(page);
    await screenshot(page, 'collect-class', { fullPage: false });

    const archive = await download(page, () => press(page, 'Take the feedback away (ZIP)'));
    expect(archive.name).toBe('feedback-rotating-bending-two-load-points.zip');
    const files = await unzipped(readFileSync(archive.path));
    expect(files.length).toBe(30);
    expect(files.find(({ name }) => name === 'feedback-t03.html')?.text).toMatch(/It comes of: the radius/);
    expect(files.every(({ text }) => !/<script|<img/.test(text))).toBe(true);

    await press(page, 'Put them into a new S-N sheet');
    await head(page).getByText('29 specimens were put in.').waitFor();
    await page.locator('[data-cell="specimens"]').waitFor();
    expect(await page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).inputValue()).toBe('The S-N line of the class');
    // There already, and counted once.
    await press(page, 'Put them into the table of “The S-N line of the class”');
    await head(page).getByText('No specimen was put in. 29 were there already and stay as they are.').waitFor();
    await page.keyboard.press('Escape');
    expect(plain(await textOf(page.locator('[data-cell="specimens"] .margin')))).toMatch(/29 rows/);
    expect(await page.locator('[data-cell="specimens"]').getByRole('columnheader').allTextContents()).toEqual(expect.arrayContaining([expect.stringMatching(/Team/), expect.stringMatching(/file/)]));
    await expectNoLeaks(page);
  });
}, 120_000);

test('an archive of returned files is looked into, and no archive within it', async () => {
  const files = simulatedClass(3).map(fileOf);
  const within = Buffer.from(await (await archived(files, new Date(2026, 10, 30))).arrayBuffer());
  const archive = await archived([...files.map(({ name, content }) => ({ name: `T/${name}`, content })), { name: 'more.zip', content: new Uint8Array(within) }], new Date(2026, 10, 30));
  await asItOpens({ sheet: SHORT }, async ({ page }) => {
    await page.locator('.sheet.at-work .menu-button').first().waitFor({ state: 'attached' });
    await press(page, 'Sheets');
    await head(page).getByLabel('Collect returned files').setInputFiles({ name: 'class.zip', mimeType: 'application/zip', buffer: Buffer.from(await archive.arrayBuffer()) });
    const table = head(page).locator('.collect-table');
    await table.waitFor();
    expect(await table.getByRole('row').count()).toBe(4);
    expect(plain(await textOf(head(page).locator('.collect-refused')))).toMatch(/class\.zip\/more\.zip This file is not text/);
    await press(page, 'T03');
    expect(plain(await textOf(head(page).locator('.collect-beside')))).toContain('class.zip/T/team-03.md');
  });
});
