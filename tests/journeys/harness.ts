/**
 * What every journey needs: the built page, opened as a reader opens it (a file, no network), in a fresh context.
 * A journey fails on anything the console says above a log line, on an uncaught error, on a violation of the page's
 * policy and on any request that leaves the file.
 */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import type { BrowserContextOptions, Locator, Page } from 'playwright';
import { inject } from 'vitest';
import { shipped, shortSheet } from '../shipped.ts';
import { failWith } from './access.ts';
import { builtPage, sizes, top, withDocument } from './harness-browser.ts';
import { asCan, doAsCan, inFirefox, isRemark, reachBrowser, withoutScripts } from './harness-firefox.ts';
import { lookInDocumentAlone } from './locators.ts';

export { checkAccess, checkContrast } from './access.ts';
export { builtPage, sizes };

export interface Opening {
  readonly size?: keyof typeof sizes;
  /** The file to open; the built page unless said. */
  readonly file?: string;
  /** Where the page is served instead, on this computer. */
  readonly address?: string;
  /** A worksheet's file name: the page begins with it at once, and not after the start sheet. */
  readonly sheet?: string;
  /** That worksheet without the entry that says what a lecture leaves out: all of it is told. */
  readonly isToldWhole?: true;
  readonly colorScheme?: 'light' | 'dark';
  /** Opened with scripts switched off. */
  readonly withoutScripts?: boolean;
  readonly context?: BrowserContextOptions;
  /** Parts on demand are closed, as for a reader who opens the sheet; in other journeys they stand open. */
  readonly partsAsTheyOpen?: boolean;
  /** Runs in the page before its own script. */
  readonly before?: () => void;
  /** What the page's clock shows when it opens; from then on the journey moves it. */
  readonly clock?: string;
}

export interface Downloaded {
  readonly name: string;
  readonly path: string;
  readonly text: string;
}

export interface OpenPage {
  readonly page: Page;
  /** What the page complained of so far. `withPage` fails on the first; a journey that provokes one empties it. */
  readonly complaints: string[];
}

/**
 * A short sheet with an example of its own (`tests/fixtures/short.md`), from the spans to the life under the names that the sheet the page comes
 * with gives them, in a fifth of its lines. For a journey that looks at what any line of a kind does: it takes a fraction of the time.
 */
export const SHORT = 'short.md';

/** Downloads of this worker. */
const saved = mkdtempSync(join(tmpdir(), 'spanlife-saved-'));
process.on('exit', () => rmSync(saved, { recursive: true, force: true }));
let downloads = 0;

/** Opens the page in a context of its own, hands it to the journey, and fails if the page complained of anything. */
export async function withPage(opening: Opening, journey: (opened: OpenPage) => Promise<void>): Promise<void> {
  const file = opening.sheet === undefined ? opening.file ?? builtPage : pageOf(opening.sheet, opening.isToldWhole);
  if (!existsSync(file)) throw new Error(`${file} does not exist: run npm run build`);
  const asked: BrowserContextOptions = {
    ...sizes[opening.size ?? 'desktop'],
    colorScheme: opening.colorScheme ?? 'light',
    javaScriptEnabled: opening.withoutScripts !== true,
    reducedMotion: 'reduce',
    offline: opening.address === undefined,
    ...opening.context,
  };
  const browser = await reachBrowser(inject('browserEndpoint'), asked, saved);
  const context = await browser.newContext(asCan(asked));
  const complaints: string[] = [];
  context.on('page', (page) => watch(page, complaints, opening.address));
  try {
    const page = await context.newPage();
    lookInDocumentAlone(page);
    doAsCan(page, asked);
    if (opening.partsAsTheyOpen !== true && opening.withoutScripts !== true) await openParts(page);
    if (opening.before !== undefined) await context.addInitScript(opening.before);
    if (opening.clock !== undefined) await page.clock.install({ time: new Date(opening.clock) });
    await page.goto(opening.address ?? pathToFileURL(inFirefox && opening.withoutScripts === true ? still(file) : file).href);
    await journey({ page, complaints });
    failWith('The page complained', complaints);
  } finally {
    await context.close();
  }
}

/**
 * The same with the parts as they open for a reader, which takes a journey two thirds of the time: what stands in a part on demand is not drawn.
 * For a journey that looks at nothing there, nor at all of the page (for leaks, every blank, every press of Tab).
 */
export async function asItOpens(opening: Opening, journey: (opened: OpenPage) => Promise<void>): Promise<void> {
  return withPage({ partsAsTheyOpen: true, ...opening }, journey);
}

/**
 * What the page itself remembers where a reader opens every part of a sheet, for any sheet. Another file of the disk writes it, since all share their
 * storage: a script that asks for the storage at the very start of a page that is loaded again at times gets an empty one, and so does the page then.
 */
