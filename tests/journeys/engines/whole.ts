/** What takes longer than a smoke journey and is made by a command: `npm run journeys -- --browser firefox` or `webkit`. */
import { describe, expect, test } from 'vitest';
import { builtPage, pageOf } from '../harness.ts';
import { SHIPPED, shipped } from '../../shipped.ts';
import type { Engine } from './engine.ts';
import { copiesOverPlainHttp, doesWithout, emptyDateLooksEmpty, looksAsItShould, tellsWhatItLacks } from './guards.ts';
import { faultsInPrint } from './printed.ts';
import { open, withEngine } from './smoke.ts';

type Start = (folder: string) => Promise<Engine>;

/** The sheets in which something is drawn. */
const drawn = SHIPPED.filter((name) => /^```figure/mu.test(shipped(name)));

export function wholeOf(name: string, start: Start): void {
  describe(`${name}: each sheet printed as soon as it is open`, () => {
    test.each(drawn)('%s', (sheet) => withEngine(start, async (engine) => {
      await open(engine, sheet === 'rotating-bending' ? builtPage : pageOf(`${sheet}.md`));
      expect(await faultsInPrint(engine)).toEqual([]);
    }));
  });
  describe(`${name}: what a browser lacks`, () => {
    test('too old, or a script that stops, is told', () => withEngine(start, tellsWhatItLacks));
    test('menu, first blank and lecture without popovers and checkVisibility', () => withEngine(start, doesWithout));
    test('copying over plain http', () => withEngine(start, copiesOverPlainHttp));
  });
  test(`${name}: an empty date looks empty`, () => withEngine(start, emptyDateLooksEmpty));
  test(`${name}: Escape is heard anywhere, boxes and lists are drawn by the page`, () => withEngine(start, looksAsItShould));
}
