/** Three hundred returned files in the built page, every third a whole working file: from their choice to the table, to the last explanation, and the longest stretch in which the page does not answer. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { embedDocument } from '../../src/report/index.ts';
import { builtPage, launch, sizes } from '../journeys/harness-browser.ts';
import { fileOf, simulatedClass } from '../simulated-class.ts';

/** The built page with a team's sheet in it, as a working file is: some 1.7 MB. */
const built = readFileSync(builtPage, 'utf8');
function workingFile(text: string): string {
  return built.replace(/<template id="spanlife-document"[\s\S]*?<\/template>/, () => embedDocument(text));
}

interface Taken {
  readonly table: number;
  readonly longest: number;
  readonly all: number;
}

const folder = mkdtempSync(join(tmpdir(), 'spanlife-bench-class-'));
const browser = await launch();
try {
  const lines: string[] = [];
  for (const count of [30, 300]) {
    const paths = simulatedClass(count).map((team) => {
      const { name, content: short } = fileOf(team);
      const content = team.number % 3 === 2 ? workingFile(team.text) : short;
      const path = join(folder, `${count}-${name}`);
      writeFileSync(path, content);
      return path;
    });
    for (let run = 1; run <= 3; run += 1) {
      const page = await browser.newPage(sizes.desktop);
      await page.goto(pathToFileURL(builtPage).href);
      await page.locator('.head').getByRole('button', { name: 'Sheets', exact: true }).click();
      await page.evaluate(() => {
        const found = { begun: 0, table: 0, longest: 0, all: 0 };
        Object.assign(window, { found });
        new PerformanceObserver((list) => {
          for (const { duration } of list.getEntries()) found.longest = Math.max(found.longest, duration);
        }).observe({ type: 'longtask' });
        document.addEventListener('change', () => {
          found.begun = performance.now();
          found.longest = 0;
        }, true);
        new MutationObserver(() => {
          if (found.begun === 0 || document.querySelector('.collect-table') === null) return;
          found.all = performance.now() - found.begun;
          found.table ||= found.all;
        }).observe(document.body, { childList: true, subtree: true });
      });
      await page.locator('.head').getByLabel('Collect returned files').setInputFiles(paths);
      await page.locator('.collect-table').waitFor({ timeout: 120_000 });
      // The last explanation is in when nothing of the table has changed for a while.
      for (let before = -1, now = 0; before !== now; before = now, now = await page.evaluate(() => (window as unknown as { found: Taken }).found.all)) await page.waitForTimeout(1500);
      const { table, longest, all } = await page.evaluate(() => (window as unknown as { found: Taken }).found);
      lines.push(`${count} files, run ${run}: table after ${table.toFixed(0)} ms (target for 300: 5000), all explained after ${all.toFixed(0)} ms, longest task ${longest.toFixed(0)} ms`);
      await page.close();
    }
  }
  console.log(`\nReturned files collected in the page\n${lines.join('\n')}`);
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
