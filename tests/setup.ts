import fc from 'fast-check';
import '../src/figures/at-once/index.ts';
import '../src/report/typesetter-at-once.ts';
import { afterEach, beforeEach, vi } from 'vitest';

/** Property tests draw the same cases every time; `SPANLIFE_SEED=123 npm run unit` draws others. */
const FIXED_SEED = 19580417;
fc.configureGlobal({ seed: Number(process.env['SPANLIFE_SEED'] ?? FIXED_SEED) });

/** A warning on the console is a defect, so it fails the test during which it appeared. */
const complaints: string[] = [];

beforeEach(() => {
  complaints.length = 0;
  for (const level of ['warn', 'error'] as const) {
    vi.spyOn(console, level).mockImplementation((...parts: unknown[]) => {
      complaints.push(`${level}: ${parts.map(String).join(' ')}`);
    });
  }
});

afterEach(() => {
  vi.restoreAllMocks();
  if (complaints.length > 0) throw new Error(`the console should stay silent, but said:\n${complaints.join('\n')}`);
});
