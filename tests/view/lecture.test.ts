/** The lecture view without a page: stations, what is brought to light at each, the pause for a guess. */
import { describe, expect, test } from 'vitest';
import { createSession } from '../../src/view/session.ts';
import { lectureMarks, lecturePredictions, parseSheet, withLectureMark } from '../../src/sheet/index.ts';
import { headingsOf, presentCheck, presentFigure, presentStep, isHidden, liveText, type WholeContext } from '../../src/report/index.ts';
import { lectureActionOf, whenHeld } from '../../src/view/lecture/keys.ts';
import { largestFitting, sizesFor } from '../../src/view/lecture/fit-sizes.ts';
import { lectureOrder, TITLE } from '../../src/view/lecture/order.ts';
import { ahead, BEGINNING, behind, ending, placeIn, placeOf, revealed, type Place } from '../../src/view/lecture/place.ts';
import { edited, guessed, guessBy, NO_PAUSE, outcomeOf, outcomeWords, show, switchPause } from '../../src/view/lecture/pause.ts';
import { readRemembered, rememberedText } from '../../src/view/lecture/memory.ts';
import { cellOf, contextOf, fenced, given, step } from '../report/sheet-at.ts';
import { neutral, shipped, SHIPPED } from '../shipped.ts';

const SHEET = [
  '---\ntitle: A bar\n---\nA few words before.\n',
  '## Lengths\n', given('a', '2 mm', 'mm'), given('b', '3 mm', 'mm'), given('c', '4 mm', 'mm'), given('d', '5 mm', 'mm'),
  fenced('check', 'id: long', 'label: Long enough?', 'condition: a > 1*unit(mm)', 'holds: It is {=S}.', 'otherwise: It is not.'),
  '## Area\n', step('S', 'a*b', 'mm^2', 'label: Area'), step('k', '2', '1'), step('l_1', 'a', 'mm'),
].join('\n');

/** Every place of the lecture, forwards. */
function walk(context: WholeContext): Place[] {
  const order = lectureOrder(context);
  const places: Place[] = [placeIn(order, BEGINNING)];
  for (;;) {
    const last = places.at(-1) ?? BEGINNING;
    const next = ahead(order, last);
    if (next === last) return places;
    places.push(next);
  }
}

