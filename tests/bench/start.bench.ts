/** The built page: its size, and what it costs to open it by double click, beside an empty page in the same run. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { builtPage, launch, top } from '../journeys/harness-browser.ts';
import { printTable, tellWithout, type Row } from './harness.ts';
import { byKind, byPart, emptyPage, folder, open, type How, type Opening } from './openings.ts';

const bytes = readFileSync(builtPage);
const kilobytes = (size: number): string => `${(size / 1000).toFixed(0)} kB`;
console.log(`\nSize of the built page\n${kilobytes(bytes.length)}, ${kilobytes(gzipSync(bytes).length)} packed by gzip`);

const browser = await launch();

/** Openings of an empty page and of ours in turns, so that what else the machine does falls on both. */
async function compare(title: string, how: How, runs: number, usableWithin: number): Promise<void> {
  const [empty, ours]: [Opening[], Opening[]] = [[], []];
  for (let run = 0; run <= runs; run++) {
    const [one, other] = [await open(browser, emptyPage, how), await open(browser, builtPage, how)];
    if (run === 0) continue;
    empty.push(one);
    ours.push(other);
  }
  const after = (of: (opening: Opening) => number): readonly number[] => ours.map(of);
  printTable(title, [
    { what: 'first content of an empty page', times: empty.map(({ content }) => content) },
    { what: 'first content', times: after(({ content }) => content) },
    { what: '  over that of the empty page before it', times: ours.map(({ content }, i) => content - (empty[i]?.content ?? Number.NaN)), target: 100 },
    { what: 'from first content to the first blank usable', times: after(({ content, usable = Number.NaN }) => usable - content), target: usableWithin },
    { what: 'from the beginning to the last change', times: after(({ settled = Number.NaN }) => settled) },
    { what: 'processor time of the process, of an empty page', times: empty.map(({ process }) => process) },
    { what: 'processor time of the process', times: after(({ process }) => process) },
  ]);
}

/** Sums over several openings as rows, the largest first. */
async function shares(once: () => Promise<ReadonlyMap<string, number>>, runs: number): Promise<readonly Row[]> {
  const sums: ReadonlyMap<string, number>[] = [];
  for (let run = 0; run <= runs; run++) {
    const one = await once();
    if (run > 0) sums.push(one);
  }
  const names = [...new Set(sums.flatMap((one) => [...one.keys()]))];
  const rows = names.map((what): Row => ({ what, times: sums.map((one) => one.get(what) ?? 0) }));
  const total = (row: Row): number => row.times.reduce((sum, time) => sum + time, 0);
  return [...rows.toSorted((a, b) => total(b) - total(a)), { what: 'all', times: sums.map((one) => [...one.values()].reduce((sum, time) => sum + time, 0)) }];
}

/** The page with the names of its functions; undefined where it could not be built. */
function namedPage(): string | undefined {
  const { status } = spawnSync(process.execPath, [join(top, 'node_modules/vite/bin/vite.js'), 'build', '--minify', 'false', '--outDir', folder, '--emptyOutDir', 'false'], { cwd: top });
  return status === 0 ? join(folder, 'index.html') : undefined;
}

try {
  const desktop: How = { size: 'desktop', slowdown: 1 };
  await compare('Opening the page, desktop', desktop, 10, 350);
  await compare('Opening the page, phone size, processor four times slower', { size: 'phone', slowdown: 4 }, 5, 1500);
  printTable('Processor time of an opening by kind, all threads of the page (traced, desktop)', await shares(() => byKind(browser, builtPage, desktop), 5));
  const named = namedPage();
  if (named === undefined) tellWithout('the functions of the page', 'a build that keeps their names could not be made');
  else printTable('Time of the page’s own thread by part of ours (profiled, desktop; a build with names, not minified)', await shares(() => byPart(browser, named, desktop), 5));
} finally {
  await browser.close();
}
