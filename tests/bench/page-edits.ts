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
  await page.goto(pathToFileURL(file).href);
  await page.locator(blank).first().waitFor({ timeout: 60_000 });
  return page;
}

/** Types one text into a blank and leaves it, and waits for the last result and the frame after it. Both moments are marked in the page's own time line. */
export function editOnce(page: Page, blank: string, text: string): Promise<{ readonly settled: number; readonly painted: number }> {
  return page.evaluate(
    async ({ selector, value }) => {
      const input = document.querySelector<HTMLInputElement>(selector);
      if (input === null) throw new Error(`no ${selector} on the page`);
      await new Promise((done) => setTimeout(done, 60));
      const event = new Promise<void>((done, refuse) => {
        window.addEventListener('spanlife:settled', () => {
          performance.mark('edit ends');
          done();
        }, { once: true });
        setTimeout(() => refuse(new Error('no spanlife:settled within 10 s of an edit')), 10_000);
      });
      const begun = performance.now();
      performance.mark('edit begins');
      input.value = value;
      input.dispatchEvent(new Event('input', { bubbles: true }));
      input.dispatchEvent(new Event('change', { bubbles: true }));
      await event;
      const settled = performance.now() - begun;
      await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
      performance.clearMarks();
      return { settled, painted: performance.now() - begun };
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

/** Work until the last result, and the time by the clock to that and to the frame after it, of edits one after the other. */
export async function timeEdits(browser: Browser, page: Page, { what, blank, values, warmUp = 15, runs = 40, target }: EditRuns): Promise<readonly Row[]> {
  const edit = (run: number) => editOnce(page, blank, values[run % values.length] ?? '');
  for (let run = 0; run < warmUp; run++) await edit(run);
  await browser.startTracing(page, { categories: ['blink.user_timing'] });
  const times: { settled: number; painted: number }[] = [];
  for (let run = 0; run < runs; run++) times.push(await edit(warmUp + run));
  const work = threadTimes(await browser.stopTracing());
  return [
    { what: `${what}: work to the last result`, times: work, ...(target === undefined ? {} : { target }) },
    { what: '  by the clock', times: times.map(({ settled }) => settled) },
    { what: '  by the clock, to the end of the next frame', times: times.map(({ painted }) => painted) },
  ];
}

/** Processor time of the page's thread between the marks of each edit, ms. */
function threadTimes(trace: Buffer): readonly number[] {
  const { traceEvents } = JSON.parse(trace.toString('utf8')) as { readonly traceEvents: readonly { readonly name: string; readonly ts: number; readonly tts?: number }[] };
  const times: number[] = [];
  let begun: number | undefined;
  for (const { name, tts } of [...traceEvents].sort((a, b) => a.ts - b.ts)) {
    if (name === 'edit begins') begun = tts;
    if (name === 'edit ends' && begun !== undefined && tts !== undefined) {
      times.push((tts - begun) / 1000);
      begun = undefined;
    }
  }
  return times;
}
