/** One browser for all journeys of a run: each worker reaches it, each journey has a context of its own in it. */
import { chromium, type BrowserServer } from 'playwright';
import type { TestProject } from 'vitest/node';
import { launchOptions } from './harness-browser.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    readonly browserEndpoint: string;
  }
}

/** Of all projects of the run, which call this one after another. */
const shared = globalThis as { journeysBrowser?: Promise<BrowserServer> | undefined };

export default async function startBrowser(project: TestProject): Promise<() => Promise<void>> {
  shared.journeysBrowser ??= launchOptions().then((options) => chromium.launchServer(options));
  project.provide('browserEndpoint', (await shared.journeysBrowser).wsEndpoint());
  return async () => {
    const server = await shared.journeysBrowser;
    shared.journeysBrowser = undefined;
    await server?.close();
  };
}
