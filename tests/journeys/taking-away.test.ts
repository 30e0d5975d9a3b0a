/** What leaves the page comes back with every byte, and opens by itself. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens as withPage, checkAccess, download, goToFile, keepForLooking, screenshot, SHORT } from './harness.ts';
import { blanks, bringIn, chooseTakeaway, fill, head, notice, result, resultNumber, textOf, typed, untilKept } from './sheet-page.ts';
import { renamed } from './saved-file.ts';

/** The sheet's own text, with signs that HTML, JSON and UTF-8 could each get wrong. */
const ODD = 'T4 <b>&amp; “ünïcode” \u2028 </template><!-- ';

async function oddSheet(page: Page): Promise<string> {
  await page.locator('.title-block').getByRole('textbox', { name: 'Team' }).fill(ODD);
  await fill(page, 'd', '7.1 ± 0.02 mm');
  // The stress goes with d⁻³: 371.8 MPa · (7.52/7.1)³. What is kept may still be the team's name.
  await expect.poll(() => resultNumber(page, 'sigma_a')).toBeCloseTo(441.7, 0);
  await untilKept(page);
  const document = await download(page, () => chooseTakeaway(page, 'Document'));
  expect(document.name).toMatch(/\.md$/);
  return document.text;
}

describe('taking away', () => {
  test('the report: no script, its own words, and back again byte for byte', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const text = await oddSheet(page);
      const stress = await result(page, 'sigma_a');
      const report = await download(page, () => chooseTakeaway(page, 'Report'));
      expect(report.name).toMatch(/^rotating-bending-two-load-points-t4-.*-report\.html$/);
      const page1 = renamed(report);
      expect(/<script/i.test(report.text)).toBe(false);
      expect(/content="([^"]*)"/.exec(report.text)?.[1]?.replaceAll('&#39;', "'")).toContain("script-src 'none'");
      await bringIn(page, page1);
      await expect.poll(() => textOf(notice(page))).toMatch(/is brought in as a sheet of its own/);
      expect((await download(page, () => chooseTakeaway(page, 'Document'))).text === text).toBe(true);

      await goToFile(page, page1);
      expect(await page.title()).toBe('Rotating bending, two load points');
      expect((await textOf(page.locator('main'))).replace(/\s/g, '')).toContain(stress.replace(/\s/g, ''));
      expect(await page.getByRole('textbox').count() + await page.getByRole('button').count()).toBe(0);
      await screenshot(page, 'report-desktop', { fullPage: false });
      await checkAccess(page);
    });
  });

  test('the report dropped on another page, which never saw the sheet', async () => {
    let text = '';
    let report = '';
    await withPage({ sheet: SHORT }, async ({ page }) => {
      text = await oddSheet(page);
      report = (await download(page, () => chooseTakeaway(page, 'Report'))).text;
    });
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await blanks(page, 'd').first().waitFor();
      const data = await page.evaluateHandle((content) => {
        const transfer = new DataTransfer();
        transfer.items.add(new File([content], 'handed-in.html', { type: 'text/html' }));
        return transfer;
      }, report);
      await page.locator('main').dispatchEvent('drop', { dataTransfer: data });
      await expect.poll(() => textOf(notice(page))).toMatch(/handed-in\.html is brought in/);
      expect(await typed(page, 'd')).toEqual(['7.1 ± 0.02 mm']);
      expect((await download(page, () => chooseTakeaway(page, 'Document'))).text === text).toBe(true);
    });
  });

  test('the working file: readable without scripts, alive with them, keeps its own sheet, gives itself away again', async () => {
    let text = '';
    let path = '';
    await withPage({ sheet: SHORT }, async ({ page }) => {
      text = await oddSheet(page);
      const working = await download(page, () => chooseTakeaway(page, 'Working file'));
      path = renamed(working);
      expect(Buffer.byteLength(working.text)).toBeLessThan(2_800_000);
      expect(working.text).toMatch(/<html [^>]*data-sheet="[0-9a-f]{24}"/);
    });
    await withPage({ file: path, withoutScripts: true, size: 'phone' }, async ({ page }) => {
      expect(await textOf(page.locator('main'))).toMatch(/7\.1 ± 0\.02 mm/);
      await screenshot(page, 'working-without-scripts-phone', { fullPage: false });
    });
    await withPage({ file: path }, async ({ page }) => {
      await expect.poll(() => typed(page, 'd')).toEqual(['7.1 ± 0.02 mm']);
      expect((await download(page, () => chooseTakeaway(page, 'Document'))).text === text).toBe(true);
      await screenshot(page, 'working-live', { fullPage: false });
      // It gives away what it is, but for the time at its foot.
      const again = await download(page, () => chooseTakeaway(page, 'Working file'));
      const withoutTime = (html: string): string => html.replace(/taken away [^<]*/g, '');
      expect(withoutTime(again.text) === withoutTime(readFileSync(path, 'utf8'))).toBe(true);
      const stress = await resultNumber(page, 'sigma_a');
      await fill(page, 'd', '6.5 mm');
      await expect.poll(() => resultNumber(page, 'sigma_a')).toBeGreaterThan(stress);
      await untilKept(page);
      // Loaded again in its window, it is where it was.
      await page.reload();
      await expect.poll(() => typed(page, 'd')).toEqual(['6.5 mm']);
      expect(await notice(page).count()).toBe(0);
      // A working file of a working file lives as well, and shows its own state; what is kept here of the same sheet is offered beside it.
      await goToFile(page, renamed(again));
      await expect.poll(() => typed(page, 'd')).toEqual(['7.1 ± 0.02 mm']);
      await expect.poll(() => textOf(notice(page))).toMatch(/as the file holds it \(taken away .*\)\. A sheet from the same origin is kept in this browser, last changed /);
      await head(page).getByRole('button', { name: 'Show the one kept here' }).click();
      await expect.poll(() => typed(page, 'd')).toEqual(['6.5 mm']);
    });
  });

  test('one file handed out and two returned: each shows its own sheet, and a remark in one is not in the other', async () => {
    const returned: string[] = [];
    let handedOut = '';
    await withPage({ sheet: SHORT }, async ({ page }) => {
      handedOut = renamed(await download(page, () => chooseTakeaway(page, 'Working file')));
    });
    for (const force of ['301 N', '302 N']) {
      await withPage({ file: handedOut }, async ({ page }) => {
        await fill(page, 'F', force);
        await untilKept(page);
        returned.push(renamed(await download(page, () => chooseTakeaway(page, 'Working file'))));
      });
    }
    const [first = '', second = ''] = returned;
    const idOf = (file: string): string => /data-sheet="(\w+)"/.exec(readFileSync(file, 'utf8'))?.[1] ?? '';
    expect(new Set([handedOut, first, second].map(idOf)).size).toBe(3);
    await withPage({ file: first }, async ({ page }) => {
      await expect.poll(() => typed(page, 'F')).toEqual(['301 N']);
      await page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).fill('Marked, first team');
      await untilKept(page);
      await goToFile(page, second);
      await expect.poll(() => typed(page, 'F')).toEqual(['302 N']);
      expect(await textOf(page.locator('.title-block'))).not.toContain('Marked');
      await goToFile(page, first);
      await expect.poll(() => typed(page, 'F')).toEqual(['301 N']);
    });
  });

  test('equations as LaTeX, each drawing as SVG and PNG', async () => {
    await withPage({ sheet: SHORT, colorScheme: 'dark' }, async ({ page }) => {
      await head(page).getByRole('button', { name: 'Take away', exact: true }).click();
      await screenshot(page, 'take-away-dark', { fullPage: false });
      await checkAccess(page);
      await head(page).getByRole('button', { name: 'Take away', exact: true }).click();
      const tex = await download(page, () => chooseTakeaway(page, 'Equations'));
      expect(tex.name).toMatch(/\.tex$/);
      expect(tex.text.includes('\\frac')).toBe(true);
      for (const [environment] of [['equation'], ['aligned']] as const) {
        expect(tex.text.split(`\\begin{${environment}}`).length).toBe(tex.text.split(`\\end{${environment}}`).length);
      }

      const svg = await download(page, () => chooseTakeaway(page, 'Free body of the shaft as SVG'));
      expect(svg.name).toMatch(/free-body-of-the-shaft\.svg$/);
      const reaction = (await result(page, 'R_A')).split(' ')[0] ?? '?';
      expect(svg.text.includes(reaction)).toBe(true);
      await goToFile(page, renamed(svg));
      expect(await page.evaluate(() => document.documentElement.namespaceURI)).toBe('http://www.w3.org/2000/svg');
      // On white whatever the page's colours are, and with its own looks.
      const outline = await page.locator('.outline').first().evaluate((element) => getComputedStyle(element).stroke);
      expect(outline).toBe('rgb(29, 42, 58)');
    });
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const png = await download(page, () => chooseTakeaway(page, 'Shear force and bending moment as PNG'));
      const bytes = readFileSync(png.path);
      // PNG (second edition), W3C Recommendation, 5.2: the signature; 11.2.2: width and height in the first chunk.
      expect([...bytes.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
      expect(bytes.readUInt32BE(16)).toBe(2100);
      expect(bytes.length).toBeGreaterThan(20_000);
      keepForLooking('drawing-file.png', bytes);
    });
  });
});
