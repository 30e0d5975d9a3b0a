/**
 * Ten thousand edits in the built page, one after the other, as a long afternoon of work has them: what is left behind after the memory was collected,
 * and the time of an edit at the beginning and at the end. `SPANLIFE_EDITS=500` makes fewer.
 */
import type { CDPSession, Page } from 'playwright';
import { launch } from '../journeys/harness-browser.ts';
import { leftIn, manyEdits, type Left } from '../journeys/many-edits.ts';
import { middle, printTable, type Row } from './harness.ts';
import { openPage } from './page-edits.ts';

const EDITS = Number(process.env['SPANLIFE_EDITS'] ?? 10_000);
/** Before anything is compared: what is kept for use again is there, and the steps to undo, 500 at most, are full. */
const BEFORE = Math.min(1500, EDITS);
const PARTS = 10;

const browser = await launch();
try {
  const page: Page = await openPage(browser, undefined, '[data-symbol="d"] input');
  const client: CDPSession = await page.context().newCDPSession(page);
  await manyEdits(page, 'd', BEFORE);
  const before = await leftIn(client);
  const parts: { readonly times: readonly number[]; readonly left: Left }[] = [];
  for (let part = 0; part < PARTS; part++) {
    const times = await manyEdits(page, 'd', Math.round(EDITS / PARTS));
    parts.push({ times, left: await leftIn(client) });
    console.log(`${Math.round((EDITS / PARTS) * (part + 1))} edits: ${middle(times).toFixed(1)} ms in the median, ${JSON.stringify(parts.at(-1)?.left)}`);
  }
  const [first, last] = [parts[0], parts.at(-1)];
  if (first === undefined || last === undefined) throw new Error('no edits');
  const grown = (of: keyof Left): number => last.left[of] - before[of];
  const rows: Row[] = [
    { what: 'an edit, the last tenth beside the first', times: last.times, peer: { what: 'the first tenth', times: first.times }, ratioTarget: 1.1 },
    { what: 'memory more, after collecting', times: [grown('kilobytes')], unit: 'kB', target: 2000 },
    { what: 'nodes more', times: [grown('nodes')], unit: 'nodes', target: 50 },
    { what: 'listeners more', times: [grown('listeners')], unit: 'listeners', target: 20 },
  ];
  printTable(`${EDITS} edits in one page, after ${BEFORE}`, rows);
} finally {
  await browser.close();
}
