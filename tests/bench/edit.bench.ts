/**
 * An edit of a given, in the built page, to the last updated result; drawings and charts on. The page says by the events `spanlife:seen` and
 * `spanlife:settled` on its window when all in view and near it stands, and all of it. Work is processor time of the page's thread between the keys and those.
 */
import { launch } from '../journeys/harness-browser.ts';
import { besideSheet, fedSheet } from './fed-sheets.ts';
import { printTable, type Row } from './harness.ts';
import { openPage, timeEdits } from './page-edits.ts';

const LENGTHS = ['10.1 mm', '10.2 mm', '10.3 mm'];
const given = '[data-symbol="x"] input';

const browser = await launch();
try {
  const rows: Row[] = [];
  const time = async (what: string, text: string | undefined, { blank = given, values = LENGTHS, target }: { blank?: string; values?: string[]; target?: number }): Promise<void> => {
    const page = await openPage(browser, text, blank);
    rows.push(...(await timeEdits(browser, page, { what, blank, values, ...(target === undefined ? {} : { target }) })));
    await page.close();
  };
  // The minimum diameter: stress and life and everything after them depend on it.
  await time('the example, d', undefined, { blank: '[data-symbol="d"] input', values: ['6.31 mm', '6.32 mm'], target: 8 });
  for (const steps of [100, 300, 1000]) await time(`${steps} steps, all fed`, fedSheet(steps), steps === 1000 ? { target: 16 } : {});
  await time('10 steps fed', besideSheet(0), {});
  await time('10 steps fed, beside 1000 unrelated ones', besideSheet(1000), {});
  printTable('Edit of a given (built page, desktop size)', rows);
} finally {
  await browser.close();
}
