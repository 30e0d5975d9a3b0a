// npm run bench [-- WORD...]: runs tests/bench/*.bench.ts one after another (with words those whose name holds one, else all but the long studies) and ends
// with one table of all that they measured, kept with the machine and its load in .bench/. Never part of npm test.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, totalmem, type } from 'node:os';
import { join } from 'node:path';
import { markdownOf, rowLines } from './bench-table.mjs';
import { ensureBrowser } from './browser.mjs';
import { ensureBuilt, ensurePackages, giveUp, requireNode, runPackage, top } from './house.mjs';

/** Studies of how often something holds, which take minutes to hours and compare no times: by word only. */
const study = /^(?:coverage|diagnosis|faults)/;

requireNode();
ensurePackages();
const words = process.argv.slice(2);
const files = readdirSync(join(top, 'tests', 'bench'))
  .filter((name) => name.endsWith('.bench.ts') && (words.length === 0 ? !study.test(name) : words.some((word) => name.includes(word))))
  .sort();
if (files.length === 0) giveUp(`No benchmark in tests/bench has a name with ${words.join(' or ')}.`);

ensureBuilt();
const browser = await ensureBrowser(runPackage);
if (browser === undefined) giveUp('The benchmarks need a Chromium: install one, or set the variable CHROMIUM to its path.');

const folder = join(top, '.bench');
const collected = join(folder, 'rows.jsonl');
mkdirSync(folder, { recursive: true });
writeFileSync(collected, '');
const load = () => loadavg().map((value) => Number(value.toFixed(2)));
const [begun, loadBefore] = [new Date(), load()];
const env = { CHROMIUM: browser, SPANLIFE_BENCH_ROWS: collected };
const failed = files.filter((name) => !runPackage('tsx/dist/cli.mjs', [join('tests', 'bench', name)], { env }));

const lines = readFileSync(collected, 'utf8').trim().split('\n').filter((line) => line !== '').map((line) => JSON.parse(line));
rmSync(collected);
const [tables, left] = [lines.filter(({ rows }) => rows !== undefined), lines.flatMap(({ said }) => said ?? [])];
const machine = {
  system: type(), processor: cpus()[0]?.model ?? 'unknown', cores: cpus().length, memoryGB: Math.round(totalmem() / 1e9),
  node: process.versions.node, browser: spawnSync(browser, ['--version'], { encoding: 'utf8' }).stdout?.trim() ?? 'unknown',
  begun: begun.toISOString(), ended: new Date().toISOString(), load: { begin: loadBefore, end: load() },
};
const said = `${machine.cores} cores (${machine.processor}), ${machine.memoryGB} GB, Node ${machine.node}, ${machine.browser}; load ${machine.load.begin[0]} at the beginning, ${machine.load.end[0]} at the end`;
const told = [...left, ...failed.map((name) => `WITHOUT A RESULT: ${name}`)].map((line) => `!!! ${line}`);
if (tables.length > 0) {
  console.log(`\n${'='.repeat(80)}\nAll of this run, on ${said}`);
  for (const { title, rows } of tables) console.log(`\n${title}\n${rowLines(rows).join('\n')}`);
  for (const line of told) console.log(`\n${line}`);
  writeFileSync(join(folder, 'results.json'), `${JSON.stringify({ machine, tables, left, failed }, undefined, 1)}\n`);
  writeFileSync(join(folder, 'results.md'), [`On ${said}.`, ...tables.map(({ title, rows }) => `## ${title}\n\n${markdownOf(rows)}`), ...told].join('\n\n') + '\n');
  console.log('\nKept in .bench/results.json, and as tables in .bench/results.md.');
}
if (failed.length > 0) giveUp(`Without a result: ${failed.join(', ')}`);
