/** Damage to a file is told: to its sheet, to its script, wherever in it; a person who edited on purpose is not refused. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { asItOpens as withPage, builtPage, download, goToFile, screenshot, SHORT } from './harness.ts';
import { renamed } from './saved-file.ts';
import { size } from '../sizes.ts';
import { bringIn, chooseTakeaway, fill, notice, textOf, typed, untilKept } from './sheet-page.ts';

const words = (html: string): string => /fingerprint [0-9a-f ]{19}/.exec(html)?.[0] ?? '';

test('report and working file of one state show the same fingerprint, which is the sheet’s; an altered one is told and opened all the same', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await fill(page, 'F', '301 N');
    await untilKept(page);
    const sheet = (await download(page, () => chooseTakeaway(page, 'Document'))).text;
    const report = await download(page, () => chooseTakeaway(page, 'Report'));
    const working = await download(page, () => chooseTakeaway(page, 'Working file'));
    // By another hand: Node's own SHA-256 (FIPS 180-4).
    const sha256 = createHash('sha256').update(sheet, 'utf8').digest('hex');
    for (const { text } of [report, working]) {
      expect(/data-sha256="([0-9a-f]+)"/.exec(text)?.[1]).toBe(sha256);
      expect(words(text).replace(/fingerprint | /g, '')).toBe(sha256.slice(0, 16));
    }
    const [file, workingFile] = [renamed(report), renamed(working)];
    await bringIn(page, file);
    await expect.poll(() => textOf(notice(page))).toMatch(/is brought in as a sheet of its own\. ?Close this note$/);
    for (const path of [file, workingFile]) writeFileSync(path, readFileSync(path, 'utf8').replaceAll('value: 301 N', 'value: 310 N'));
    await bringIn(page, file);
    await expect.poll(() => textOf(notice(page))).toMatch(/is brought in .*altered after it was taken away/);
    expect(await typed(page, 'F')).toEqual(['310 N']);
    await goToFile(page, workingFile);
    await expect.poll(() => textOf(notice(page))).toMatch(/altered after it was taken away/);
    expect(await typed(page, 'F')).toEqual(['310 N']);
  });
});

test('any flipped bit in the sheet’s own text is told on bringing it in, or the file is refused', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    const report = await download(page, () => chooseTakeaway(page, 'Report'));
    const bytes = Buffer.from(report.text, 'utf8');
    const start = bytes.indexOf('<template id="spanlife-document"');
    const end = bytes.indexOf('</template>', start);
    for (let i = 0; i < size(6, 200); i += 1) {
      const altered = Buffer.from(bytes);
      const at = start + 140 + Math.floor(((i * 0.6180339887) % 1) * (end - start - 140));
      altered[at] = (altered[at] ?? 0) ^ (1 << (i % 7));
      await bringIn(page, { name: `flipped-${i}.html`, mimeType: 'text/html', buffer: altered });
      await expect.poll(() => textOf(notice(page)), { message: `bit ${i % 7} of byte ${at}: ${bytes.subarray(at - 20, at + 20).toString()}` }).toMatch(new RegExp(`flipped-${i}\\.html (was not brought in|is brought in .*altered after it was taken away)`));
    }
  });
});

test('a script that is damaged, wherever, is told by the page itself', async () => {
  const broken: string[] = [];
  await withPage({ sheet: SHORT }, async ({ page }) => {
    const working = await download(page, () => chooseTakeaway(page, 'Working file'));
    for (const [part, inside] of [['<script type="text/plain" data-part="main">', 200_000], ['<script type="module">', 60]] as const) {
      const at = working.text.indexOf(part) + part.length + inside;
      const path = renamed(working).replace('.html', `-${inside}.html`);
      writeFileSync(path, `${working.text.slice(0, at)}${working.text[at] === 'A' ? 'B' : 'A'}${working.text.slice(at + 1)}`);
      broken.push(path);
    }
  });
  for (const file of broken) {
    await withPage({ file, size: 'phone' }, async ({ page, complaints }) => {
      await page.getByText('This page has not come to life').waitFor({ timeout: 30_000 });
      await screenshot(page, 'damage-script-phone', { fullPage: false });
      expect(complaints.length).toBeGreaterThan(0);
      complaints.length = 0;
    });
  }
});

test('a part that is damaged is told where it is wanted, and the rest of the page goes on', async () => {
  const html = readFileSync(builtPage, 'utf8');
  const path = join(mkdtempSync(join(tmpdir(), 'spanlife-part-')), 'damaged-parts.html');
  writeFileSync(path, ['charts', 'start-texts'].reduce((text, name) => {
    const at = text.indexOf(`data-part="${name}">`) + 4000;
    return `${text.slice(0, at)}${text[at] === 'A' ? 'B' : 'A'}${text.slice(at + 1)}`;
  }, html));
  await withPage({ file: path, size: 'phone' }, async ({ page, complaints }) => {
    await fill(page, 'F', '301 N');
    const chart = page.locator('.chart-drawn').first();
    await expect.poll(() => textOf(chart.locator('.chart-reading'))).toMatch(/^This can not be done here: a part of this file \(what draws charts\) is damaged\. The rest of the page goes on\./);
    // On paper it is not told to print again, which would help nobody.
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    expect(await textOf(chart.locator('.paper'))).toMatch(/^This can not be done here: a part of this file/);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    expect(await textOf(chart.locator('.paper'))).toBe('');
    await page.getByRole('button', { name: 'Sheets' }).click();
    await page.getByRole('button', { name: 'Rotating bending, blank' }).click();
    await expect.poll(() => textOf(notice(page))).toMatch(/a part of this file \(the sheets to start from\) is damaged/);
    expect(await typed(page, 'F')).toEqual(['301 N']);
    await screenshot(page, 'damage-part-phone', { fullPage: false });
    // What needs no part leaves the page as ever.
    expect((await download(page, () => chooseTakeaway(page, 'Document'))).text).toContain('value: 301 N');
    // The browser remarks what the policy did not let start.
    expect(complaints.filter((text) => !/Content[- ]Security[- ]Policy|integrity|Refused/i.test(text))).toEqual([]);
    complaints.length = 0;
  });
});
