/**
 * What every journey needs: the built page, opened as a reader opens it (a file, no network), in a fresh context.
 * A journey fails on anything the console says above a log line, on an uncaught error, on a violation of the page's
 * policy and on any request that leaves the file.
 */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright';
import { inject } from 'vitest';
import { builtPage, sizes, top } from './harness-browser.ts';

export { builtPage, sizes };

export interface Opening {
  readonly size?: keyof typeof sizes;
  /** The file to open; the built page unless said. */
  readonly file?: string;
  readonly colorScheme?: 'light' | 'dark';
  /** Opened with scripts switched off. */
  readonly withoutScripts?: boolean;
  readonly context?: BrowserContextOptions;
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

/** The browser of the run, as this worker reaches it: its files share the connection, which ends with the worker. */
let reached: Promise<Browser> | undefined;

/** Downloads of this worker. */
const saved = mkdtempSync(join(tmpdir(), 'spanlife-saved-'));
process.on('exit', () => rmSync(saved, { recursive: true, force: true }));
let downloads = 0;

/** Opens the page in a context of its own, hands it to the journey, and fails if the page complained of anything. */
export async function withPage(opening: Opening, journey: (opened: OpenPage) => Promise<void>): Promise<void> {
  const file = opening.file ?? builtPage;
  if (!existsSync(file)) throw new Error(`${file} does not exist: run npm run build`);
  reached ??= chromium.connect(inject('browserEndpoint'));
  const browser = await reached;
  const context = await browser.newContext({
    ...sizes[opening.size ?? 'desktop'],
    colorScheme: opening.colorScheme ?? 'light',
    javaScriptEnabled: opening.withoutScripts !== true,
    reducedMotion: 'reduce',
    offline: true,
    ...opening.context,
  });
  const complaints: string[] = [];
  context.on('page', (page) => watch(page, complaints));
  try {
    const page = await context.newPage();
    await page.goto(pathToFileURL(file).href);
    await journey({ page, complaints });
    failWith('The page complained', complaints);
  } finally {
    await context.close();
  }
}

function failWith(what: string, list: readonly string[]): void {
  if (list.length > 0) throw new Error(`${what}:\n${list.join('\n')}`);
}

/** Policy violations need no listener of their own: Chromium writes each to the console as an error. */
function watch(page: Page, complaints: string[]): void {
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(`console ${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(`uncaught: ${error.stack ?? error.message}`));
  page.on('request', (request) => {
    if (!/^(file|data|blob):/.test(request.url())) complaints.push(`request: ${request.url()}`);
  });
}

/** Does `action`, which starts one download, and gives what was saved. */
export async function download(page: Page, action: () => Promise<void>): Promise<Downloaded> {
  const [started] = await Promise.all([page.waitForEvent('download'), action()]);
  const path = join(saved, `${(downloads += 1)}`, 'saved');
  await started.saveAs(path);
  return { name: started.suggestedFilename(), path, text: readFileSync(path, 'utf8') };
}

/** Opens another file in the same context, as a reader who opens an exported file next. */
export async function goToFile(page: Page, file: string): Promise<void> {
  await page.goto(pathToFileURL(file).href);
}

/** Pictures for people to look at are made only where this asks for them, since nothing is checked by them. */
const looking = Boolean(process.env['SPANLIFE_SCREENS']);

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

const axeSource = readFileSync(join(dirname(createRequire(import.meta.url).resolve('axe-core')), 'axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly impact?: string | null;
  readonly help: string;
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[];
}

/** Fails with every rule of axe that the page breaks, and where; but for contrast, which takes ten times as long and has a file of its own. */
export async function checkAccess(page: Page): Promise<void> {
  await runAxe(page, { rules: { 'color-contrast': { enabled: false } } });
}

/** Fails with every text that stands out too little, in the whole page or in what the selector names. */
export async function checkContrast(page: Page, within?: string): Promise<void> {
  await runAxe(page, { runOnly: ['color-contrast'] }, within);
}

async function runAxe(page: Page, options: Readonly<Record<string, unknown>>, within?: string): Promise<void> {
  // Through the debugger: the page's policy lets no script in, and the policy stays in force.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axeSource);
  const violations = await page.evaluate(async ([selector, asked]) => {
    const { axe } = globalThis as unknown as { axe: { run(context: unknown, options: unknown): Promise<{ violations: Violation[] }> } };
    return (await axe.run(selector ?? document, asked)).violations;
  }, [within, options] as const);
  const told = violations.flatMap((violation) =>
    violation.nodes.map((node) => `${violation.id} (${violation.impact ?? 'no impact'}): ${violation.help}: ${node.target.join(' ')}\n${node.failureSummary ?? ''}`),
  );
  failWith('axe found violations', told);
}
