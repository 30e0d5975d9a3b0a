/** Raw readings are the record: no handle of any drawing changes them, and no value leaves what is possible. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { changedSince, holdsReadings } from '../../src/graph/index.ts';
import { parseSheet, nextSpecimen, serialiseSheet, setTrial, type GivenCell, type RecordCell } from '../../src/sheet/index.ts';
import { pressAtHandle } from '../../src/view/figures/handle-keys.ts';
import { givensOf, shiftCommand, stepOfPlace } from '../../src/view/figures/move.ts';
import { reachOf, within } from '../../src/view/figures/reach.ts';
import { startTest } from '../../src/view/record/stamping.ts';
import { cases } from '../sizes.ts';
import { shipped } from '../shipped.ts';
import { benchWith, type Bench } from './handles.ts';

const ROTATING = shipped('rotating-bending');
const S_1 = 'readings: 101.0, 101.5, 101.5, 101.0 mm';

const SHEETS: Readonly<Record<string, string>> = {
  'rotating-bending': ROTATING,
  'its spans as a list in one box': ROTATING.replace(S_1, 'value: "101.0, 101.5, 101.5, 101.0 mm"'),
  'with a place of fracture': ROTATING.replace(/(symbol: x_f\n)/, '$1value: 1.5 mm\n'),
  'alternating-bending': shipped('alternating-bending'),
  'loading-lever': shipped('loading-lever'),
  'span-errors': shipped('span-errors'),
  specimen: shipped('specimen').replace(/(symbol: x_f\n)/, '$1value: 1.5 mm\n'),
};

function key(name: string, shiftKey = false): KeyboardEvent {
  return { key: name, shiftKey, defaultPrevented: false, altKey: false, ctrlKey: false, metaKey: false, preventDefault: () => undefined } as KeyboardEvent;
}

const givens = ({ context }: Bench): readonly GivenCell[] =>
  context().document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'given' ? [block.cell] : []));

async function press(bench: Bench, name: string, ...keys: readonly KeyboardEvent[]): Promise<void> {
  for (const one of keys) {
    const found = bench.handles().find(({ handle }) => handle.name === name);
    if (found === undefined) throw new Error(`no handle ${name}`);
    pressAtHandle(one, found.handle, bench.desk, found.figure);
    await bench.settled();
  }
}

interface Action {
  readonly handle: number;
  readonly what: 'drag' | 'ArrowLeft' | 'ArrowRight' | 'ArrowUp' | 'ArrowDown' | 'Escape';
  readonly shift: boolean;
  readonly steps: number;
}

const ACTION: fc.Arbitrary<Action> = fc.record({
  handle: fc.nat(),
  what: fc.constantFrom('drag', 'drag', 'drag', 'ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Escape'),
  shift: fc.boolean(),
  steps: fc.oneof(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -5000, max: 5000 })),
});

async function act(bench: Bench, { handle: nth, what, shift, steps }: Action): Promise<void> {
  const shown = bench.handles();
  const found = shown[nth % shown.length];
  if (found === undefined) return;
  const { handle, figure } = found;
  if (what === 'drag') {
    const command = shiftCommand(givensOf(handle, bench.desk), within(reachOf(handle, bench.desk), steps) * stepOfPlace(handle, bench.desk).size);
    if (command !== undefined) bench.desk.apply(command, figure);
  } else pressAtHandle(key(what, shift), handle, bench.desk, figure);
  await bench.settled();
}

describe.each(Object.entries(SHEETS))('%s', (_name, text) => {
  test('any drags and keys leave what is written of readings as it is, and every value within what is possible', async () => {
    await fc.assert(fc.asyncProperty(fc.array(ACTION, { minLength: 8, maxLength: 12 }), async (actions) => {
      const bench = await benchWith(text);
      const record = new Map(givens(bench).filter(holdsReadings).map(({ symbol }) => [symbol, bench.written(symbol)]));
      const names = bench.handles().map(({ figure, handle }) => `${figure} ${handle.name}`);
      expect(names.length).toBeGreaterThan(0);
      for (const action of actions) await act(bench, action);
      for (const [symbol, { value, readings }] of record) expect(bench.written(symbol)).toMatchObject({ value, readings });
      const { states } = bench.context();
      expect(givens(bench).flatMap(({ id }) => states.cell(id)?.problems ?? [])).toEqual([]);
      // No handle vanishes, and none stands outside what it moves along.
      expect(bench.handles().map(({ figure, handle }) => `${figure} ${handle.name}`)).toEqual(names);
      for (const { handle } of bench.handles()) {
        expect(handle.position).toBeGreaterThanOrEqual(handle.reach.from - 1e-9);
        expect(handle.position).toBeLessThanOrEqual(handle.reach.to + 1e-9);
      }
      bench.dispose();
    }), { numRuns: cases(12) });
  }, 60_000);
});

describe('a trial value', () => {
  test('moves beside readings, with the instrument’s uncertainty, and Escape at the handle puts them back', async () => {
    const bench = await benchWith(ROTATING);
    const before = bench.context().document;
    await press(bench, 'left load point', key('ArrowRight'), key('ArrowRight', true));
    // The means of the readings, 101.25 and 199.625 mm, and 11 steps of the rule's half millimetre.
    expect(bench.written('s_1')).toEqual({ value: undefined, readings: '101.0, 101.5, 101.5, 101.0 mm', trial: '106.75 mm' });
    expect(bench.written('s_2').trial).toBe('194.125 mm');
    const typed = await benchWith(ROTATING.replace(S_1, 'value: 106.75 mm'));
    const [tried, alone] = [bench, typed].map(({ context }) => context().states.symbol('s_1'));
    if (tried?.status !== 'value' || alone?.status !== 'value') throw new Error('no value');
    expect(tried.estimate.value).toBeCloseTo(0.10675, 12);
    expect(standardUncertainty(tried.estimate)).toBe(standardUncertainty(alone.estimate));
    await press(bench, 'left load point', key('Escape'));
    expect(bench.context().document.blocks.map(({ source }) => source)).toEqual(before.blocks.map(({ source }) => source));
  });

  test('moved back to where the readings are it is gone', async () => {
    const bench = await benchWith(ROTATING);
    await press(bench, 'left load point', key('ArrowRight'), key('ArrowRight', true), key('ArrowLeft', true), key('ArrowLeft'));
    expect(bench.written('s_1').trial).toBeUndefined();
    expect(bench.written('s_2').trial).toBeUndefined();
  });

  test('takes what moves with readings along, so that one press puts all of it back', async () => {
    const bench = await benchWith(ROTATING);
    await press(bench, 'left support', key('ArrowRight', true));
    expect(bench.written('x_s')).toEqual({ value: '200.5 mm', readings: undefined, trial: '195.5 mm' });
    await press(bench, 'section', key('ArrowLeft'));
    expect(bench.written('x_s')).toEqual({ value: '200.5 mm', readings: undefined, trial: '195.0 mm' });
    await press(bench, 'left support', key('Escape'));
    expect(['L', 's_1', 'x_s'].map((symbol) => bench.written(symbol).trial)).toEqual([undefined, undefined, undefined]);
  });

  test('a single value that stands alone is moved itself, no further than the support', async () => {
    const at = (x: string): Promise<Bench> => benchWith(ROTATING.replace('value: 200.5 mm', `value: ${x}`));
    const near = await at('42.5 mm');
    await press(near, 'section', key('ArrowLeft', true));
    expect(near.written('x_s')).toEqual({ value: '37.5 mm', readings: undefined, trial: undefined });
    await press(near, 'section', ...Array.from({ length: 12 }, () => key('ArrowLeft', true)));
    expect(near.written('x_s')).toEqual({ value: '0.0 mm', readings: undefined, trial: undefined });
    const far = await at('362.5 mm');
    await press(far, 'section', ...Array.from({ length: 12 }, () => key('ArrowRight', true)));
    // The overall span is 401.6 mm by its readings.
    expect(far.written('x_s')).toEqual({ value: '401.5 mm', readings: undefined, trial: undefined });
  });

  test('a list in one box has a handle that moves a trial value, and text that can’t be read has none', async () => {
    const list = await benchWith(ROTATING.replace(S_1, 'value: "101.0, 101.5, 101.5, 101.0 mm"'));
    await press(list, 'left load point', key('ArrowRight'));
    expect(list.written('s_1')).toEqual({ value: '101.0, 101.5, 101.5, 101.0 mm', readings: undefined, trial: '101.75 mm' });
    const broken = await benchWith(ROTATING.replace(S_1, 'readings: about a hand'));
    expect(broken.handles().map(({ handle }) => handle.name)).not.toContain('left load point');
  });

  test('an empty given has no handle: there is nothing to move', async () => {
    const empty = await benchWith(ROTATING.replace(`${S_1}\n`, ''));
    expect(empty.handles().map(({ handle }) => handle.name)).not.toContain('left load point');
  });

  test('a test is not started on one: its prediction would be kept for good', async () => {
    const record = ({ context }: Bench): RecordCell => {
      const cell = context().document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'record' ? [block.cell] : []))[0];
      if (cell === undefined) throw new Error('no record');
      return cell;
    };
    const [tried, plain] = [await benchWith(ROTATING.replace(S_1, `${S_1}\ntrial: 105 mm`)), await benchWith(ROTATING)];
    startTest(record(tried), tried.session.now(), tried.desk);
    expect(tried.said).toEqual([expect.stringMatching(/^A trial value stands in place of what was measured/)]);
    expect(record(tried).frozen.size).toBe(0);
    startTest(record(plain), plain.session.now(), plain.desk);
    await plain.settled();
    expect(record(plain).frozen.get('s_1')).toBe('101.0, 101.5, 101.5, 101.0 mm');
    // Put on trial while the test runs, it is among what has changed since the start.
    const cell = plain.context().document.blocks.find((block) => block.kind === 'cell' && block.cell.kind === 'given' && block.cell.symbol === 's_1');
    plain.desk.apply(setTrial(cell?.id ?? '', '105 mm'));
    await plain.settled();
    const { document, states } = plain.context();
    expect(changedSince(record(plain), document, states)).toContainEqual({ name: 's_1', atStart: '101.0, 101.5, 101.5, 101.0 mm', now: 'trial value 105 mm' });
  });

  test('goes with what was measured where a sheet goes on with the next specimen', () => {
    const text = ROTATING.replace(S_1, `${S_1}
trial: 105 mm`);
    expect(serialiseSheet(nextSpecimen(parseSheet(text)).document)).toBe(serialiseSheet(nextSpecimen(parseSheet(ROTATING)).document));
  });
});
