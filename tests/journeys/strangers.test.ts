/** What a page that came from a stranger gets of the sheets kept here, when it is opened by double click. */
import { writeFileSync, mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import { servePage } from '../../.scripts/serve.mjs';
import { withPage } from './harness.ts';
import { fill, untilKept } from './sheet-page.ts';

/** What a script can read in all the places where this page keeps anything: runs in the page. */
async function everythingKept(): Promise<string> {
  const databases = await indexedDB.databases();
  const texts = await Promise.all(databases.map(({ name = '' }) => new Promise<string>((resolve, reject) => {
    const opening = indexedDB.open(name);
    opening.addEventListener('error', () => reject(opening.error));
    opening.addEventListener('success', () => {
      const database = opening.result;
      const stores = [...database.objectStoreNames];
      if (stores.length === 0) resolve('');
      else {
        const transaction = database.transaction(stores);
        const all = stores.map((store) => transaction.objectStore(store).getAll());
        transaction.addEventListener('complete', () => resolve(JSON.stringify(all.map(({ result }) => result as unknown))));
      }
    });
  })));
  return texts.join('\n') + JSON.stringify({ ...localStorage });
}

test('a forged page opened from the disk reads what pages from the disk keep, and nothing of a served page', async () => {
  const server = await servePage({ address: '127.0.0.1', port: 0 });
  const folder = mkdtempSync(join(tmpdir(), 'spanlife-forged-'));
  try {
    const forged = join(folder, 'returned.html');
    writeFileSync(forged, '<!doctype html><title>Returned</title><p>A page of somebody else’s.');
    await withPage({ context: { offline: false } }, async ({ page, complaints }) => {
      await fill(page, 'F', '271.5');
      await untilKept(page);
      await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
      await fill(page, 'F', '293.5');
      await untilKept(page);
      expect(await page.evaluate(everythingKept), 'the served page sees its own').toContain('293.5');
      await page.goto(pathToFileURL(forged).href);
      const got = await page.evaluate(everythingKept);
      expect(got.includes('271.5'), 'sheets of pages from the disk are open to it').toBe(true);
      expect(got).not.toContain('293.5');
      // The page's own server is the one place it asked.
      expect(complaints.splice(0).filter((line) => !line.startsWith('request: http://127.0.0.1:'))).toEqual([]);
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
    server.close();
  }
});
