/** What `npm start` serves: the built page, and nothing else of the folder or the computer. */
import { readFileSync } from 'node:fs';
import { request, type IncomingHttpHeaders, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { gunzipSync } from 'node:zlib';
import { servePage } from '../../.scripts/serve.mjs';
import { builtPage } from './harness.ts';

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
  const page = readFileSync(builtPage);
  const plain = await ask('/');
  expect(plain.status).toBe(200);
  expect(plain.headers['content-type']).toBe('text/html; charset=utf-8');
  expect(plain.body.equals(page)).toBe(true);
  const packed = await ask('/index.html?x=1', { headers: { 'accept-encoding': 'gzip, br' } });
  expect(packed.headers['content-encoding']).toBe('gzip');
  expect(gunzipSync(packed.body).equals(page)).toBe(true);
  const head = await ask('/', { method: 'HEAD' });
  expect([head.status, head.headers['content-length'], head.body.length]).toEqual([200, String(page.length), 0]);
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