describe('the order of the lecture', () => {
  test('sections are chapters, givens stand together three by three, a step is told in four parts', async () => {
    const context = await contextOf(SHEET);
    const { stations, chapters } = lectureOrder(context);
    expect(chapters).toEqual([{ number: '', name: 'A bar' }, { number: '1', name: 'Lengths' }, { number: '2', name: 'Area' }]);
    expect(stations.map(({ blocks, chapter }) => [blocks.length, chapter])).toEqual([[0, 0], [1, 1], [3, 1], [1, 1], [1, 1], [1, 2], [1, 2], [1, 2], [1, 2]]);
    const told = walk(context).map(({ station, reveal }) => `${station} ${reveal}`);
    expect(told.filter((one) => one.startsWith('S '))).toEqual(['S words', 'S symbols', 'S numbers', 'S result']);
    // One number has neither a line of symbols nor one of numbers.
    expect(told.filter((one) => one.startsWith('k '))).toEqual(['k words', 'k result']);
    expect(told.filter((one) => one.startsWith('long '))).toEqual(['long words', 'long result']);
    expect(told.filter((one) => one.startsWith('a '))).toEqual(['a words']);
  });

  test('backwards it is the same way, and each step back hides again', async () => {
    const context = await contextOf(SHEET);
    const order = lectureOrder(context);
    const forwards = walk(context);
    const backwards: Place[] = [ending(order)];
    for (let next = behind(order, ending(order)); next !== backwards.at(-1); next = behind(order, next)) backwards.push(next);
    expect(backwards.toReversed()).toEqual(forwards);
    expect(revealed({ ...BEGINNING, reveal: 'numbers' })).toEqual(['words', 'symbols', 'numbers']);
  });

  test('an empty sheet has its title, one with words only has these', async () => {
    expect(walk(await contextOf('')).map(({ station }) => station)).toEqual([TITLE]);
    expect(walk(await contextOf('Only a few words.\n')).map(({ reveal }) => reveal)).toEqual(['words', 'words']);
  });

  test('a sheet with mistakes is told to its end', async () => {
    const context = await contextOf([step('x', 'y*', 'mm'), step('z', 'x + nothing', 'mm'), fenced('step', 'symbol: ['), fenced('figure', 'drawing: none'), fenced('no-such', 'a: 1')].join('\n'));
    const places = walk(context);
    expect(new Set(places.map(({ index }) => index)).size).toBe(6);
    expect(places.filter(({ station }) => station === 'x').map(({ reveal }) => reveal)).toEqual(['words', 'symbols', 'result']);
  });

  test('a remark without words is passed over, and a place whose station is gone falls to the one there now', async () => {
    const order = lectureOrder(await contextOf([fenced('remark', 'heading: Aim', 'text: ""'), given('a', '1 mm', 'mm')].join('\n')));
    expect(order.stations.map(({ id }) => id)).toEqual([TITLE, 'a']);
    expect(placeIn(order, { station: 'gone', index: 7, reveal: 'result' })).toEqual({ station: 'a', index: 1, reveal: 'words' });
    expect(placeOf(order, 'gone')).toBeUndefined();
  });

  test('the head of the sheet leaves out cells and sections, and tells others with one press', async () => {
    const marked = SHEET.replace('title: A bar\n', 'title: A bar\nlecture: Lengths left out; S at once; k left out\n').replace('label: Area', 'label: Area\nasked: true');
    const context = await contextOf(marked);
    const places = walk(context).map(({ station, reveal }) => `${station} ${reveal}`);
    // What the class is to work out has its blank first.
    expect(places.filter((place) => place.startsWith('S '))).toEqual(['S numbers', 'S result']);
    expect(places.filter((place) => /^(a|b|c|d|long|k) /u.test(place))).toEqual([]);
    expect(lectureOrder(context).chapters.map(({ name }) => name)).toEqual(['A bar', 'Area']);
    const once = await contextOf(SHEET.replace('title: A bar\n', 'title: A bar\nlecture: S at once; long at once\n'));
    expect(walk(once).filter(({ station }) => station === 'S' || station === 'long').map(({ station, reveal }) => `${station} ${reveal}`)).toEqual(['long result', 'S result']);
  });

  test('a mark is set, changed and taken away, and the others stay', async () => {
    const { document } = await contextOf(SHEET.replace('title: A bar\n', 'title: A bar\nlecture: Lengths left out; S at once\n'));
    expect(withLectureMark(document, 'S', 'left out')).toBe('Lengths left out; S left out');
    expect(withLectureMark(document, 'k', 'at once')).toBe('Lengths left out; S at once; k at once');
    expect(withLectureMark((await contextOf(SHEET)).document, 'k', undefined)).toBeUndefined();
    const predicts = (await contextOf(SHEET.replace('title: A bar\n', 'title: A bar\nlecture: S at once; S predicts a −1 %\n'))).document;
    expect(lecturePredictions(predicts)).toEqual(new Map([['S', { symbol: 'a', share: -0.01 }]]));
    expect(withLectureMark(predicts, 'S', 'left out')).toBe('S predicts a −1 %; S left out');
  });

  test.each([...SHIPPED])('what the head of %s marks is there', async (name) => {
    const { document } = await contextOf(neutral(name));
    const there = new Set(document.blocks.flatMap((block) => (block.kind === 'cell' ? [block.id] : headingsOf(block.source).map(({ words }) => words))));
    expect([...lectureMarks(document).keys()].filter((one) => !there.has(one))).toEqual([]);
  });

  test('the drawing beside is the nearest above; before the first, the first', async () => {
    const text = shipped('rotating-bending').replace(/^lecture: .*\n/mu, '');
    const { stations } = lectureOrder(await contextOf(text));
    const beside = (cell: string) => stations.find(({ blocks }) => blocks.includes(cell))?.drawing;
    expect(['e', 'R_A', 'sigma_a'].map(beside)).toEqual(['free-body', 'free-body', 'shear-moment']);
  });

  test('a station is found by any of its givens', async () => {
    const order = lectureOrder(await contextOf(SHEET));
    expect(placeOf(order, 'c')?.station).toBe('a');
  });
});

