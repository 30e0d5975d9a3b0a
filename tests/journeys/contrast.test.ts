/** Every text stands out enough in both colours (WCAG 2.2, 1.4.3): all sheets, and the states and panels that a reader can open on them. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { SHIPPED, shipped } from '../shipped.ts';
import { fileOf, simulatedTeam } from '../simulated-class.ts';
import { mode, outlineByKeys, outlineByPointer, press as pressPicture, taken } from './fracture-hand.ts';
import { checkContrast, download, goToFile, intoView, SHORT, withPage } from './harness.ts';
import { renamed } from './saved-file.ts';
import { blanks, bringIn, chooseTakeaway, fill, head, line, notice, scrollThrough, untilKept } from './sheet-page.ts';

const text = (name: string): string => shipped(name.replace(/\.md$/, ''));
let brought = 0;
const folder = mkdtempSync(join(tmpdir(), 'spanlife-contrast-'));

async function inBothColours(page: Page): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await checkContrast(page);
  }
}

/** Brings a worksheet in from its file, changed or as it is. */
async function bring(page: Page, name: string, change = (sheet: string): string => sheet): Promise<void> {
  const file = join(folder, `${(brought += 1)}-${name}`);
  writeFileSync(file, change(text(name)));
  await page.locator('.sheet.at-work .menu-button').first().waitFor({ state: 'attached' });
  await bringIn(page, file);
  await notice(page).getByText('is brought in').waitFor();
}

async function startFromList(page: Page, name: string): Promise<void> {
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
  await page.getByRole('button', { name, exact: true }).click();
}

/** Opens parts of a line by their words. */
async function openOf(page: Page, symbol: string, ...words: readonly string[]): Promise<void> {
  const cell = line(page, symbol);
  await cell.locator('.menu-button').waitFor({ state: 'attached' });
  await intoView(cell);
  await cell.focus();
  for (const word of words) await cell.getByRole('button', { name: word, exact: true }).click();
}

const unfoldHead = async (page: Page, name: RegExp): Promise<void> => {
  await head(page).getByRole('navigation', { name: 'Sheets and files' }).getByRole('button', { name }).first().click();
  await page.locator('.panel').waitFor();
};

const sheets = SHIPPED.filter((name) => name !== 'rotating-bending').map((name) => `${name}.md`);

describe('contrast of whole sheets', () => {
  test.each(['phone', 'desktop'] as const)('the sheet that it opens with, %s', async (size) => {
    await withPage({ size }, async ({ page }) => {
      await scrollThrough(page);
      await inBothColours(page);
    });
  });

  test('all others', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      for (const name of sheets) {
        await bring(page, name);
        await scrollThrough(page);
        await inBothColours(page);
      }
    });
  });

  test('blanks that are empty, and a sheet that is', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      for (const name of ['Rotating bending, blank', 'An empty sheet']) {
        await startFromList(page, name);
        await scrollThrough(page);
        await inBothColours(page);
      }
    });
  });

  test('a report', async () => {
    await withPage({}, async ({ page }) => {
      await fill(page, 'd', '7.1 mm');
      const report = await download(page, () => chooseTakeaway(page, 'Report'));
      await goToFile(page, renamed(report));
      await inBothColours(page);
    });
  });
});

