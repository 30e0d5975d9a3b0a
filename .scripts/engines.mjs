// The two other engines that the smoke journeys are made in: where they are, and how to get them. As a command it installs what is missing.
import { existsSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { aptGetInTurn } from './apt.mjs';
import { isRoot, onPath } from './browser.mjs';

/** Packages of an engine, by its name, with what reads what it prints; WebKit's driver prints nothing, so that gjs prints over WebKit's own interface. */
const packages = {
  firefox: ['firefox-esr', 'poppler-utils'],
  webkit: ['webkit2gtk-driver', 'xvfb', 'gjs', 'gir1.2-webkit2-4.1', 'poppler-utils'],
};

/** The window that the driver of WebKitGTK opens, which comes along with it and stands on no path. */
function miniBrowser(driver) {
  const libraries = join(dirname(driver), '..', 'lib');
  if (!existsSync(libraries)) return undefined;
  const folders = readdirSync(libraries).filter((name) => name.endsWith('-linux-gnu')).map((name) => join(libraries, name));
  return folders
    .flatMap((path) => readdirSync(path).filter((name) => /^webkit2?gtk-[\d.]+$/.test(name)).map((name) => join(path, name, 'MiniBrowser')))
    .find((path) => existsSync(path));
}

/** What each engine is started with, for those that are there. The variable FIREFOX decides for the one where it is set. */
export function findEngines() {
  const stated = process.env.FIREFOX;
  const firefox = stated ? (existsSync(stated) ? stated : undefined) : onPath(['firefox-esr', 'firefox']);
  const [driver, screen, printer, reader] = ['WebKitWebDriver', 'Xvfb', 'gjs', 'pdftotext'].map((name) => onPath([name]));
  const browser = driver === undefined ? undefined : miniBrowser(driver);
  const webkit = { driver, screen, browser, printer };
  return {
    ...(firefox === undefined || reader === undefined ? {} : { firefox: { browser: firefox } }),
    ...(Object.values(webkit).includes(undefined) || reader === undefined ? {} : { webkit }),
  };
}

/** Names of the engines that are not there. */
export function missingEngines() {
  const found = findEngines();
  return Object.keys(packages).filter((name) => found[name] === undefined);
}

/** Whether an engine that cannot be had is a failure: in the check on a fresh clone, and for whoever asks. */
export const enginesRequired = () => process.env.SPANLIFE_ENGINES === 'required';

/** Installs the engines that are not there, by apt-get as root, and tells which are still missing. */
async function ensureEngines() {
  const missing = missingEngines();
  if (missing.length > 0 && process.platform === 'linux' && isRoot() && onPath(['apt-get']) !== undefined) {
    const install = (name) => aptGetInTurn(['install', '-y', '-qq', '--no-install-recommends', ...packages[name]]);
    if (await aptGetInTurn(['update', '-qq'])) for (const name of missing) await install(name);
  }
  return missingEngines();
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const missing = await ensureEngines();
  console.log(missing.length === 0 ? 'Firefox and WebKit are there.' : `Not there: ${missing.join(', ')}.`);
}