describe('the pause for a guess', () => {
  async function changed(): Promise<{ before: WholeContext; after: WholeContext }> {
    return { before: await contextOf(SHEET), after: await contextOf(SHEET.replace('2 mm', '3 mm')) };
  }

  test('every result is held back, what is an input is not, and one that is shown tells only itself', async () => {
    const { before, after } = await changed();
    let pause = edited(switchPause(NO_PAUSE), before.states);
    const held = { ...after, ...guessBy(pause) };
    expect(['S', 'k', 'long', 'a', 'l_1'].map((id) => isHidden(id, held))).toEqual([true, true, true, false, false]);
    const presented = presentStep(cellOf(held, 'step', 'S'), held);
    expect([presented.hidden, presented.withheld]).toEqual([true, 'held back for a guess']);
    expect(presentCheck(cellOf(held, 'check', 'long'), held)).toMatchObject({ holds: undefined, message: '' });
    expect(liveText('{=S}', held)).toBe('⟨S: held back for a guess⟩');
    pause = show(guessed(pause, 'S', 'up'), ['S']);
    const shown = { ...after, ...guessBy(pause) };
    expect(['S', 'k', 'long'].map((id) => isHidden(id, shown))).toEqual([false, true, true]);
    if (pause.round === undefined) throw new Error('the round is over');
    const outcome = outcomeOf(pause.round, 'S', 'S', shown.states);
    expect(outcome.isRight).toBe(true);
    // 3·3 over 2·3
    expect(outcomeWords(outcome)).toBe('went up by 50 %');
    expect(outcomeWords(outcomeOf(pause.round, 'k', 'k', shown.states))).toBe('stays as it was');
  });

  test('a guess that was wrong, and one that says it stays', async () => {
    const { before, after } = await changed();
    const pause = guessed(guessed(edited(switchPause(NO_PAUSE), before.states), 'S', 'down'), 'k', 'stays');
    if (pause.round === undefined) throw new Error('no round');
    const { round } = pause;
    expect(['S', 'k'].map((id) => outcomeOf(round, id, id, after.states).isRight)).toEqual([false, true]);
  });

  test('a value that is typed sign by sign is one change; after something was shown the next one begins anew', async () => {
    const { before, after } = await changed();
    const first = edited(switchPause(NO_PAUSE), before.states);
    expect(edited(first, after.states)).toBe(first);
    const again = edited(show(first, ['S']), after.states);
    expect(again.round?.before).toBe(after.states);
    expect(again.round?.shown.size).toBe(0);
  });

  test('without the pause nothing is held back, and switched off it shows all', async () => {
    const { before } = await changed();
    expect(edited(NO_PAUSE, before.states)).toBe(NO_PAUSE);
    expect(guessBy(switchPause(edited(switchPause(NO_PAUSE), before.states)))).toEqual({});
  });

  test('a chart is held back, a drawing stays and withholds its figures', async () => {
    const text = shipped('rotating-bending');
    const context = await contextOf(text);
    const held = { ...context, guess: { shown: new Set<string>() } };
    const drawn = presentFigure(cellOf(held, 'figure', 'free-body'), held).draw?.({ width: 640, idPrefix: 'x' }).svg ?? '';
    expect(drawn).toContain('401.63');
    expect(drawn).not.toContain('153.77');
    const charts = context.document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'figure' && block.cell.drawing === 's-n' ? [block.cell] : []));
    expect(charts.length).toBeGreaterThan(0);
    for (const chart of charts) expect(presentFigure(chart, held)).toMatchObject({ instead: 'Held back for a guess.' });
  });

  test('what a lecture has told of the reader’s own working is there with all that rests on it, in drawings and prose too', async () => {
    const context = await contextOf(`${SHEET.replace('label: Area', 'label: Area\nasked: true')}\n${step('V', 'S*a', 'mm^3')}`);
    expect(['S', 'V'].map((id) => isHidden(id, context))).toEqual([true, true]);
    const told = { ...context, told: new Set(['S']) };
    expect(['S', 'V'].map((id) => isHidden(id, told))).toEqual([false, false]);
    expect([liveText('{=S}', context), liveText('{=S}', told)]).toEqual(['⟨S: after your own working⟩', expect.stringContaining('6')]);
    // And what was told is hidden again.
    expect(isHidden('V', { ...context, told: new Set<string>() })).toBe(true);
  });

  test('what is asked of the reader stays hidden when the class has seen the rest', async () => {
    const context = await contextOf(SHEET.replace('label: Area', 'label: Area\nasked: true'));
    expect(isHidden('S', { ...context, guess: { shown: new Set(['S']) } })).toBe(true);
  });
});

