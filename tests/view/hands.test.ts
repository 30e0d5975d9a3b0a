/** What can be done at a line of each kind: every control changes the sheet as its words say, and can be taken back with one step. */
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { Cell } from '../../src/sheet/index.ts';
import { asideParts } from '../../src/view/kinds/aside.ts';
import { checklistParts } from '../../src/view/kinds/checklist.ts';
import { choiceParts } from '../../src/view/kinds/choice.ts';
import { givenParts } from '../../src/view/kinds/given.ts';
import { recordParts } from '../../src/view/kinds/record.ts';
import { remarkParts } from '../../src/view/kinds/remark.ts';
import { stepParts } from '../../src/view/kinds/step.ts';
import type { Desk } from '../../src/view/desk.ts';
import type { LineParts } from '../../src/view/parts.ts';
import { benchDesk, type BenchDesk } from '../bench-desk.ts';
import { fenced, given, step } from '../report/sheet-at.ts';
import { control, controlsOf, standInForElements } from './press.ts';

beforeAll(standInForElements);
afterAll(() => vi.unstubAllGlobals());

const PARTS: { readonly [K in Cell['kind']]?: (cell: never, desk: Desk) => LineParts } = {
  aside: asideParts, checklist: checklistParts, choice: choiceParts, given: givenParts, record: recordParts, remark: remarkParts, step: stepParts,
};

interface Line {
  readonly bench: BenchDesk;
  /** The line as it now is. */
  parts(id?: string): LineParts;
  hear(name: string | RegExp, event: string, has?: Readonly<Record<string, unknown>>): Promise<void>;
  /** What stands in the document below the cell's fence. */
  source(id?: string): string;
}

async function lineOf(text: string, first: string): Promise<Line> {
  const bench = await benchDesk(text);
  const parts = (id = first): LineParts => {
    const block = bench.desk.block(id);
    const partsOf = block?.kind === 'cell' ? PARTS[block.cell.kind] : undefined;
    if (block?.kind !== 'cell' || partsOf === undefined) throw new Error(`no line ${id}`);
    return partsOf(block.cell as never, bench.desk);
  };
  return {
    bench, parts,
    hear: async (name, event, has) => {
      control(parts(), name).hear(event, has);
      await bench.settled();
    },
    source: (id = first) => bench.desk.block(id)?.source ?? '',
  };
}

const MATERIAL = ['id: m', 'label: Material', 'chosen: a', 'options:', ...['a', 'b', 'c', 'd'].flatMap((key) => [`  - key: ${key}`, `    label: Steel ${key}`, '    sets:', `      S: ${key.charCodeAt(0)} MPa`])];

describe('a choice', () => {
  test.each([['a list, where options are many', 4, /^select$/u, { value: 'c' }], ['buttons, where they are few', 3, undefined, {}]] as const)('is made with %s', async (_how, many, name, has) => {
    const text = fenced('choice', ...MATERIAL.slice(0, 4 + 4 * many)) + given('S', '', 'MPa').replace('value: ""\n', '');
    const { bench, parts, source } = await lineOf(text, 'm');
    if (name === undefined) controlsOf(parts()).at(2)?.hear('change', has);
    else control(parts(), name).hear('change', has);
    await bench.settled();
    expect(source()).toContain('chosen: c');
    expect(bench.context().states.symbol('S')).toMatchObject({ status: 'value', estimate: { value: 99e6 } });
    await bench.undo();
    expect(bench.text()).toBe(text);
    bench.dispose();
  });

  test('an assumed one is made one’s own by a press, and nothing else of it changes', async () => {
    const { bench, hear, source } = await lineOf(fenced('choice', ...MATERIAL, 'origin: assumed'), 'm');
    await hear('confirm Material as it is assumed', 'click');
    expect(source()).not.toContain('origin');
    expect(source()).toContain('chosen: a');
    expect(bench.said).toEqual(['Material: confirmed, and yours from now on.']);
    bench.dispose();
  });
});

