// npm run journeys [-- FILE... -t "part of a title"]: builds the page if need be and makes the journeys through it.
import { ensureBrowser } from './browser.mjs';
import { ensureBuilt, ensurePackages, giveUp, requireNode, runPackage, runTests } from './house.mjs';

requireNode();
ensurePackages();
ensureBuilt();
const browser = await ensureBrowser(runPackage);
if (browser === undefined) giveUp('The journeys need a Chromium: install one, or set the variable CHROMIUM to its path.');
process.exitCode = runTests(['journeys'], process.argv.slice(2), { env: { CHROMIUM: browser } }) ? 0 : 1;