describe('keys, sizes and the place that is kept', () => {
  const press = (key: string, more: object = {}) => ({ key, ctrlKey: false, metaKey: false, altKey: false, ...more });
  test('what remotes send', () => {
    expect(['PageDown', 'PageUp', '.', 'b', 'Escape'].map((key) => lectureActionOf(press(key), false))).toEqual(['next', 'back', 'blank', 'blank', 'leave']);
  });
  test('what a remote sends to begin opens the list and does not load the page anew, wherever the focus is', () => {
    expect([false, true].map((isTyping) => lectureActionOf(press('F5'), isTyping))).toEqual(['overview', 'overview']);
  });
  test('held down, a key goes from section to section; other keys do nothing more', () => {
    expect(['PageDown', 'PageUp', 'ArrowRight', '.', 'l', 'F5'].map((key) => whenHeld(lectureActionOf(press(key), false) ?? 'leave'))).toEqual(
      ['next section', 'section before', 'next section', undefined, undefined, undefined]);
  });
  test('in a blank only the keys of a remote count', () => {
    expect(['PageDown', '.', 'b', 'ArrowRight', ' '].map((key) => lectureActionOf(press(key), true))).toEqual(['next', undefined, undefined, undefined, undefined]);
    expect(lectureActionOf(press('b', { ctrlKey: true }), false)).toBeUndefined();
  });
  test('the largest letters that fit, from large to small', () => {
    const sizes = sizesFor(1280, 720);
    expect(sizes).toEqual([...sizes].toSorted((a, b) => b - a));
    for (const limit of [100, ...sizes, 1]) {
      for (const likely of [undefined, 99, ...sizes]) {
        const asked: number[] = [];
        const found = largestFitting(sizes, (size) => (asked.push(size), size <= limit), likely);
        expect(found).toBe(sizes.find((size) => size <= limit) ?? sizes.at(-1));
        expect(new Set(asked).size).toBe(asked.length);
        // What fitted last is told by itself and its neighbour.
        expect(asked.length).toBeLessThanOrEqual(found === likely ? 2 : 8);
      }
    }
  });
  test('a place comes back as it was kept, and nothing comes of what is none', () => {
    const kept = { isOpen: true, place: { station: 'a b\n', index: 3, reveal: 'numbers' } } as const;
    expect(readRemembered(rememberedText(kept))).toEqual(kept);
    expect(readRemembered(rememberedText({ isOpen: false, place: BEGINNING }))).toEqual({ isOpen: false, place: BEGINNING });
    for (const text of [undefined, '', 'open nothing 1 a', '<script>', 'open words -1 a']) expect(readRemembered(text)).toBeUndefined();
  });
});

test('an edit leaves the route through the sheet as it is while its blocks stay', async () => {
  const session = createSession(parseSheet(SHEET), { now: () => new Date(0) });
  const context = (): WholeContext => ({ document: session.document(), states: session.states(), system: 'SI' });
  const before = lectureOrder(context());
  session.apply({ do: 'set key', cellId: 'a', key: 'value', value: '9 mm' });
  expect(lectureOrder(context()).stations).toEqual(before.stations);
  session.dispose();
});
