import { defineConfig } from 'vitest/config';

/** Two projects: `unit` needs only Node, `journeys` needs the built file and a Chromium. Run with `--root .` from the top. */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/journeys/**', '**/node_modules/**'],
          setupFiles: ['tests/setup.ts'],
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: 'journeys',
          environment: 'node',
          include: ['tests/journeys/**/*.test.ts'],
          setupFiles: ['tests/setup.ts'],
          // One page at a time: the journeys time what they see, and the usual machine has two cores.
          fileParallelism: false,
          testTimeout: 240_000,
          hookTimeout: 60_000,
          // What is waited for may take its time on a busy machine; only what never comes fails.
          expect: { poll: { timeout: 15_000 } },
        },
      },
    ],
  },
});
