import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Downloaded } from './harness.ts';

/** A download under the name it would have on a reader's disk; it lasts as long as the browser that saved it or longer. */
export function renamed(file: Downloaded): string {
  const path = join(dirname(file.path), file.name);
  writeFileSync(path, readFileSync(file.path));
  return path;
}