test('a tick is stamped with the time of the place, and taken out again', async () => {
  const text = fenced('checklist', 'id: list', 'items:', '  - Guard closed', '  - Load locked');
  const { bench, parts, source } = await lineOf(text, 'list');
  controlsOf(parts())[1]?.hear('change', { checked: true });
  await bench.settled();
  expect(source()).toMatch(/- Guard closed\n\s*- text: Load locked\n\s*done: "?2026-01-12T09:30:00/u);
  controlsOf(parts())[1]?.hear('change', { checked: false });
  await bench.settled();
  expect(source()).not.toContain('done');
  bench.dispose();
});

test('a remark is written key by key, one step to undo, and kept as it was typed', async () => {
  const { bench, hear, source } = await lineOf(fenced('remark', 'id: r', 'heading: Discussion'), 'r');
  await hear('textarea', 'focus');
  for (const value of ['Cracks', 'Cracks: “two”', 'Cracks: “two”\n- at the fillet']) await hear('textarea', 'input', { value });
  expect(bench.ui('r').writing).toBe('Cracks: “two”\n- at the fillet');
  await hear('textarea', 'blur');
  expect(bench.ui('r').writing).toBeUndefined();
  expect(bench.context().document.blocks[0]).toMatchObject({ cell: { text: 'Cracks: “two”\n- at the fillet' } });
  await bench.undo();
  expect(source()).not.toContain('Cracks');
  bench.dispose();
});

describe('a given', () => {
  const D = given('d', '6.31 mm', 'mm', 'label: Diameter');

  test('takes every key at once, and its blank is put in order when it is left', async () => {
    const { bench, hear, source } = await lineOf(D, 'd');
    await hear('input', 'focus');
    for (const value of ['6.4', '6.4 ', '6.42 mm']) await hear('input', 'input', { value });
    expect(bench.ui('d').drafts).toEqual(['6.42 mm']);
    expect(bench.context().states.symbol('d')).toMatchObject({ estimate: { value: 0.00642 } });
    await hear('input', 'blur', { relatedTarget: null });
    expect(bench.ui('d').drafts).toBeUndefined();
    expect(source()).toContain('value: "6.42 mm"');
    await bench.undo();
    expect(source()).toContain('value: "6.31 mm"');
    bench.dispose();
  });

  test('has its value of before back with Escape, and its mark of an assumed one', async () => {
    const { bench, hear, source } = await lineOf(D.replace('label:', 'origin: assumed\nlabel:'), 'd');
    await hear('input', 'focus');
    await hear('input', 'input', { value: '9 mm' });
    expect(source()).not.toContain('origin');
    await hear('input', 'keydown', { key: 'Escape' });
    expect([source(), bench.ui('d').drafts]).toEqual([expect.stringMatching(/value: "?6\.31 mm"?\n(?:.*\n)*origin: assumed/u), ['6.31 mm']]);
    bench.dispose();
  });

  test('keeps what the sheet cannot read in its blank, and says so', async () => {
    const { bench, hear, source } = await lineOf(D, 'd');
    await hear('input', 'focus');
    await hear('input', 'input', { value: '6.4 kg' });
    await hear('input', 'blur', { relatedTarget: null });
    expect(source()).toContain('6.4 kg');
    expect(bench.context().states.symbol('d')?.status).toBe('problem');
    bench.dispose();
  });

  test('gets readings added and taken out: the mean follows, and no reading is lost unasked', async () => {
    const { bench, hear, parts, source } = await lineOf(D, 'd');
    await hear('add a reading of Diameter', 'click');
    expect(bench.ui('d').drafts).toEqual(['6.31 mm', '']);
    controlsOf(parts()).filter(({ tag }) => tag === 'input')[1]?.hear('input', { value: '6.35 mm' });
    await bench.settled();
    expect(source()).toContain('readings: 6.31, 6.35 mm');
    expect(bench.context().states.symbol('d')).toMatchObject({ estimate: { value: expect.closeTo(0.00633, 12) } });
    await hear('take out the last reading of Diameter', 'click');
    expect(source()).toContain('6.31 mm');
    expect(source()).not.toContain('6.35');
    expect(bench.offered).toEqual(['d: The last reading is taken out.']);
    await bench.undo();
    expect(source()).toContain('readings: 6.31, 6.35 mm');
    bench.dispose();
  });

  test('a trial value is put back: what was measured stands', async () => {
    const { bench, hear, source } = await lineOf(given('d', '6.31 mm', 'mm', 'label: Diameter', 'trial: 7 mm'), 'd');
    expect(bench.context().states.symbol('d')).toMatchObject({ estimate: { value: 0.007 } });
    vi.stubGlobal('requestAnimationFrame', () => 0);
    await hear(/^put back/u, 'click');
    expect(source()).not.toContain('trial');
    expect(bench.context().states.symbol('d')).toMatchObject({ estimate: { value: 0.00631 } });
    bench.dispose();
  });
});

describe('a step', () => {
  const text = given('a', '2 mm', 'mm') + step('x', 'a^2', 'mm^2', 'label: Area');

  test.each([['back to the inputs', 'derivation'], ['against an input', 'against'], ['work back', 'work back']] as const)('%s opens and closes below it, and changes nothing of the sheet', async (name, part) => {
    const { bench, hear, parts } = await lineOf(text, 'x');
    expect(control(parts(), name).attributes.get('aria-expanded')).toBe('false');
    await hear(name, 'click');
    expect([[...bench.ui('x').open], control(parts(), name).attributes.get('aria-expanded')]).toEqual([[part], 'true']);
    await hear(name, 'click');
    expect([[...bench.ui('x').open], bench.text(), bench.drawn]).toEqual([[], text, ['x', 'x']]);
    bench.dispose();
  });

  test('folds, and shows its numbers or not', async () => {
    const { bench, hear, parts } = await lineOf(text, 'x');
    await hear('numbers', 'click');
    expect([bench.ui('x').numbersHidden, control(parts(), 'numbers').attributes.get('aria-pressed')]).toEqual([true, 'false']);
    await hear('fold', 'click');
    // A folded step has no numbers to show.
    expect([bench.ui('x').folded, controlsOf(parts()).some(({ name }) => name === 'numbers')]).toEqual([true, false]);
    bench.dispose();
  });

  test('asks for an own result before it tells its own, and takes it when the blank is left', async () => {
    const asked = await lineOf(`---\nown_working: true\n---\n${text.replace('label: Area', 'label: Area\nasked: true')}`, 'x');
    expect(controlsOf(asked.parts()).map(({ name }) => name)).toEqual(expect.not.arrayContaining(['back to the inputs', 'numbers']));
    await asked.hear('Your own result for Area', 'change', { value: ' 4 mm^2 ' });
    expect(asked.source()).toMatch(/answer: "?4 mm\^2"?\n/u);
    expect(controlsOf(asked.parts()).some(({ name }) => name === 'back to the inputs')).toBe(true);
    await asked.hear('work it out again', 'click');
    expect(asked.source()).not.toContain('answer');
    asked.bench.dispose();
  });
});

describe('a test record', () => {
  const text = given('N_f', '100000 cycles', 'cycles') + given('n', '3000 rev/min', 'rev/min')
    + fenced('record', 'id: test', 'watches:', '  life: N_f', '  speed: n');

  test('goes through its presses: each stamps the time and is one step to undo', async () => {
    const { bench, hear, parts, source } = await lineOf(text, 'test');
    const presses = (): readonly string[] => controlsOf(parts()).filter(({ tag, name }) => tag === 'button' && /^[A-Z]/u.test(name)).map(({ name }) => name);
    expect(presses()).toEqual(['Start the test']);
    await hear('Start the test', 'click');
    expect(source()).toMatch(/started: "?2026-01-12T09:30:00(?:.*\n)*frozen:\n {2}N_f: 100000 cycles/u);
    expect(bench.said.at(-1)).toMatch(/^The test is started/u);
    expect(presses()).toEqual(['Note a reading', 'Pause', 'Ended']);
    await hear('Pause', 'click');
    expect(presses()).toEqual(['Note a reading', 'Go on', 'Ended']);
    await hear('Go on', 'click');
    expect(source()).toMatch(/pauses:\n\s*- from: "?2026-01-12T09:30:00.*\n\s*to: "?2026-01-12T09:30:00/u);
    await hear('Note a reading', 'click');
    await hear('Ended', 'click');
    expect(presses()).not.toContain('Ended');
    for (let i = 0; i < 5; i++) await bench.undo();
    expect(bench.text()).toBe(text);
    bench.dispose();
  });

  test('a noted reading is deleted with the way back', async () => {
    const { bench, hear, source } = await lineOf(text, 'test');
    for (const name of ['Start the test', 'Note a reading']) await hear(name, 'click');
    const before = source();
    await hear('delete reading 1', 'click');
    expect(source()).not.toContain('readings');
    expect(bench.offered).toEqual(['test: Reading 1 is deleted.']);
    await bench.undo();
    expect(source()).toBe(before);
    bench.dispose();
  });

  test('that was left alone and found standing ends when its counter says, and when it was found stays written down', async () => {
    const found = text.replace(/(```record\nid: test\n)/, `$1${['started: 2026-01-11T18:00:00Z', 'ended: 2026-01-12T08:00:00Z', 'counter_start: 0', 'counter_end: 6000', 'counter_multiplier: 100',
      'readings:', '  - at: 2026-01-11T18:10:00Z', '    left: 0 of 6', 'frozen:', '  n: 3000 rev/min'].join('\n')}\n`);
    const { bench, hear, parts, source } = await lineOf(found, 'test');
    await hear(/^It ended at/u, 'click');
    // 600 000 revolutions at 3000 rev/min take 200 min.
    const ended = /^ended: (.*)$/mu.exec(source())?.[1] ?? '';
    expect(new Date(ended).toISOString()).toBe('2026-01-11T21:20:00.000Z');
    expect(source()).toMatch(/- at: 2026-01-12T08:00:00Z\n\s+note: Found standing; its end is reckoned from counter and speed\./u);
    expect(controlsOf(parts()).some(({ name }) => name.startsWith('It ended'))).toBe(false);
    await bench.undo();
    expect(source()).toContain('ended: 2026-01-12T08:00:00Z');
    bench.dispose();
  });

  test.each([
    ['a slip is switched on', `---\nslips: x.wrong\n---\n${text}${step('x', '1', '1', 'slips:', '  wrong:', '    label: wrong', '    formula: "2"')}`, 'record-slips-on'],
    ['a trial value stands', text.replace('value: "3000 rev/min"', 'value: "3000 rev/min"\ntrial: 2000 rev/min'), 'record-trial-values'],
  ])('is not begun while %s, and says why', async (_what, sheet, code) => {
    const { bench, hear, source } = await lineOf(sheet, 'test');
    await hear('Start the test', 'click');
    expect([bench.ui('test').refused?.code, source()]).toEqual([code, expect.not.stringContaining('started')]);
    expect(bench.said).toHaveLength(1);
    bench.dispose();
  });
});

test('a part on demand opens at its heading and closes there', async () => {
  const { bench, hear } = await lineOf(fenced('aside', 'id: more', 'label: Why so') + step('x', '1', '1') + fenced('end', 'id: done'), 'more');
  expect([bench.desk.folds.isOpen('more'), bench.desk.folds.isAway('x')]).toEqual([false, true]);
  await hear('Why so', 'click');
  expect([bench.desk.folds.isOpen('more'), bench.desk.folds.isAway('x')]).toEqual([true, false]);
  await hear('Why so', 'click');
  expect(bench.desk.folds.isAway('x')).toBe(true);
  bench.dispose();
});