describe('contrast of what can be opened', () => {
  test('a wrong unit and the menu of its line', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      await fill(page, 'd', '6.35 kg');
      await line(page, 'd').focus();
      await page.keyboard.press('Control+.');
      await page.getByRole('menu').waitFor();
      await inBothColours(page);
    });
  });

  test('the language of the sheet', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      const help = page.locator('.sheet-foot .language');
      await help.locator(':scope > summary').click();
      await help.getByText('step', { exact: true }).first().click();
      await help.getByRole('row', { name: /^formula How it is worked out/ }).waitFor();
      await inBothColours(page);
    });
  });

  test('a line with all that can be opened at it, and draws', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const stress = line(page, 'sigma_a');
      await openOf(page, 'N_f', 'draws');
      await openOf(page, 'sigma_a', 'back to the inputs', 'uncertainty budget', 'work back', 'against an input');
      await stress.locator('.sweep svg.chart').waitFor();
      await stress.getByRole('textbox', { name: /What would it take/ }).fill('0.4 %');
      await stress.getByRole('textbox', { name: /What would it take/ }).press('Enter');
      await stress.getByRole('textbox', { name: /wanted result/ }).fill('400 MPa');
      await stress.getByRole('button', { name: 'find it' }).click();
      await stress.locator('.found, .problem').first().waitFor();
      await openOf(page, 's_1');
      await line(page, 's_1').getByRole('button', { name: /how it was measured/ }).click();
      await line(page, 's_1').getByRole('button', { name: 'uncertainty budget' }).click();
      await line(page, 's_1').locator('.budget-table').waitFor();
      await line(page, 'N_f').locator('.verdict-line').waitFor({ timeout: 120_000 });
      // A chart is drawn once its line is in view or near it.
      await intoView(line(page, 'N_f'));
      await line(page, 'N_f').locator('.draws svg.chart').waitFor({ timeout: 120_000 });
      await inBothColours(page);
    });
  });

  test('the panels of the head, and a note', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      for (const name of [/^Sheets$/, /^Take away$/, /^Hold/]) {
        await unfoldHead(page, name);
        await inBothColours(page);
      }
      await unfoldHead(page, /^Take away$/);
      await head(page).getByRole('button', { name: 'A file for each team' }).click();
      await head(page).getByRole('button', { name: 'Draw the numbers' }).click();
      await head(page).locator('#class-files .refused').waitFor();
      await inBothColours(page);
      await fill(page, 'F', '301 N');
      await untilKept(page);
      await startFromList(page, 'An empty sheet');
      await page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).fill('Second');
      await untilKept(page);
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
      const earlier = 'Earlier states of this sheet';
      await page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).fill('Third');
      await untilKept(page);
      await head(page).getByRole('button', { name: earlier, exact: true }).click();
      await head(page).getByRole('list', { name: earlier }).getByRole('button', { name: /^Go back to it/ }).first().waitFor();
      await inBothColours(page);
      await head(page).getByRole('button', { name: /^Delete Rotating/ }).click();
      await notice(page).getByText('is deleted').waitFor();
      await inBothColours(page);
    });
  });

  test('a class’s returned files', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      await unfoldHead(page, /^Sheets$/);
      const files = [1, 3, 7, 9, 13, 15].map(simulatedTeam).map(fileOf).map(({ name, content }) => ({ name, mimeType: 'text/html', buffer: Buffer.from(content) }));
      await head(page).getByLabel('Collect returned files').setInputFiles([...files, { name: 'else.html', mimeType: 'text/html', buffer: Buffer.from('<!doctype html><title>x</title>') }]);
      await head(page).locator('.collect-table').waitFor();
      for (const view of ['Own results', 'Checks and tests', 'Points', 'The class']) {
        await head(page).getByRole('button', { name: view, exact: true }).click();
        await inBothColours(page);
      }
      await head(page).getByRole('button', { name: 'Own results', exact: true }).click();
      await head(page).getByRole('button', { name: 'T03', exact: true }).click();
      await head(page).locator('.collect-beside').waitFor();
      await inBothColours(page);
    });
  });

  test('a slip that is on, a held state to compare with, and results held back with a wrong answer', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await unfoldHead(page, /^Hold/);
      await head(page).getByLabel('Hold what the sheet says now under the name').fill('as built');
      await page.keyboard.press('Enter');
      await head(page).getByRole('button', { name: 'Compare with this: as built' }).click();
      await fill(page, 'd', '7.35 mm');
      await line(page, 'sigma_a').locator('.margin .shift').waitFor();
      await page.locator('.head [data-unfolds="slips"]').click();
      await page.locator('.panel .slip-entry input').first().check();
      await page.locator('.title-block .slip-band').waitFor();
      await inBothColours(page);
      await page.locator('.title-block').getByRole('checkbox', { name: 'hide results until I have worked them out' }).check();
      const own = page.getByRole('textbox', { name: 'Your own result for Load on the specimen' });
      await own.fill('310 mm');
      await own.press('Enter');
      await line(page, 'W').locator('.problem').waitFor();
      await inBothColours(page);
    });
  });

  test('what one percent does along the chain', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await scrollThrough(page);
      await openOf(page, 'd');
      await page.keyboard.press('Control+.');
      await page.getByRole('menu').waitFor();
      await page.keyboard.press('g');
      await page.locator('.one-percent').first().waitFor();
      await inBothColours(page);
    });
  });

  test('a line brought from a file, and one that can not be taken', async () => {
    await withPage({}, async ({ page }) => {
      const cell = page.locator('[data-cell="class-line"]');
      await cell.getByRole('button', { name: 'Take a line from another sheet' }).click();
      for (const [name, sheet] of [['curved.md', text('sn-line.md').replace('chosen: linear', 'chosen: quadratic')], ['class.md', text('sn-line.md')]] as const) {
        await cell.locator('input[type=file]').setInputFiles({ name, mimeType: 'text/markdown', buffer: Buffer.from(sheet) });
        await page.getByRole('region', { name: 'Lines of other sheets' }).getByText(name === 'class.md' ? 'The line through the tests' : 'a curved line').first().waitFor();
        await inBothColours(page);
      }
      await page.getByRole('button', { name: 'The line through the tests' }).click();
      await cell.getByText('Taken from').waitFor();
      await inBothColours(page);
    });
  });
});

