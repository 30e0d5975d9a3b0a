/** Edits in the built page, timed by the clock and by the processor time of the page's own thread, which other work disturbs less. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright';
import { builtPage, sizes, withDocument } from '../journeys/harness-browser.ts';
import type { Row } from './harness.ts';

const folder = mkdtempSync(join(tmpdir(), 'spanlife-bench-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

/** The built page at desktop size; with `text` in place of the sheet that it comes with. */
export async function openPage(browser: Browser, text?: string, blank = '[data-symbol="x"] input'): Promise<Page> {
  const page = await browser.newPage(sizes.desktop);
  let file = builtPage;
  if (text !== undefined) {
    file = join(folder, 'sheet.html');
    writeFileSync(file, withDocument(readFileSync(builtPage, 'utf8'), text));
  }
  await page.addInitScript(() => window.addEventListener('spanlife:settled', () => performance.mark('sheet stands'), { once: true }));
  await page.goto(pathToFileURL(file).href);
  await page.waitForFunction(() => performance.getEntriesByName('sheet stands').length > 0, undefined, { timeout: 60_000 });
  await page.locator(blank).first().waitFor();
  return page;
}

/** Milliseconds by the clock since the keys. */
interface Clocked {
  /** What can be seen, or nearly, shows the results. */
  readonly seen: number;
  /** All of the page does. */
  readonly settled: number;
  /** A frame shows them. */
  readonly painted: number;
}

/** Types one text into a blank and leaves it, and waits for the last result and the frame after it. Both moments are marked in the page's own time line. */
export function editOnce(page: Page, blank: string, text: string): Promise<Clocked> {
  return page.evaluate(
    async ({ selector, value }) => {
      const input = document.querySelector<HTMLInputElement>(selector);
      if (input === null) throw new Error(`no ${selector} on the page`);
      await new Promise((done) => setTimeout(done, 60));
      let seen = 0;
      const frame = new Promise<number>((done) => {
        window.addEventListener('spanlife:seen', () => {
          performance.mark('edit seen');
          seen = performance.now();
          requestAnimationFrame(() => setTimeout(() => done(performance.now())));
        }, { once: true });
      });
      const event = new Promise<void>((done, refuse) => {
        window.addEventListener('spanlife:settled', () => {
          performance.mark('edit ends');
          done();
        }, { once: true });
        setTimeout(() => refuse(new Error('no spanlife:settled within 30 s of an edit')), 30_000);
      });
      const begun = performance.now();
      performance.mark('edit begins');
      input.value = value;
      input.dispatchEvent(new Event('input', { bubbles: true }));
      input.dispatchEvent(new Event('change', { bubbles: true }));
      await event;
      const settled = performance.now() - begun;
      const painted = await frame;
      performance.clearMarks();
      return { seen: seen - begun, settled, painted: painted - begun };
    },
    { selector: blank, value: text },
  );
}

interface EditRuns {
  readonly what: string;
  readonly blank: string;
  readonly values: readonly string[];
  readonly warmUp?: number;
  readonly runs?: number;
  /** What the median of the work should stay under, ms. */
  readonly target?: number;
}

/** Work until what can be seen shows the last result and until all of the page does, and the time by the clock to the first and to the frame after it, of edits one after the other. */
export async function timeEdits(browser: Browser, page: Page, { what, blank, values, warmUp = 15, runs = 40, target }: EditRuns): Promise<readonly Row[]> {
  const edit = (run: number) => editOnce(page, blank, values[run % values.length] ?? '');
  for (let run = 0; run < warmUp; run++) await edit(run);
  await browser.startTracing(page, { categories: ['blink.user_timing'] });
  const times: Clocked[] = [];
  for (let run = 0; run < runs; run++) times.push(await edit(warmUp + run));
  const trace = await browser.stopTracing();
  return [
    { what: `${what}: work until all in view stands`, times: threadTimes(trace, 'edit seen'), ...(target === undefined ? {} : { target }) },
    { what: '  until the whole page does', times: threadTimes(trace, 'edit ends') },
    { what: '  by the clock, until all in view stands', times: times.map(({ seen }) => seen) },
    { what: '  by the clock, to the end of the next frame', times: times.map(({ painted }) => painted) },
  ];
}

/** Processor time of the page's thread from the keys of each edit to a mark, ms. */
function threadTimes(trace: Buffer, end: 'edit seen' | 'edit ends'): readonly number[] {
  const { traceEvents } = JSON.parse(trace.toString('utf8')) as { readonly traceEvents: readonly { readonly name: string; readonly ts: number; readonly tts?: number }[] };
  const times: number[] = [];
  let begun: number | undefined;
  for (const { name, tts } of [...traceEvents].sort((a, b) => a.ts - b.ts)) {
    if (name === 'edit begins') begun = tts;
    if (name === end && begun !== undefined && tts !== undefined) {
      times.push((tts - begun) / 1000);
      begun = undefined;
    }
  }
  return times;
}
