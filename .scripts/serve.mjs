// A small server for the files of dist/served and nothing else.
import { readdir, readFile, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { basename, dirname, extname, join, normalize, sep } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';
import { builtPage } from './house.mjs';

const served = join(dirname(builtPage), 'served');
const types = { '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8', '.woff2': 'font/woff2' };
/** Folders whose files have names that change with what is in them. */
const lasting = ['parts', 'fonts'];
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
  const kept = file === undefined ? undefined : await keptOf(file);
  if (kept === undefined) return send(response, 404, 'There is no such page.\n');
  const headers = {
    'Content-Type': types[extname(file)] ?? 'application/octet-stream',
    'Cache-Control': lasting.includes(basename(dirname(file))) ? 'public, max-age=31536000, immutable' : 'no-cache',
    Vary: 'Accept-Encoding',
  };
  const accepted = String(request.headers['accept-encoding']);
  if (extname(file) === '.woff2') return send(response, 200, kept.content, headers, request);
  if (/\bbr\b/.test(accepted) && kept.brotli !== undefined) return send(response, 200, kept.brotli, { ...headers, 'Content-Encoding': 'br' }, request);
  if (/\bgzip\b/.test(accepted)) return send(response, 200, await kept.gzip, { ...headers, 'Content-Encoding': 'gzip' }, request);
  return send(response, 200, kept.content, headers, request);
}

/** Files that were asked for, packed once: by gzip at the first asking, and by brotli, which takes seconds, for those that come after. */
const files = new Map();

async function keptOf(file) {
  try {
    const { mtimeMs } = await stat(file);
    const before = files.get(file);
    if (before?.mtimeMs === mtimeMs) return before;
    const content = await readFile(file);
    const kept = { mtimeMs, content, gzip: promisify(gzip)(content), brotli: undefined };
    files.set(file, kept);
    if (extname(file) !== '.woff2') promisify(brotliCompress)(content, { params: { [constants.BROTLI_PARAM_LGWIN]: 24 } }).then((packed) => (kept.brotli = packed), console.error);
    return kept;
  } catch (error) {
    if (!['ENOENT', 'EISDIR', 'ENOTDIR', 'ENAMETOOLONG'].includes(error.code)) throw error;
    return undefined;
  }
}

/** Packs beforehand what every visitor asks for. */
export async function prepare() {
  const parts = await readdir(join(served, 'parts')).catch(() => []);
  await Promise.all([join(served, 'index.html'), ...parts.map((name) => join(served, 'parts', name))].map(keptOf));
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
