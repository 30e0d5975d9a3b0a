// npm run bench [-- WORD...]: runs tests/bench/*.bench.ts (those whose name holds a WORD) one after another; never part of npm test.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBrowser } from './browser.mjs';
import { ensureBuilt, ensurePackages, giveUp, requireNode, runPackage, top } from './house.mjs';

requireNode();
ensurePackages();
const words = process.argv.slice(2);
const files = readdirSync(join(top, 'tests', 'bench'))
  .filter((name) => name.endsWith('.bench.ts') && (words.length === 0 || words.some((word) => name.includes(word))))
  .sort();
if (files.length === 0) giveUp(`No benchmark in tests/bench has a name with ${words.join(' or ')}.`);

ensureBuilt();
const browser = await ensureBrowser(runPackage);
if (browser === undefined) giveUp('The benchmarks need a Chromium: install one, or set the variable CHROMIUM to its path.');

const failed = files.filter((name) => !runPackage('tsx/dist/cli.mjs', [join('tests', 'bench', name)], { env: { CHROMIUM: browser } }));
if (failed.length > 0) giveUp(`Without a result: ${failed.join(', ')}`);
