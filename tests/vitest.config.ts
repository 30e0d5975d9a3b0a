import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { missingEngines } from '../.scripts/engines.mjs';
import { LongestFirst } from './longest-first.ts';

const unitFiles = 'tests/**/*.test.ts';
const notUnit = ['tests/journeys/**', '**/node_modules/**'];

/** The browser of the run (`.scripts/journeys.mjs`). */
const browser = (process.env['SPANLIFE_BROWSER'] ?? 'chromium') as 'chromium' | 'firefox' | 'webkit';

/**
 * Whole files of journeys that Firefox is not asked for: its driver slides and pinches with no finger, lets no page die and counts nothing that a page holds;
 * what it prints `engines/firefox-whole.test.ts` looks into.
 */
const notInFirefox = ['drawing-touch', 'fracture-touch', 'taps', 'dying-page', 'long-use', 'print'].map((name) => `tests/journeys/${name}.test.ts`);

/** A test that hangs ends at some time, ms; how long one takes on a busy machine says nothing about what is tested. */
const PATIENCE = 120_000;

/** What is made in which browser. In the check: everything in Chromium and the smoke journeys in each; the drivers say which engine is not there, and fail for it where it has to be. */
const journeys = 'tests/journeys/**/*.test.ts';
const inEngines = 'tests/journeys/engines';
const journeyFiles: { include: string[]; exclude: string[] } = {
  chromium: { include: [journeys], exclude: [`${inEngines}/*-whole.test.ts`, ...missingEngines().map((name) => `${inEngines}/${name}.test.ts`)] },
  firefox: { include: [journeys], exclude: [`${inEngines}/{chromium,webkit}*.test.ts`, ...notInFirefox] },
  webkit: { include: [`${inEngines}/webkit*.test.ts`], exclude: [] },
}[browser];

/** Files that need a process of their own, each with its reason. */
const apart = [
  // Sets the time zone, which formats take when their module is loaded.
  'tests/view/stamps.test.ts',
];

/** Projects: `unit` and `unit-apart` need only Node, `journeys` needs the built file and a Chromium. Run with `--root .` from the top. */
export default defineConfig({
  test: {
    // All cores: the default leaves one idle, which on the usual machine is half of it.
    maxWorkers: availableParallelism(),
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        test: {
          name: 'unit',
          environment: 'node',
          include: [unitFiles],
          exclude: [...notUnit, ...apart],
          setupFiles: ['tests/setup.ts'],
          // What is tested is pure, so files share a process, in which each module is loaded once: most of a file's time was loading.
          pool: 'forks',
          isolate: false,
          // Most of what a test makes is soon gone: with more room for it, it is not looked through so often for what stays (a twentieth of the time).
          execArgv: ['--max-semi-space-size=64', '--min-semi-space-size=32'],
          testTimeout: PATIENCE,
        },
      },
      {
        test: {
          name: 'unit-apart',
          environment: 'node',
          include: apart,
          setupFiles: ['tests/setup.ts'],
          pool: 'forks',
          testTimeout: PATIENCE,
        },
      },
      {
        test: {
          name: 'journeys',
          environment: 'node',
          ...journeyFiles,
          globalSetup: ['tests/journeys/browser-server.ts'],
          setupFiles: ['tests/setup.ts'],
          pool: 'forks',
          isolate: false,
          // A journey waits for frames, for what is kept and for what is slow on purpose about half of its time, and leaves a core to others meanwhile.
          maxWorkers: 2 * availableParallelism(),
          sequence: { groupOrder: 1 },
          // In full size (`tests/sizes.ts`) a hundred pages die in one test.
          testTimeout: process.env['SPANLIFE_SIZES'] === 'full' ? 3_600_000 : 240_000,
          hookTimeout: 60_000,
          // On a busy machine one in some two hundred still fails. It is made once more, and the report says so: each such line is a defect to look into.
          retry: 1,
          // What is waited for may take its time on a busy machine; only what never comes fails.
          expect: { poll: { timeout: 15_000 } },
        },
      },
    ],
  },
});
