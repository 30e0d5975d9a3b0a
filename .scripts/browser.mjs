// Where a Chromium is, and how to get one. Used by the test and bench drivers and by the journeys themselves.
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { aptGetInTurn } from './apt.mjs';

// First the one without a window of its own: the same engine, which opens a page in half the time.
const names = ['chromium-headless-shell', 'chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];

const applications = {
  darwin: ['/Applications/Chromium.app/Contents/MacOS/Chromium', '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'],
  win32: ['ProgramFiles', 'ProgramFiles(x86)', 'LOCALAPPDATA'].flatMap((variable) =>
    ['Chromium\\Application\\chrome.exe', 'Google\\Chrome\\Application\\chrome.exe', 'Microsoft\\Edge\\Application\\msedge.exe'].map(
      (file) => join(process.env[variable] ?? '', file),
    ),
  ),
};

export function onPath(commands) {
  const folders = (process.env.PATH ?? '').split(delimiter);
  return folders.flatMap((folder) => commands.map((name) => join(folder, name))).find((file) => existsSync(file));
}

/** Path of the browser to test in, or undefined. The variable CHROMIUM decides where it is set. */
export async function findBrowser() {
  const stated = process.env.CHROMIUM;
  if (stated !== undefined && stated !== '') return existsSync(stated) ? stated : undefined;
  const known = onPath(names) ?? (applications[process.platform] ?? []).find((file) => existsSync(file));
  return known ?? (await playwrightBrowser());
}

async function playwrightBrowser() {
  const { chromium } = await import('playwright');
  const file = chromium.executablePath();
  return existsSync(file) ? file : undefined;
}

export const isRoot = () => process.getuid?.() === 0;

/** Without the background flags a Chromium looks for its maker's hosts at every start; as root it has no sandbox. */
export function browserFlags() {
  return [
    ...(isRoot() ? ['--no-sandbox'] : []),
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ];
}

/** Finds a browser, else installs one: by apt-get as root, else by Playwright's download. Gives its path or undefined. */
export async function ensureBrowser(runPackage) {
  const found = await findBrowser();
  if (found !== undefined || process.env.CHROMIUM) return found;
  if (process.platform === 'linux' && isRoot() && onPath(['apt-get']) !== undefined) {
    console.log('Installing Chromium (apt-get) …');
    const install = (name) => aptGetInTurn(['install', '-y', '--no-install-recommends', name]);
    if ((await aptGetInTurn(['update'])) && !(await install('chromium-headless-shell'))) await install('chromium');
    const installed = await findBrowser();
    if (installed !== undefined) return installed;
  }
  console.log("Installing Chromium (Playwright's download) …");
  runPackage('playwright/cli.js', ['install', 'chromium']);
  return findBrowser();
}
