/** The smoke journey in Firefox. Where there is none the file is left out (`tests/vitest.config.ts`), and the run says so. */
import { describe, test } from 'vitest';
import { startFirefox } from './firefox.ts';
import { startSheet, tableAndFiles, withEngine } from './smoke.ts';

describe('Firefox', () => {
  test('start, print, edit, undo, drag, draws in the worker', () => withEngine(startFirefox, startSheet));
  test('a block pasted, working file out, opened, loaded again, brought in', () => withEngine(startFirefox, tableAndFiles));
});
