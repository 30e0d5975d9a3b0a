// npm run journeys [-- --browser firefox|webkit] [FILE... -t "part of a title"]: builds the page if need be and makes the journeys through it, in Chromium unless said.
import { ensureBrowser } from './browser.mjs';
import { enginesRequired, missingEngines } from './engines.mjs';
import { ensureBuilt, ensurePackages, giveUp, requireNode, runPackage, runTests } from './house.mjs';

requireNode();
ensurePackages();
ensureBuilt();
const { engine, rest } = asked(process.argv.slice(2));
const browser = await ensureBrowser(runPackage);
if (browser === undefined) giveUp('The journeys need a Chromium: install one, or set the variable CHROMIUM to its path.');
const missing = missingEngines();
if (missing.length > 0) {
  const told = `Not there: ${missing.join(', ')}. The smoke journeys are not made in it; node .scripts/engines.mjs as root installs it.`;
  if (enginesRequired() || missing.includes(engine)) giveUp(told);
  console.log(told);
}
process.exitCode = runTests(['journeys'], rest, { env: { CHROMIUM: browser, SPANLIFE_BROWSER: engine } }) ? 0 : 1;

/** The browser that is asked for, and the other arguments. */
function asked(words) {
  const at = words.indexOf('--browser');
  const engine = at < 0 ? 'chromium' : words[at + 1];
  if (!['chromium', 'firefox', 'webkit'].includes(engine)) giveUp(`--browser ${engine ?? ''}: journeys are made in chromium, firefox or webkit.`);
  return { engine, rest: at < 0 ? words : [...words.slice(0, at), ...words.slice(at + 2)] };
}