async function openParts(page: Page): Promise<void> {
  await page.goto(pathToFileURL(join(top, 'LICENSE')).href);
  await page.evaluate(() => localStorage.setItem('spanlife-folds', JSON.stringify({ '': { open: ['*'], folded: [] } })));
}

/** The same file with scripts that do not start. */
function still(file: string): string {
  const copy = join(saved, `still-${basename(file)}`);
  writeFileSync(copy, withoutScripts(readFileSync(file, 'utf8')));
  return copy;
}

/** The built page with a worksheet and its example in place of the sheet that it is delivered with: another text in its template, and nothing to read before it lives. */
export function pageOf(worksheet: string, isToldWhole = false): string {
  const file = join(saved, `${worksheet}${isToldWhole ? '-whole' : ''}.html`);
  if (existsSync(file)) return file;
  const [built, whole] = [readFileSync(builtPage, 'utf8'), worksheet === SHORT ? shortSheet() : shipped(worksheet.replace(/\.md$/, ''))];
  const text = isToldWhole ? whole.replace(/^lecture: .*\n/mu, '') : whole;
  writeFileSync(file, withDocument(built, text));
  return file;
}

/** Policy violations need no listener of their own: Chromium writes each to the console as an error. */
function watch(page: Page, complaints: string[], address?: string): void {
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(`console ${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => {
    const said = error.stack ?? error.message;
    if (!isRemark(said)) complaints.push(`uncaught: ${said}`);
  });
  page.on('request', (request) => {
    if (!/^(file|data|blob):/.test(request.url()) && (address === undefined || !request.url().startsWith(address))) complaints.push(`request: ${request.url()}`);
  });
}

/** Does `action`, which starts one download, and gives what was saved. */
export async function download(page: Page, action: () => Promise<void>): Promise<Downloaded> {
  if (inFirefox) return savedBy(action);
  const [started] = await Promise.all([page.waitForEvent('download'), action()]);
  const path = join(saved, `${(downloads += 1)}`, 'saved');
  await started.saveAs(path);
  return { name: started.suggestedFilename(), path, text: readFileSync(path, 'utf8') };
}

/** The same where the driver tells of no download: what is new in the folder, once it grows no more and has its own name: it is written under another. */
async function savedBy(action: () => Promise<void>): Promise<Downloaded> {
  const folder = join(saved, `${(downloads += 1)}`);
  const before = new Set(readdirSync(saved));
  await action();
  for (const end = Date.now() + 30_000; Date.now() < end; await pause(100)) {
    const name = readdirSync(saved).find((one) => !before.has(one) && !one.endsWith('.part'));
    const sizeNow = (): number => (name === undefined ? 0 : statSync(join(saved, name), { throwIfNoEntry: false })?.size ?? 0);
    const size = sizeNow();
    await pause(200);
    if (name === undefined || size === 0 || sizeNow() !== size) continue;
    mkdirSync(folder);
    renameSync(join(saved, name), join(folder, 'saved'));
    return { name, path: join(folder, 'saved'), text: readFileSync(join(folder, 'saved'), 'utf8') };
  }
  throw new Error('nothing was saved within 30 s');
}

/** Brings a part of the page into view. Where the page draws it anew meanwhile, the new one is brought there. */
export async function intoView(part: Locator): Promise<void> {
  for (const end = Date.now() + 15_000; ; ) {
    try {
      return await part.scrollIntoViewIfNeeded();
    } catch (error) {
      if (!/not attached to the DOM/.test(String(error)) || Date.now() > end) throw error;
    }
  }
}

/** Opens another file in the same context, as a reader who opens an exported file next. */
export async function goToFile(page: Page, file: string): Promise<void> {
  await page.goto(pathToFileURL(file).href);
}

/** Pictures for people to look at are made only where this asks for them, since nothing is checked by them. */
const looking = Boolean(process.env['SPANLIFE_SCREENS']);

/** Colours change nothing but contrast, which has a file of its own: a journey is made in both only for its pictures. */
export const colours: readonly ('light' | 'dark')[] = looking ? ['light', 'dark'] : ['light'];

/** A picture for people to look at, in .screens/, which is not kept. */
export async function screenshot(page: Page, name: string, { fullPage = true } = {}): Promise<void> {
  if (looking) keepForLooking(`${name}.png`, await page.screenshot({ fullPage, animations: 'disabled' }));
}

/** The same for what is a picture or a print already. */
export function keepForLooking(name: string, content: Uint8Array): void {
  if (!looking) return;
  const folder = join(top, '.screens');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, name), content);
}