describe('contrast at the bench', () => {
  test('a test that runs, on a clock that went back, and that has ended', async () => {
    await withPage({ sheet: SHORT, size: 'phone', clock: '2026-11-20T09:00:00Z' }, async ({ page }) => {
      const record = page.locator('[data-cell="test"]');
      const press = (name: string): Promise<void> => record.getByRole('button', { name, exact: true }).click();
      await intoView(record);
      await record.getByLabel('Counter at the start', { exact: true }).last().fill('999800');
      await press('Start the test');
      await record.getByText(/^Running since/).waitFor();
      await press('Note a reading');
      await page.clock.fastForward(600_000);
      await inBothColours(page);
      await page.clock.setSystemTime(new Date('2026-11-20T08:00:00Z'));
      await page.clock.runFor(2000);
      await record.getByText(/The clock of this device says/).waitFor();
      await press('Ended');
      await record.getByLabel('Outcome').selectOption('fracture');
      await inBothColours(page);
    });
  });

  test('a photograph marked', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await taken(page);
      await outlineByKeys(page);
      await outlineByPointer(page);
      await mode(page, 'Mark an origin');
      await pressPicture(page, 430, 180);
      await inBothColours(page);
    });
  });

  test('a table with a row left out, and a fit that finds no limits', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await bring(page, 'sn-line.md', (sheet) => sheet.replace('chosen: linear', 'chosen: fatigue-limit').replace('chosen: least-squares', 'chosen: maximum-likelihood'));
      await page.locator('[data-cell="specimens"]').getByRole('textbox', { name: 'Outcome, row 2', exact: true }).fill('fractur');
      await page.keyboard.press('Enter');
      await page.locator('tr.told').first().waitFor();
      await scrollThrough(page);
      await inBothColours(page);
    });
  });
});

test('contrast in the lecture view: a line with its drawing, and the pause for a guess', async () => {
  await withPage({ sheet: SHORT, context: { viewport: { width: 1280, height: 720 }, deviceScaleFactor: 1 } }, async ({ page }) => {
    await blanks(page, 'd').first().waitFor();
    await page.keyboard.press('F8');
    await page.locator('.lecture-bar').waitFor();
    for (let i = 0; i < 400 && (await page.locator('[data-lecture="stage"][data-cell="R_A"][data-reveals$="numbers"]').count()) === 0; i += 1) await page.keyboard.press('PageDown');
    await inBothColours(page);
    await page.keyboard.press('p');
    await page.locator('.lecture-guess').waitFor();
    await page.locator('.lecture-bar').getByRole('button', { name: 'more' }).click();
    await inBothColours(page);
  });
});

test('a text that stands out too little would be found', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await blanks(page, 'd').first().waitFor({ state: 'attached' });
    await page.locator('label.label').first().evaluate((element: HTMLElement) => element.style.setProperty('color', '#ccc', 'important'));
    await expect(checkContrast(page)).rejects.toThrow(/color-contrast/);
  });
});
