// npm run journeys [-- FILE... -t "part of a title"]: builds the page if need be and makes the journeys through it.
import { ensureBrowser } from './browser.mjs';
import { enginesRequired, missingEngines } from './engines.mjs';
import { ensureBuilt, ensurePackages, giveUp, requireNode, runPackage, runTests } from './house.mjs';

requireNode();
ensurePackages();
ensureBuilt();
const browser = await ensureBrowser(runPackage);
if (browser === undefined) giveUp('The journeys need a Chromium: install one, or set the variable CHROMIUM to its path.');
const missing = missingEngines();
if (missing.length > 0) {
  const told = `Not there: ${missing.join(', ')}. The smoke journeys are not made in it; node .scripts/engines.mjs as root installs it.`;
  if (enginesRequired()) giveUp(told);
  console.log(told);
}
process.exitCode = runTests(['journeys'], process.argv.slice(2), { env: { CHROMIUM: browser } }) ? 0 : 1;
