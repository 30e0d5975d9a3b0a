/** The browser and the sizes that journeys and benchmarks look at the built page with. */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type BrowserContextOptions } from 'playwright';
import { browserFlags, findBrowser } from '../../.scripts/browser.mjs';

export const top = fileURLToPath(new URL('../..', import.meta.url));

export const builtPage = join(top, 'dist', 'index.html');

export const sizes = {
  phone: { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true },
  desktop: { viewport: { width: 1440, height: 900 } },
} as const satisfies Record<string, BrowserContextOptions>;

export async function launch(): Promise<Browser> {
  const executablePath = await findBrowser();
  if (executablePath === undefined) throw new Error('no Chromium found: run npm test, or set CHROMIUM to the path of one');
  return chromium.launch({ executablePath, args: browserFlags() });
}
