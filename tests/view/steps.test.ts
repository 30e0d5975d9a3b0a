/** Undo as a reader sees it: what came back is named, goes away with the next edit, and its opposite is one press off. */
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { nothing } from 'lit-html';
import { createSteps, type Steps } from '../../src/view/steps.ts';
import { benchDesk, type BenchDesk } from '../bench-desk.ts';
import { given } from '../report/sheet-at.ts';
import { control, controlsOf, standInForElements } from './press.ts';

beforeAll(standInForElements);
afterAll(() => vi.unstubAllGlobals());

const SHEET = given('d', '6 mm', 'mm', 'label: Diameter') + given('F', '300 N', 'N', 'label: Load');

interface Bench {
  readonly bench: BenchDesk;
  readonly steps: Steps;
  /** How often the strip was drawn, and the blocks that were gone to. */
  readonly drawn: () => number;
  readonly gone: readonly string[];
  strip(): { readonly line: ReturnType<Steps['strip']>; readonly margin: typeof nothing };
  set(symbol: string, value: string): Promise<void>;
}

async function stepsOf(nothingToUndo?: string): Promise<Bench> {
  const bench = await benchDesk(SHEET);
  let count = 0;
  const gone: string[] = [];
  const desk = { ...bench.desk, go: (to: string) => void gone.push(to), ...(nothingToUndo === undefined ? {} : { nothingToUndo }) };
  const steps = createSteps(bench.session, () => desk, () => void count++);
  return {
    bench, steps, gone, drawn: () => count,
    strip: () => ({ line: steps.strip(), margin: nothing }),
    set: async (symbol, value) => {
      await bench.edit({ do: 'set key', cellId: symbol, key: 'value', value });
      bench.session.settle();
      steps.edited(true);
    },
  };
}

test('tells what came back, leads there, and does it again', async () => {
  const { bench, steps, strip, gone, set } = await stepsOf();
  expect(steps.strip()).toBe(nothing);
  await set('d', '7 mm');
  steps.step('undo');
  await bench.settled();
  expect(bench.text()).toBe(SHEET);
  expect(controlsOf(strip()).map(({ name }) => name)).toEqual(['go there', 'redo', 'close']);
  control(strip(), 'go there').hear('click');
  expect(gone).toEqual(['d']);
  control(strip(), 'redo').hear('click');
  await bench.settled();
  expect(bench.text()).toContain('7 mm');
  expect(controlsOf(strip()).map(({ name }) => name)).toEqual(['go there', 'undo', 'close']);
  control(strip(), 'close').hear('click');
  expect(steps.strip()).toBe(nothing);
  bench.dispose();
});

test('what was told goes with the next edit, and the strip is drawn for nothing else', async () => {
  const { bench, steps, drawn, set } = await stepsOf();
  await set('d', '7 mm');
  expect(drawn()).toBe(0);
  steps.step('undo');
  await set('F', '310 N');
  expect([drawn(), steps.strip()]).toEqual([2, nothing]);
  bench.dispose();
});

test('with nothing to undo it says so only where the sheet was worked on before', async () => {
  const [silent, telling] = [await stepsOf(), await stepsOf('Steps from before loading are not kept.')];
  silent.steps.step('undo');
  telling.steps.step('undo');
  expect(silent.steps.strip()).toBe(nothing);
  expect(controlsOf(telling.strip()).map(({ name }) => name)).toEqual(['close']);
  for (const { bench } of [silent, telling]) bench.dispose();
});

test('an undo is offered once the edit is in the page, at its line, and withdrawn with the next one', async () => {
  const { bench, steps } = await stepsOf();
  const first = bench.edit({ do: 'set key', cellId: 'd', key: 'value', value: '7 mm' });
  steps.edited(true);
  steps.offer('d', 'The reading is taken out.');
  expect(bench.ui('d').undoOffer).toBeUndefined();
  await first;
  expect([bench.ui('d').undoOffer, bench.said]).toEqual(['The reading is taken out.', ['The reading is taken out.']]);
  steps.edited(true);
  expect(bench.ui('d').undoOffer).toBeUndefined();
  // An edit that changed nothing has nothing to take back.
  steps.edited(false);
  steps.offer('d', 'Nothing.');
  expect(bench.said).toHaveLength(1);
  bench.dispose();
});
