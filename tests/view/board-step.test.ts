/** Marking a picture by pointer and keys: every gesture, with an undo, another picture or another mark in between. */
import { describe, expect, test } from 'vitest';
import type { MarkPoint } from '../../src/sheet/index.ts';
import { boardStep, EMPTY_BOARD, pointsSeen, type BoardEffect, type BoardEvent, type BoardSheet, type BoardState } from '../../src/view/photo/board-step.ts';

const point = (x: number, y: number): MarkPoint => ({ x, y });
const press = (x: number, y: number, pointerId = 1): BoardEvent => ({ on: 'press', pointerId, from: point(x, y), reach: 10 });
const drag = (x: number, y: number, pointerId = 1): BoardEvent => ({ on: 'drag', pointerId, to: point(x, y) });
const lift = (pointerId = 1): BoardEvent => ({ on: 'lift', pointerId });
const key = (name: string, isFar = false): BoardEvent => ({ on: 'key', key: name, isFar });

/** A picture of 200 by 100 dots; what is written down is in the sheet at once, and shown. */
function board(first: Partial<BoardSheet> = {}) {
  let sheet: BoardSheet = { picture: 'a', mode: 'final', points: [], width: 200, height: 100, ...first };
  let state: BoardState = boardStep(EMPTY_BOARD, { on: 'shown' }, sheet).state;
  const effects: BoardEffect[] = [];
  let isTaken: true | undefined;
  const act = (...events: readonly BoardEvent[]): readonly string[] => {
    effects.length = 0;
    for (const event of events) {
      const step = boardStep(state, event, sheet);
      ({ state, isTaken } = step);
      effects.push(...step.effects);
      for (const effect of step.effects) if ('points' in effect) show({ points: effect.points });
    }
    return effects.map((effect) => (effect.do === 'put' ? effect.said : effect.do === 'announce' ? effect.sentence : effect.do));
  };
  const show = (next: Partial<BoardSheet>): void => {
    sheet = { ...sheet, ...next };
    ({ state } = boardStep(state, { on: 'shown' }, sheet));
  };
  return { act, show, now: () => state, points: () => sheet.points, seen: () => pointsSeen(state, sheet.points), isTaken: () => isTaken };
}

const THREE = [point(20, 20), point(100, 50), point(180, 80)];

describe('with the pointer', () => {
  test('a press sets a point where it is lifted, seen all the while and written down once', () => {
    const one = board();
    expect(one.act(press(30, 40), drag(35, 45))).toEqual([]);
    expect([one.points(), one.seen()]).toEqual([[], { points: [point(35, 45)], taken: 0 }]);
    expect([one.act(lift()), one.points(), one.now().drag]).toEqual([['point of the final zone 1 set, 35 to the right, 45 down.'], [point(35, 45)], undefined]);
  });

  test('one that is near is taken hold of where it was pressed, and does not jump', () => {
    const one = board({ points: THREE });
    expect(one.act(press(104, 53), drag(114, 63), lift())).toEqual(['point of the final zone 2 moved, 110 to the right, 60 down.']);
    expect(one.points()).toEqual([THREE[0], point(110, 60), THREE[2]]);
  });

  test('of many points one is taken hold of only from near', () => {
    const many = Array.from({ length: 25 }, (_, i) => point(i * 8, 10));
    const one = board({ points: many });
    one.act(press(0, 15), lift());
    expect(one.points().length).toBe(26);
  });

  test('none leaves the picture', () => {
    const one = board();
    one.act(press(190, 90), drag(400, -50), lift());
    expect(one.points()).toEqual([point(200, 0)]);
  });

  test('a drag that is broken off changes nothing, and a second pointer neither ends nor begins one', () => {
    const one = board({ points: THREE });
    expect(one.act(press(20, 20), press(150, 10, 2), drag(90, 90, 2), lift(2), { on: 'cancel', pointerId: 2 })).toEqual([]);
    expect(one.seen().taken).toBe(0);
    expect([one.act({ on: 'cancel', pointerId: 1 }), one.act(drag(1, 1), lift()), one.points()]).toEqual([[], [], THREE]);
  });

  test('an undo, another kind of mark or another picture ends the drag: it would write over what is there now', () => {
    const one = board({ points: THREE });
    one.act(press(20, 20), drag(40, 40));
    one.show({ points: [...THREE] });
    expect(one.now().drag).not.toBe(undefined);
    one.show({ points: THREE.slice(0, 2) });
    expect([one.act(lift()), one.points().length]).toEqual([[], 2]);
    one.act(press(20, 20));
    one.show({ mode: 'origins', points: [] });
    expect([one.act(lift()), one.points()]).toEqual([[], []]);
    one.act(press(20, 20));
    one.show({ picture: 'b' });
    expect(one.act(lift())).toEqual([]);
  });

  test('nothing is marked while nothing is to be', () => {
    const one = board({ mode: undefined });
    expect([one.act(press(1, 1)), one.act(key('Enter')), one.isTaken()]).toEqual([[], [], undefined]);
  });
});

