/** One Chromium for all journeys of a run: each worker reaches it, each journey has a context of its own in it. What a check has passed, all of them know. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type LaunchOptions } from 'playwright';
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

/**
 * A journey's page lives for seconds: to compile what runs some hundred times once more, for speed, costs more than it brings, a twelfth of what a page
 * does. It is left to what runs ten times as often (draws). The smoke journeys and benchmarks run in a browser as it is.
 */
const COMPILED_LATE = ['maglev=4000', 'maglev-osr=1000', 'turbofan=30000', 'early-optimization=300'].map((count) => `--invocation-count-for-${count}`);

async function launched(): Promise<LaunchOptions> {
  const { args = [], ...options } = await launchOptions();
  return { ...options, args: [...args, `--js-flags=${COMPILED_LATE.join(' ')}`] };
}

export default async function startBrowser(project: TestProject): Promise<() => Promise<void>> {
  const server = inChromium ? await chromium.launchServer(await launched()) : undefined;
  const known = mkdtempSync(join(tmpdir(), 'spanlife-known-'));
  project.provide('browserEndpoint', server?.wsEndpoint() ?? '');
  project.provide('knownFolder', known);
  return async () => {
    await server?.close();
    rmSync(known, { recursive: true, force: true });
  };
}
