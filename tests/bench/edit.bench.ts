/**
 * An edit of a given, in the built page, to the last updated result in the document. The page says when by the event
 * `spanlife:settled` on its window.
 */
import { pathToFileURL } from 'node:url';
import { builtPage, launch, sizes } from '../journeys/harness-browser.ts';
import { measure, printTable } from './harness.ts';

/** The first blank of the given `d`, the minimum diameter: stress and life and everything after them depend on it. */
const blank = '[data-symbol="d"] input';
const values = ['6.31 mm', '6.32 mm'];

const browser = await launch();
try {
  const page = await browser.newPage(sizes.desktop);
  await page.goto(pathToFileURL(builtPage).href);
  await page.locator(blank).first().waitFor({ timeout: 10_000 });

  /** Milliseconds from the edit to the event, then to the end of the next frame. */
  const edit = (value: string): Promise<{ settled: number; painted: number }> =>
    page.evaluate(
      async ({ selector, text }) => {
        const input = document.querySelector<HTMLInputElement>(selector);
        if (input === null) throw new Error(`no ${selector} on the page`);
        await new Promise((done) => setTimeout(done, 20));
        const event = new Promise<void>((done, refuse) => {
          window.addEventListener('spanlife:settled', () => done(), { once: true });
          setTimeout(() => refuse(new Error('no spanlife:settled within 5 s of an edit')), 5000);
        });
        const begun = performance.now();
        input.value = text;
        input.dispatchEvent(new Event('input', { bubbles: true }));
        input.dispatchEvent(new Event('change', { bubbles: true }));
        await event;
        const settled = performance.now() - begun;
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
        return { settled, painted: performance.now() - begun };
      },
      { selector: blank, text: value },
    );

  const painted: number[] = [];
  const settled = await measure(
    'edit of d to the last updated result',
    async (run) => {
      const times = await edit(values[run % values.length] ?? '');
      painted.push(times.painted);
      return times.settled;
    },
    { warmUp: 10, runs: 60, target: 16 },
  );
  printTable('Edit of a given (built page, desktop size)', [settled, { what: 'the same, to the end of the next frame', times: painted.slice(-settled.times.length) }]);
} finally {
  await browser.close();
}