describe('with a finger', () => {
  const tap = (x: number, y: number): BoardEvent => ({ on: 'tap', at: point(x, y), reach: 6 });

  test('a tap sets a point, as one step to undo', () => {
    const one = board({ points: THREE });
    expect(one.act(tap(150, 30))).toEqual(['point of the final zone 4 set, 150 to the right, 30 down.', 'settle']);
    expect(one.points()).toEqual([...THREE, point(150, 30)]);
  });

  test('one on a point takes hold of it, a second one lets it go, and the next one sets a point again', () => {
    const one = board({ points: THREE });
    expect(one.act(tap(102, 52))).toEqual(['point of the final zone 2 of 3 taken, 100 to the right, 50 down. Arrows move it.']);
    expect(one.now().taken).toBe(1);
    one.act(tap(98, 50));
    expect([one.now().taken, one.points()]).toEqual([undefined, THREE]);
    one.act(tap(98, 50), tap(60, 10));
    expect([one.now().taken, one.points().length]).toEqual([undefined, 4]);
  });

  test('none sets a third end of the scale, nor anything where nothing is marked', () => {
    const scale = board({ mode: 'scale', points: THREE.slice(0, 2) });
    expect([scale.act(tap(150, 90))[0], scale.points().length]).toEqual(['Both ends of the scale are set. Move one, or take one out first.', 2]);
    const off = board({ mode: undefined });
    expect([off.act(tap(10, 10)), off.points()]).toEqual([[], []]);
  });
});

describe('with keys', () => {
  test('a cross begins in the middle, says where it is, and Enter sets a point there', () => {
    const one = board();
    expect(one.act(key('ArrowRight'), key('ArrowDown', true))).toEqual(['102 to the right, 50 down', '102 to the right, 70 down']);
    expect([one.act(key('Enter')), one.isTaken()]).toEqual([['point of the final zone 1 set, 102 to the right, 70 down.', 'settle'], true]);
    one.act(key('ArrowUp', true), key(' '));
    expect(one.points()).toEqual([point(102, 70), point(102, 50)]);
  });

  test('points are taken in turn, moved as one step, and let go', () => {
    const one = board({ points: THREE });
    expect(one.act(key('PageUp'))).toEqual(['point of the final zone 3 of 3 taken, 180 to the right, 80 down. Arrows move it.']);
    expect(one.act(key('PageDown'), key('ArrowLeft'), key('ArrowLeft'))).toEqual([expect.stringContaining('1 of 3 taken, 20'), 'move', 'move']);
    expect([one.points()[0], one.act(key('Enter')), one.now().taken]).toEqual([point(16, 20), ['settle'], undefined]);
    one.act(key('PageDown'));
    expect([one.act(key('Escape')), one.isTaken(), one.act(key('Escape')), one.isTaken()]).toEqual([['settle'], true, [], undefined]);
    one.act(key('PageDown'));
    expect([one.act({ on: 'leave' }), one.now().taken]).toEqual([['settle'], undefined]);
  });

  test('Delete takes out the one that is taken, or else the last; where there is none it is no key of the board', () => {
    const one = board({ points: THREE });
    one.act(key('PageDown'));
    expect(one.act(key('Delete'), key('Backspace'))).toEqual(['point of the final zone 1 taken out.', 'point of the final zone 2 taken out.']);
    expect(one.points()).toEqual([THREE[1]]);
    one.act(key('Delete'), key('Delete'));
    expect([one.points(), one.isTaken(), one.act(key('PageDown')), one.act(key('a')), one.isTaken()]).toEqual([[], undefined, [], [], undefined]);
  });

  test('a scale has two ends, by keys and by pointer', () => {
    const one = board({ mode: 'scale', points: THREE.slice(0, 2) });
    const full = 'Both ends of the scale are set. Move one, or take one out first.';
    expect([one.act(key('Enter')), one.act(press(60, 90)), one.now().drag]).toEqual([[full, 'settle'], [full], undefined]);
    one.act(press(20, 20), drag(22, 20), lift());
    expect(one.points()[0]).toEqual(point(22, 20));
  });

  test('after an undo the arrows go on from where the point is again', () => {
    const one = board({ points: THREE });
    one.act(key('PageDown'), key('ArrowRight', true), key('ArrowRight', true));
    expect(one.points()[0]).toEqual(point(60, 20));
    one.show({ points: THREE });
    one.act(key('ArrowRight'));
    expect(one.points()[0]).toEqual(point(22, 20));
  });

  test('a point that an undo takes away is taken no more', () => {
    const one = board({ points: THREE });
    one.act(key('PageUp'));
    one.show({ points: THREE.slice(0, 2) });
    expect(one.act(key('Delete'))).toEqual(['point of the final zone 2 taken out.']);
  });

  test('a picture that is turned under a taken point lets it go, and the cross begins in its middle', () => {
    const one = board({ points: THREE });
    one.act(key('PageDown'));
    one.show({ picture: 'turned', width: 100, height: 200 });
    expect([one.now().taken, one.act(key('ArrowRight')), one.points()]).toEqual([undefined, ['52 to the right, 100 down'], THREE]);
    one.act(key('PageDown'));
    one.show({ mode: 'origins', points: [point(5, 5)] });
    expect(one.now().taken).toBe(undefined);
  });
});
