/** The built page: its size, and the time from opening it by double click to a sheet that can be written on. */
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import { builtPage, launch, sizes } from '../journeys/harness-browser.ts';
import { measure, printTable } from './harness.ts';

const bytes = readFileSync(builtPage);
const kilobytes = (size: number): string => `${(size / 1000).toFixed(0)} kB`;
console.log(`\nSize of the built page\n${kilobytes(bytes.length)} of 2000 kB, ${kilobytes(gzipSync(bytes).length)} packed by gzip`);

const browser = await launch();
try {
  /** Milliseconds from navigation to the first blank, in a browser window without history. */
  const open = async (size: keyof typeof sizes, slowdown: number): Promise<number> => {
    const page = await browser.newPage(sizes[size]);
    try {
      const session = await page.context().newCDPSession(page);
      await session.send('Emulation.setCPUThrottlingRate', { rate: slowdown });
      await page.addInitScript(() => {
        new MutationObserver((_records, observer) => {
          if (document.querySelector('[data-symbol="d"] input') === null) return;
          observer.disconnect();
          document.documentElement.dataset['benchReady'] = String(performance.now());
        }).observe(document, { childList: true, subtree: true });
      });
      await page.goto(pathToFileURL(builtPage).href);
      const ready = await page.waitForFunction(() => document.documentElement.dataset['benchReady']);
      return Number(await ready.jsonValue());
    } finally {
      await page.close();
    }
  };
  printTable('From opening the page to the first blank', [
    await measure('desktop', () => open('desktop', 1), { warmUp: 2, runs: 10 }),
    await measure('phone size, processor four times slower', () => open('phone', 4), { warmUp: 1, runs: 5 }),
  ]);
} finally {
  await browser.close();
}
