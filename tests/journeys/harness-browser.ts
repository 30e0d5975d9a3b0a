/** The browser and the sizes that journeys and benchmarks look at the built page with. */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type BrowserContextOptions, type LaunchOptions } from 'playwright';
import { browserFlags, findBrowser } from '../../.scripts/browser.mjs';
import { embedDocument } from '../../src/report/embedded.ts';

export const top = fileURLToPath(new URL('../..', import.meta.url));

export const builtPage = join(top, 'dist', 'index.html');

export const sizes = {
  phone: { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true },
  desktop: { viewport: { width: 1440, height: 900 } },
} as const satisfies Record<string, BrowserContextOptions>;

/** What a Chromium is started with, wherever it is found. */
export async function launchOptions(): Promise<LaunchOptions> {
  const executablePath = await findBrowser();
  if (executablePath === undefined) throw new Error('no Chromium found: run npm test, or set CHROMIUM to the path of one');
  return { executablePath, args: browserFlags() };
}

/** A browser of one's own, for a benchmark. */
export async function launch(): Promise<Browser> {
  return chromium.launch(await launchOptions());
}

/** A built page with another text in its template, and nothing to read before it lives. */
export function withDocument(built: string, text: string): string {
  return built.replace(/(<main id="sheet">)[\s\S]*?(<\/main>)\s*<template id="spanlife-document"[\s\S]*?<\/template>/, (_all, begin: string, end: string) => `${begin}${end}\n${embedDocument(text)}`);
}
