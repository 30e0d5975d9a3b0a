/** The smoke journey in Chromium, as in the other engines: what differs between them is seen in one and the same journey. */
import { describe, test } from 'vitest';
import { startChromium } from './chromium.ts';
import { startSheet, tableAndFiles, withEngine } from './smoke.ts';

describe('Chromium', () => {
  test('start, print, edit, undo, drag, draws in the worker', () => withEngine(startChromium, startSheet));
  test('a block pasted, working file out, opened, loaded again, brought in', () => withEngine(startChromium, tableAndFiles));
});
