/** The page as `npm start` serves it, in several files: it fetches what it needs and no more, and what is taken away from it is the whole page in one file. */
import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { servePage } from '../../.scripts/serve.mjs';
import { asItOpens, builtPage, download, goToFile } from './harness.ts';
import { renamed } from './saved-file.ts';
import { chooseTakeaway, fill, head, notice, result, textOf, typed } from './sheet-page.ts';

let server: Server;
let address: string;
beforeAll(async () => {
  server = await servePage({ address: '127.0.0.1', port: 0 });
  address = `http://localhost:${(server.address() as AddressInfo).port}/`;
});
afterAll(() => server.close());

/** Names of what was fetched beside the page itself. */
function fetchedOf(urls: readonly string[]): readonly string[] {
  return urls.map((url) => url.slice(address.length).replace(/-?[0-9a-f]{10}\.(js|woff2)$/, '')).filter((name) => name !== '' && !name.startsWith('fonts/')).toSorted();
}

test('it comes to life with one part, fetches charts for the sheet’s charts and nothing else; its policy is as strict', async () => {
  await asItOpens({ address }, async ({ page }) => {
    const urls = await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name));
    expect(fetchedOf(urls).filter((name) => !/^parts\/(?:main|katex|charts)$/.test(name))).toEqual([]);
    await fill(page, 'F', '301 N');
    await expect.poll(() => result(page, 'sigma_a')).toMatch(/MPa/);
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
    expect(policy).toMatch(/^default-src 'none'; script-src 'self' 'sha256-[^']+'; worker-src blob:; /);
    expect(policy).toContain("connect-src 'self';");
    expect(policy).not.toMatch(/unsafe-eval|wasm|https?:/);
    const integrities = await page.locator('link[data-part]').evaluateAll((links) => links.map((link) => (link as HTMLLinkElement).integrity));
    expect(integrities.filter((text) => !/^sha256-[A-Za-z0-9+/]{43}=$/.test(text))).toEqual([]);
  });
});

test('a working file taken away from it is the whole page: it opens by itself, with all parts, fonts and the entries', async () => {
  await asItOpens({ address }, async ({ page }) => {
    await fill(page, 'F', '301 N');
    const working = await download(page, () => chooseTakeaway(page, 'Working file'));
    const scripts = (html: string): readonly string[] => html.match(/<script type="text\/plain" data-part="[\w-]+">[^<]*<\/script>/g) ?? [];
    expect(scripts(working.text)).toEqual(scripts(readFileSync(builtPage, 'utf8')));
    expect(working.text).not.toMatch(/<link[^>]*data-(part|whole)/);
    const report = await download(page, () => chooseTakeaway(page, 'Report'));
    expect(report.text.match(/url\((?!["']?(data:|#))/g)).toBeNull();
    await goToFile(page, renamed(working));
    expect(await typed(page, 'F')).toEqual(['301 N']);
    await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
    await page.getByRole('button', { name: 'Alternating plane bending, blank' }).click();
    await expect.poll(() => page.title()).toContain('lternating');
  });
});

test('where the server is gone, what it would have given is told, and the document can be taken away', async () => {
  const gone = await servePage({ address: '127.0.0.1', port: 0 });
  const at = `http://localhost:${(gone.address() as AddressInfo).port}/`;
  await asItOpens({ address: at }, async ({ page, complaints }) => {
    await fill(page, 'F', '301 N');
    gone.close();
    gone.closeAllConnections();
    await chooseTakeaway(page, 'Report');
    await expect.poll(() => textOf(notice(page))).toMatch(/did not come from its server as it should\. The rest of the page goes on\. Try again when its server can be reached; the document can be taken away without it\./);
    expect((await download(page, () => chooseTakeaway(page, 'Document'))).text).toContain('value: 301 N');
    complaints.length = 0;
  });
});

test('a part that is not what the page says it is does not start, and that is told', async () => {
  const page0 = await (await fetch(address)).text();
  const other = createServer((request, response) => {
    const isPage = request.url === '/';
    response.writeHead(200, { 'Content-Type': isPage ? 'text/html; charset=utf-8' : 'text/javascript' }).end(isPage ? page0 : 'document.title = "started";');
  });
  await new Promise<void>((resolve) => void other.listen(0, '127.0.0.1', resolve));
  const at = `http://localhost:${(other.address() as AddressInfo).port}/`;
  await asItOpens({ address: at }, async ({ page, complaints }) => {
    await page.getByRole('alert').filter({ hasText: 'a part of this page (“main”) did not come from its server as it should. Load the page again.' }).waitFor();
    expect(await page.title()).not.toBe('started');
    expect(complaints.length).toBeGreaterThan(0);
    complaints.length = 0;
  });
  other.close();
});
