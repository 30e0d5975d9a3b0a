/** What `npm start` serves: the built page, and nothing else of the folder or the computer. */
import { readdirSync, readFileSync } from 'node:fs';
import { request, type IncomingHttpHeaders, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import { servePage } from '../../.scripts/serve.mjs';
import { builtPage } from './harness.ts';

const served = join(dirname(builtPage), 'served');

let server: Server;
let port: number;
beforeAll(async () => {
  server = await servePage({ address: '127.0.0.1', port: 0 });
  port = (server.address() as AddressInfo).port;
});
afterAll(() => server.close());

interface Answer {
  readonly status: number | undefined;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

/** A plain request: unlike `fetch`, it sends the path as it is. */
function ask(path: string, { method = 'GET', headers = {} }: { method?: string; headers?: Record<string, string> } = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request({ host: '127.0.0.1', port, path, method, headers, agent: false }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, body: Buffer.concat(parts) }));
    });
    asked.on('error', reject);
    asked.end();
  });
}

test('serves the built page, packed where the browser can unpack it', async () => {
  const page = readFileSync(join(served, 'index.html'));
  const plain = await ask('/');
  expect(plain.status).toBe(200);
  expect(plain.headers['content-type']).toBe('text/html; charset=utf-8');
  expect(plain.body.equals(page)).toBe(true);
  const packed = await ask('/index.html?x=1', { headers: { 'accept-encoding': 'gzip' } });
  expect(packed.headers['content-encoding']).toBe('gzip');
  expect(gunzipSync(packed.body).equals(page)).toBe(true);
  // By brotli as soon as that is done.
  await expect.poll(async () => (await ask('/', { headers: { 'accept-encoding': 'gzip, deflate, br' } })).headers['content-encoding'], { timeout: 60_000 }).toBe('br');
  expect(brotliDecompressSync((await ask('/', { headers: { 'accept-encoding': 'br' } })).body).equals(page)).toBe(true);
  const head = await ask('/', { method: 'HEAD' });
  expect([head.status, head.headers['content-length'], head.body.length]).toEqual([200, String(page.length), 0]);
});

test('parts and fonts may be kept for good, since their names change with them; the page is asked for anew, and is there as one file too', async () => {
  const part = readdirSync(join(served, 'parts'))[0] ?? '';
  const font = readdirSync(join(served, 'fonts'))[0] ?? '';
  const kinds = await Promise.all([`/parts/${part}`, `/fonts/${font}`, '/', '/spanlife.html'].map((path) => ask(path)));
  expect(kinds.map(({ status, headers }) => [status, headers['content-type'], headers['cache-control']?.includes('immutable')])).toEqual([
    [200, 'text/javascript; charset=utf-8', true], [200, 'font/woff2', true], [200, 'text/html; charset=utf-8', false], [200, 'text/html; charset=utf-8', false],
  ]);
  expect(kinds[3]?.body.equals(readFileSync(builtPage))).toBe(true);
});

test.each(['/../package.json', '/..%2fpackage.json', '/%2e%2e/package.json', '/..\\package.json', '/..%5cpackage.json', '//etc/hosts', '/%00', '/%', '/nothing', '/index.html/x', '/.git/config'])(
  'has nothing at %s',
  async (path) => {
    expect((await ask(path)).status).toBe(404);
  },
);

test('only lets itself be read', async () => {
  expect((await ask('/', { method: 'POST' })).status).toBe(405);
  expect((await ask('/', { method: 'PUT' })).status).toBe(405);
});

test('takes the next free port', async () => {
  const second = await servePage({ address: '127.0.0.1', port });
  expect((second.address() as AddressInfo).port).toBeGreaterThan(port);
  second.close();
});
