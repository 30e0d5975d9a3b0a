/** Sources as one classic script, as the build of the page makes them. */
import { join } from 'node:path';
import { build } from 'vite';
import { top } from '../journeys/harness-browser.ts';

/** @param entry path from the project's folder; what it exports is on `globalThis.bundle` */
export async function bundled(entry: string): Promise<string> {
  const built = await build({ configFile: false, logLevel: 'error', build: { write: false, lib: { entry: join(top, entry), formats: ['iife'], name: 'bundle' } } });
  const [first] = Array.isArray(built) ? built : [built];
  const chunk = first !== undefined && 'output' in first ? first.output[0] : undefined;
  if (chunk?.type !== 'chunk') throw new Error(`${entry} was not built`);
  return chunk.code;
}
