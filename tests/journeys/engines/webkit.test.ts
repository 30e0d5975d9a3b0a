/** The smoke journey in WebKit. Where there is none the file is left out (`tests/vitest.config.ts`), and the run says so. */
import { describe, test } from 'vitest';
import { startWebKit } from './webkit.ts';
import { startSheet, tableAndFiles, withEngine } from './smoke.ts';

describe('WebKit', () => {
  test('start, print, edit, undo, drag, draws in the worker', () => withEngine(startWebKit, startSheet));
  test('a block pasted, working file out, opened, loaded again, brought in', () => withEngine(startWebKit, tableAndFiles));
});
