/**
 * A table of a hundred thousand rows in the built page: brought in, edited, looked through; and the fit alone. Rows are
 * invented. A task is what keeps the page from answering; the longest one during each step is told beside its time.
 */
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright';
import { fitLeastSquares, fitMaximumLikelihood, type Outcome } from '../../src/core/fatigue/index.ts';
import { createRandom } from '../../src/core/numeric/index.ts';
import { builtPage, launch, sizes } from '../journeys/harness-browser.ts';
import { measure, printTable, type Row } from './harness.ts';

const ROWS = 100_000;
const LEVELS = [300, 340, 380, 420, 460];
const END_OF_TEST = 1e7;

interface Specimens {
  readonly stressMpa: Float64Array;
  readonly cycles: Float64Array;
  readonly outcomes: readonly Outcome[];
}

/** Lives about N = 1e5 (S/420 MPa)^-12 with a scatter of 0.15 in log10 N, ended at 1e7 cycles. */
function specimens(): Specimens {
  const random = createRandom(20261125);
  const stressMpa = new Float64Array(ROWS);
  const cycles = new Float64Array(ROWS);
  const outcomes: Outcome[] = [];
  for (let row = 0; row < ROWS; row++) {
    const stress = LEVELS[row % LEVELS.length] ?? 0;
    const life = Math.round(10 ** (5 - 12 * Math.log10(stress / 420) + 0.15 * random.normal()));
    stressMpa[row] = stress;
    cycles[row] = Math.min(life, END_OF_TEST);
    outcomes.push(life > END_OF_TEST ? 'runout' : 'fracture');
  }
  return { stressMpa, cycles, outcomes };
}

function csvOf({ stressMpa, cycles, outcomes }: Specimens): string {
  const rows = outcomes.map((outcome, row) => `K${String(row).padStart(6, '0')},steel ${row % 2 === 0 ? 'K' : 'M'},${stressMpa[row]},${cycles[row]},${outcome}`);
  return `specimen,group,S [MPa],N,outcome\n${rows.join('\n')}\n`;
}

/** The longest task since the last time it was asked for, ms. */
async function longestTask(page: Page): Promise<number> {
  await page.waitForTimeout(300);
  return page.evaluate(() => {
    const tasks = (window as unknown as { longTasks: number[] }).longTasks;
    const longest = Math.max(0, ...tasks);
    tasks.length = 0;
    return longest;
  });
}

async function settledAfter(page: Page, action: () => Promise<void>): Promise<number> {
  await page.evaluate(() => {
    const page = window as unknown as { begun: number; took: Promise<number> };
    page.took = new Promise((done, refuse) => {
      window.addEventListener('spanlife:settled', () => done(performance.now() - page.begun), { once: true });
      setTimeout(() => refuse(new Error('not settled within a minute')), 60_000);
    });
    page.begun = performance.now();
  });
  await action();
  return page.evaluate(() => (window as unknown as { took: Promise<number> }).took);
}

/** So much has this machine to give at the moment: the times below stand beside it. */
const plainLoop = await measure('200 million additions, for comparison', () => {
  let sum = 0;
  for (let i = 0; i < 2e8; i++) sum += i * 1.0000001;
  if (sum === 0) throw new Error('nothing was added');
}, { warmUp: 1, runs: 3 });

const rows = specimens();
const fits: Row[] = [plainLoop, await measure('least squares', () => void fitLeastSquares(rows), { warmUp: 2, runs: 8 })];
for (const life of ['lognormal', 'weibull'] as const) {
  for (const model of ['linear', 'limit'] as const) {
    fits.push(await measure(`maximum likelihood, ${life}, ${model}`, () => void fitMaximumLikelihood(rows, { life, model }), { warmUp: 1, runs: 3 }));
  }
}
printTable('Fits of 100 000 rows at five stresses (no page)', fits);

const browser = await launch();
try {
  const page = await browser.newPage(sizes.desktop);
  await page.addInitScript(() => {
    const tasks: number[] = [];
    (window as unknown as { longTasks: number[] }).longTasks = tasks;
    new PerformanceObserver((list) => tasks.push(...list.getEntries().map(({ duration }) => duration))).observe({ type: 'longtask' });
  });
  await page.goto(pathToFileURL(builtPage).href);
  await page.getByRole('button', { name: 'Sheets', exact: true }).click();
  await page.getByRole('button', { name: /S-N line/ }).click();
  const table = page.locator('[data-cell="specimens"]');
  await table.locator('tbody tr').first().waitFor();
  await page.waitForTimeout(1500);
  await longestTask(page);

  const file = { name: 'invented.csv', mimeType: 'text/csv', buffer: Buffer.from(csvOf(rows)) };
  const tasks: Row[] = [];
  const bringIn = await settledAfter(page, () => table.locator('input[type=file]').setInputFiles(file));
  tasks.push({ what: 'bringing in', times: [await longestTask(page)] });

  /** One field typed over, by keys as a reader does. */
  const edit = (row: number, text: string): Promise<number> =>
    page.evaluate(async ({ place, typed }) => {
      const field = document.querySelector<HTMLInputElement>(`[data-cell="specimens"] input[data-row="${place}"][data-column="3"]`);
      if (field === null) throw new Error(`row ${place} is not in the page`);
      field.focus();
      await new Promise((done) => setTimeout(done, 30));
      const settled = new Promise<void>((done) => window.addEventListener('spanlife:settled', () => done(), { once: true }));
      const begun = performance.now();
      field.value = typed;
      field.dispatchEvent(new Event('input', { bubbles: true }));
      field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true }));
      await settled;
      await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
      return performance.now() - begun;
    }, { place: row, typed: text });
  const edits = await measure('an edit of one field, to the next frame with the fit up to date', (run) => edit(run % 50, String(150_000 + run)), { warmUp: 3, runs: 30, target: 150 });
  tasks.push({ what: 'edits, keeping included', times: [await longestTask(page)] });

  const turn = await measure('later rows', () => settledTurn(page), { warmUp: 2, runs: 15, target: 50 });
  tasks.push({ what: 'looking through', times: [await longestTask(page)] });

  const session = await page.context().newCDPSession(page);
  const heap = async (): Promise<number> => {
    await session.send('HeapProfiler.collectGarbage');
    return (await session.send('Runtime.getHeapUsage')).usedSize / 1e6;
  };
  const before = await heap();
  await page.getByRole('textbox', { name: 'First row shown' }).fill('1');
  await page.keyboard.press('Enter');
  for (let run = 0; run < 40; run += 1) await edit(run % 50, String(200_000 + run));
  const after = await heap();

  printTable('100 000 rows in the built page, desktop size', [{ what: 'bringing in a file of them', times: [bringIn], target: 2000 }, edits, turn]);
  printTable('Longest task', tasks.map((row) => ({ ...row, target: 200 })));
  console.log(`\nMemory in use: ${before.toFixed(0)} MB; after forty edits more, each a step to undo: ${after.toFixed(0)} MB`);
} finally {
  await browser.close();
}

/** Goes on to the next window of rows; to the end of the frame that shows them. */
function settledTurn(page: Page): Promise<number> {
  return page.evaluate(async () => {
    const button = [...document.querySelectorAll<HTMLButtonElement>('[data-cell="specimens"] .pager button')].at(-1);
    const begun = performance.now();
    button?.click();
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    return performance.now() - begun;
  });
}
