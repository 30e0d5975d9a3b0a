/** One browser for all journeys of a run: each worker reaches it, each journey has a context of its own in it. */
import { chromium } from 'playwright';
import type { TestProject } from 'vitest/node';
import { launchOptions } from './harness-browser.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    readonly browserEndpoint: string;
  }
}

export default async function startBrowser(project: TestProject): Promise<() => Promise<void>> {
  const server = await chromium.launchServer(await launchOptions());
  project.provide('browserEndpoint', server.wsEndpoint());
  return () => server.close();
}
