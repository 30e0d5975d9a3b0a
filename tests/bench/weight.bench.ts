/** What the page weighs: by file as it is served and as one file, and by library and folder what is in its scripts, from the maps of a build of its own. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { brotliCompressSync, constants, deflateRawSync } from 'node:zlib';
import { build, type Rollup } from 'vite';
import config from '../../vite.config.ts';
import { builtPage } from '../journeys/harness-browser.ts';
import { printTable, type Row } from './harness.ts';
import { piecesOf } from './source-map.ts';

const served = join(dirname(builtPage), 'served');

/** What the map of a chunk names no source of, by the chunk's name: the worker, and otherwise KaTeX, which the build writes anew. */
const WITHOUT: Readonly<Record<string, string>> = { 'sampling-worker': 'the worker, with its copy of what it needs' };

/** A source's library, or its folder below src. */
function groupOf(source: string): string {
  const [, library] = /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(source) ?? [];
  if (library !== undefined) return library;
  const path = source.replace(/^(\.\.\/)+/, '').replace(/\?.*$/, '').split('/');
  return path.slice(0, -1).slice(0, path[1] === 'core' ? 3 : 2).join('/') || 'between the sources';
}

/** Text by group, of all parts of the page. */
async function textsByGroup(): Promise<ReadonlyMap<string, string>> {
  const plugins = (config.plugins as readonly { readonly name: string }[]).filter(({ name }) => !['finished-page', 'prerendered-sheet'].includes(name));
  const made = await build({ ...config, configFile: false, logLevel: 'silent', plugins: plugins as never, build: { ...config.build, sourcemap: 'hidden', write: false } });
  const texts = new Map<string, string>();
  for (const chunk of (made as Rollup.RollupOutput).output) {
    if (chunk.type !== 'chunk' || chunk.map === null) continue;
    for (const { source, text } of piecesOf(chunk.code, chunk.map)) {
      const group = source === undefined ? WITHOUT[chunk.name] ?? 'katex, and what joins a chunk together' : groupOf(source);
      texts.set(group, (texts.get(group) ?? '') + text);
    }
  }
  return texts;
}

const kilo = (bytes: number): number => bytes / 1000;
const brotli = (content: Uint8Array): number => brotliCompressSync(content, { params: { [constants.BROTLI_PARAM_LGWIN]: 24 } }).length;
const size = (what: string, bytes: number, target?: number): Row => ({ what, times: [kilo(bytes)], unit: 'kB', ...(target === undefined ? {} : { target }) });

const read = (path: string): Buffer => readFileSync(join(served, path));
const parts = readdirSync(join(served, 'parts')).map((file) => ({ name: file.replace(/-[0-9a-f]+\.js$/, ''), content: read(`parts/${file}`) }));
const [page, main] = [brotli(read('index.html')), brotli(parts.find(({ name }) => name === 'main')?.content ?? Buffer.alloc(0))];
printTable('Weight of the page', [
  size('as one file', readFileSync(builtPage).length, 1200),
  size('served, packed by brotli: the page itself', page),
  size('the page and the part that it comes to life with', page + main, 450),
  ...parts.map(({ name, content }) => size(`part ${name}, packed by brotli`, brotli(content))),
  ...readdirSync(join(served, 'fonts')).map((file) => size(`font ${file.slice(0, 4)}…`, read(`fonts/${file}`).length)),
]);
const groups = [...(await textsByGroup())].map(([group, text]) => ({ group, plain: Buffer.byteLength(text), packed: deflateRawSync(text, { level: 9 }).length }));
printTable('Scripts by library and folder, deflated by themselves', groups.toSorted((a, b) => b.packed - a.packed).map(({ group, plain, packed }) => size(`${group} (${kilo(plain).toFixed(0)} kB minified)`, packed)));
