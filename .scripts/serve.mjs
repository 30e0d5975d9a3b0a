// A small server for the files of dist/ and nothing else.
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { dirname, extname, join, normalize, sep } from 'node:path';
import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import { builtPage } from './house.mjs';

const served = dirname(builtPage);
const types = { '.html': 'text/html; charset=utf-8', '.md': 'text/markdown; charset=utf-8' };
const portsToTry = 20;

/** File of dist/ that a request names, or undefined where it names something outside or not a path at all. */
function fileOf(url) {
  let path;
  try {
    path = decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return undefined;
  }
  if (path.includes('\0')) return undefined;
  const file = normalize(join(served, path.endsWith('/') ? `${path}index.html` : path));
  return file.startsWith(served + sep) ? file : undefined;
}

async function answer(request, response) {
  if (request.method !== 'GET' && request.method !== 'HEAD') return send(response, 405, 'Only reading is possible here.\n', { Allow: 'GET, HEAD' });
  const file = fileOf(request.url ?? '/');
  let content;
  try {
    content = file === undefined ? undefined : await readFile(file);
  } catch (error) {
    if (!['ENOENT', 'EISDIR', 'ENOTDIR', 'ENAMETOOLONG'].includes(error.code)) throw error;
  }
  if (content === undefined) return send(response, 404, 'There is no such page.\n');
  const headers = { 'Content-Type': types[extname(file)] ?? 'application/octet-stream', 'Cache-Control': 'no-cache', Vary: 'Accept-Encoding' };
  if (!/\bgzip\b/.test(String(request.headers['accept-encoding']))) return send(response, 200, content, headers, request);
  return send(response, 200, await promisify(gzip)(content), { ...headers, 'Content-Encoding': 'gzip' }, request);
}

function send(response, status, content, headers, request) {
  response.writeHead(status, {
    'Content-Type': 'text/plain; charset=utf-8',
    'X-Content-Type-Options': 'nosniff',
    'Content-Length': Buffer.byteLength(content),
    ...headers,
  });
  response.end(request?.method === 'HEAD' ? undefined : content);
}

/** Listens on `port`, or on the next free one; gives the server. Port 0 takes any. */
export async function servePage({ address, port }) {
  const server = createServer((request, response) => {
    answer(request, response).catch((error) => {
      console.error(error);
      response.destroy();
    });
  });
  for (let candidate = port; ; candidate += 1) {
    try {
      await listen(server, candidate, address);
      return server;
    } catch (error) {
      if (error.code !== 'EADDRINUSE' || candidate >= Math.min(port + portsToTry, 65535)) throw error;
    }
  }
}

function listen(server, port, address) {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, address, () => {
      server.off('error', reject);
      resolve();
    });
  });
}
