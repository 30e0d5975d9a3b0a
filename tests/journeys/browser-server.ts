/** One Chromium for all journeys of a run: each worker reaches it, each journey has a context of its own in it. What a check has passed, all of them know. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright';
import type { TestProject } from 'vitest/node';
import { launchOptions } from './harness-browser.ts';
import { inChromium } from './harness-firefox.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    readonly browserEndpoint: string;
    /** Where the workers tell one another what has passed (`known.ts`). */
    readonly knownFolder: string;
  }
}

export default async function startBrowser(project: TestProject): Promise<() => Promise<void>> {
  const server = inChromium ? await chromium.launchServer(await launchOptions()) : undefined;
  const known = mkdtempSync(join(tmpdir(), 'spanlife-known-'));
  project.provide('browserEndpoint', server?.wsEndpoint() ?? '');
  project.provide('knownFolder', known);
  return async () => {
    await server?.close();
    rmSync(known, { recursive: true, force: true });
  };
}
