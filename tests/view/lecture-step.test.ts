/** The lecture as it goes from one state to the next: every gesture, at the first and the last station, with and without results held back. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { WholeContext } from '../../src/report/index.ts';
import { awaitsGuess, isToBeWorked, presentPrediction } from '../../src/report/index.ts';
import { cellsOf } from '../../src/sheet/index.ts';
import { castOf, CLOSED, eventOf, handAsked, lectureStep, stationOf, type LectureEffect, type LectureEvent, type LectureSheet, type LectureState } from '../../src/view/lecture/lecture-step.ts';
import { lectureOrder, TITLE } from '../../src/view/lecture/order.ts';
import { guessBy, switchPause, NO_PAUSE } from '../../src/view/lecture/pause.ts';
import { toldOf } from '../../src/view/lecture/told.ts';
import { placeOf } from '../../src/view/lecture/place.ts';
import { contextOf, given, fenced, step as stepCell } from '../report/sheet-at.ts';

const SHEET = [
  '---\ntitle: A bar\n---\n', '## Lengths\n', given('a', '2 mm', 'mm', 'label: Length a'),
  '## Area\n', stepCell('S', 'a*a', 'mm^2', 'label: Area'), stepCell('V', 'S*a', 'mm^3', 'label: Volume'),
  fenced('remark', 'id: end', 'heading: What we saw', 'text: All of it.'),
].join('\n');

let context: WholeContext;
let before: WholeContext;
beforeAll(async () => {
  context = await contextOf(SHEET);
  before = await contextOf(SHEET.replace('2 mm', '3 mm'));
});

const stepsIn = ({ document }: WholeContext) => cellsOf(document, 'step');
const sheetOf = (now: WholeContext): LectureSheet => ({
  order: lectureOrder(now),
  blocks: now.document.blocks.map(({ id }) => id),
  isStep: (id) => now.document.blocks.some((block) => block.id === id && block.kind === 'cell' && block.cell.kind === 'step'),
  awaitsGuess: (id) => awaitsGuess(id, now),
  isToBeWorked: (id) => stepsIn(now).some((step) => step.id === id && isToBeWorked(step, now)),
});

/** A lecture that is told; what is held back follows its state as in the page. */
function lecture(first: Partial<LectureState> = {}) {
  let state: LectureState = { ...CLOSED, isOpen: true, ...first };
  const effects: LectureEffect[] = [];
  const sheet = (): LectureSheet => sheetOf({ ...context, ...guessBy(state.pause) });
  const act = (...events: readonly LectureEvent[]): readonly string[] => {
    effects.length = 0;
    for (const event of events) {
      const after = lectureStep(state, event, sheet());
      ({ state } = lectureStep(after.state, { on: 'follow' }, sheet()));
      effects.push(...after.effects);
    }
    return effects.map((effect) => (effect.do === 'announce' ? effect.sentence : effect.do === 'show' ? `show ${effect.blockId}` : effect.do));
  };
  const at = (id: string): Partial<LectureState> => ({ place: placeOf(sheet().order, id) ?? state.place });
  return { act, at, now: () => state, where: () => `${state.place.station} ${state.place.reveal}`, sheet };
}
const at = (id: string, more: Partial<LectureState> = {}) => lecture({ ...lecture().at(id), ...more });
/** Predict first is on and an edit has been made. */
const holding = (id: string) => {
  const told = at(id, { pause: switchPause(NO_PAUSE) });
  told.act({ on: 'edited', before: before.states });
  return told;
};

describe('opening and leaving', () => {
  test('opened once; left, the place stays and the line is shown on the sheet', () => {
    const told = lecture({ isOpen: false });
    expect(told.act({ on: 'enter', fills: false })).toEqual(['open', 'stage']);
    expect(told.act({ on: 'enter', fills: true })).toEqual([]);
    told.act({ on: 'go to', blockId: 'V' });
    expect(told.act({ on: 'leave' })).toEqual(['close', 'remember', 'show V']);
    expect([told.now().isOpen, told.where()]).toEqual([false, 'V words']);
    expect(told.act({ on: 'leave' })).toEqual([]);
  });

  test('begun with a remote it fills the screen', () => {
    expect(lecture({ isOpen: false }).act({ on: 'enter', fills: true })).toEqual(['open', 'stage', 'fill the screen']);
  });

  test('left while results are held back, nothing is held back any more, and a blank screen comes back', () => {
    const told = holding('S');
    told.act({ on: 'blank' });
    expect(told.act({ on: 'leave' })).toEqual(['close', 'remember', 'refresh', 'show S']);
    expect(told.now()).toMatchObject({ pause: NO_PAUSE, isDark: false });
  });
});

describe('going on and back', () => {
  test('at the beginning back stays, at the end on stays, and neither says so anew', () => {
    const told = lecture();
    expect([told.act({ on: 'back' }), told.where()]).toEqual([['settle', 'stage'], `${TITLE} words`]);
    const last = told.act({ on: 'last' }).at(-1);
    const { length } = told.sheet().order.stations;
    expect([last, told.where()]).toEqual([`${length} of ${length}: What we saw`, 'end words']);
    expect([told.act({ on: 'next' }), told.where()]).toEqual([['settle', 'stage'], 'end words']);
    told.act({ on: 'first' });
    expect(told.where()).toBe(`${TITLE} words`);
  });

  test('from section to section: on to the beginning of the next, back to that of this one and then of the one before', () => {
    const told = at('V');
    const ways = (['section before', 'section before', 'section before', 'next section', 'next section', 'next section', 'next section'] as const).map((on) => {
      told.act({ on });
      return told.where();
    });
    const [lengths, area] = told.sheet().order.stations.filter(({ chapter }, i, all) => i > 0 && chapter !== all[i - 1]?.chapter).map(({ id }) => `${id} words`);
    expect(ways).toEqual([area, lengths, `${TITLE} words`, lengths, area, area, area]);
  });

  test('in the list the two keys of a remote go from section to section, and the key that opened it ends it there', () => {
    const told = lecture();
    told.act({ on: 'view', view: 'overview' }, { on: 'next' }, { on: 'next' }, { on: 'back' }, { on: 'next' }, { on: 'view', view: 'overview' });
    expect([told.now().view, told.where()]).toEqual(['steps', `${told.sheet().order.stations.find(({ chapter }) => chapter === 2)?.id} words`]);
    told.act({ on: 'view', view: 'overview' });
    expect([told.act({ on: 'leave' }), told.now().isOpen, told.now().view]).toEqual([['stage'], true, 'steps']);
  });

  test('a step is told in four parts, and only a new station is announced', () => {
    const told = at('S');
    expect(told.act({ on: 'next' }, { on: 'next' }, { on: 'next' })).not.toContain('announce');
    expect(told.where()).toBe('S result');
    expect(told.act({ on: 'next' }).at(-1)).toMatch(/^\d of \d: Volume$/);
    told.act({ on: 'back' });
    expect(told.where()).toBe('S result');
  });

  test('from the overview a line begins, from the chain it is there with its result, and no line is no way', () => {
    const told = lecture({ view: 'overview' });
    told.act({ on: 'go to', blockId: 'S' });
    expect([told.now().view, told.where()]).toEqual(['steps', 'S words']);
    told.act({ on: 'view', view: 'chain' }, { on: 'go to result', blockId: 'V' });
    expect([told.now().view, told.where()]).toEqual(['steps', 'V result']);
    told.act({ on: 'go to result', blockId: 'nowhere' }, { on: 'go to', blockId: 'nowhere' });
    expect(told.where()).toBe('V result');
  });

  test('a station that an edit takes away gives its place to the next, where the lecture stays when it is back', async () => {
    const told = at('V');
    const without = sheetOf(await contextOf(SHEET.replace(/```step\nsymbol: V[\s\S]*?```\n/, '')));
    const after = lectureStep(told.now(), { on: 'follow' }, without).state;
    expect(after.place).toEqual({ station: 'end', index: told.now().place.index, reveal: 'words' });
    expect(stationOf(lectureStep(after, { on: 'follow' }, told.sheet()).state, told.sheet()).id).toBe('end');
    const empty = sheetOf(await contextOf(''));
    expect(stationOf(lectureStep(told.now(), { on: 'follow' }, empty).state, empty).id).toBe(TITLE);
  });
});

describe('what is looked at', () => {
  test('the chain and the overview are left by the same key', () => {
    const told = lecture();
    const views = (['chain', 'overview', 'overview', 'chain', 'chain'] as const).map((view) => {
      told.act({ on: 'view', view });
      return told.now().view;
    });
    expect(views).toEqual(['chain', 'overview', 'steps', 'chain', 'steps']);
  });

  test('the drawing above stands beside, another if it is chosen, none if that is', () => {
    const station = { id: 'S', blocks: ['S'], name: '', chapter: 0, hasRoomBeside: true, drawing: 'bar' };
    const cast = (state: Partial<LectureState>, one = station, there = (id: string): boolean => id !== '') => Object.fromEntries(castOf({ ...CLOSED, ...state }, one, there));
    expect(cast({})).toEqual({ S: 'stage', bar: 'drawing' });
    expect(cast({ drawing: 'other', input: 'a' })).toEqual({ S: 'stage', other: 'drawing', a: 'input' });
    expect(cast({ drawing: '' })).toEqual({ S: 'stage' });
    expect(cast({ drawing: 'S' })).toEqual({ S: 'stage' });
    expect(cast({ drawing: 'gone' }, station, (id) => id === 'S')).toEqual({ S: 'stage' });
    expect(cast({ input: 'a' }, { ...station, hasRoomBeside: false })).toEqual({ S: 'stage' });
    expect([cast({ view: 'chain', input: 'a' }), cast({ view: 'overview', input: 'a' })]).toEqual([{ bar: 'drawing', a: 'input' }, {}]);
  });

  test('what is chosen and unfolded is put on the wall', () => {
    const told = lecture();
    expect(told.act({ on: 'drawing', cellId: 'x' }, { on: 'input', cellId: 'a' }, { on: 'unfold' })).toEqual(['stage', 'stage', 'stage']);
    expect(told.now()).toMatchObject({ drawing: 'x', input: 'a', isUnfolded: true });
  });

  test('a blank screen comes back by any key, and a bright one is not brought back', () => {
    const told = lecture();
    expect([told.act({ on: 'lighten' }), told.act({ on: 'blank' }), told.now().isDark]).toEqual([[], ['darken'], true]);
    expect([told.act({ on: 'lighten' }), told.act({ on: 'blank' }), told.act({ on: 'blank' })]).toEqual([['lighten'], ['darken'], ['lighten']]);
    expect(told.act({ on: 'full screen' })).toEqual(['fill the screen']);
  });
});

describe('predict first', () => {
  test('a guess is noted where a result is held back, and nowhere else', () => {
    expect(at('S').act({ on: 'guess', guess: 'up' })).toEqual([]);
    expect(holding('a').act({ on: 'guess', guess: 'up' })).toEqual([]);
    const told = holding('S');
    expect(told.act({ on: 'guess', guess: 'up' }, { on: 'guess', guess: 'down' })).toEqual(['refresh', 'The guess: up.', 'refresh', 'The guess: down.']);
    expect([...(told.now().pause.round?.guesses ?? [])]).toEqual([['S', 'down']]);
  });

  test('on from all that a line shows first shows the result that is held back, then goes on', () => {
    const told = holding('S');
    told.act({ on: 'next' }, { on: 'next' });
    expect(told.where()).toBe('S result');
    // Hands are asked for one way after the other; the third key of a remote says where most of them were.
    const hands = [1, 2, 3].map(() => [told.act({ on: 'next' }), told.now().hands]);
    expect(hands).toEqual([[['stage'], 'up'], [['stage'], 'down'], [['stage'], 'stays']]);
    expect([told.act({ on: 'back' }), told.now().hands]).toEqual([['stage'], 'down']);
    expect(told.act({ on: 'blank' })).toEqual(['refresh', 'The guess: down.']);
    expect(told.now().isDark).toBe(false);
    expect(told.act({ on: 'next' })).toEqual(['refresh', 'stage', 'tell outcome']);
    expect(told.now().hands).toBeUndefined();
    expect([told.sheet().awaitsGuess('S'), told.sheet().awaitsGuess('V')]).toEqual([false, true]);
    told.act({ on: 'next' });
    expect(told.where()).toBe('V words');
  });

  test('what the head of the sheet has the class predict is asked by hands after the result, and how it goes told last', async () => {
    const own = await contextOf(SHEET.replace('title: A bar\n', 'title: A bar\nlecture: V predicts a -10 %\n'));
    const sheet = sheetOf(own);
    let state: LectureState = { ...CLOSED, isOpen: true, place: placeOf(sheet.order, 'V') ?? CLOSED.place };
    const go = (...events: readonly LectureEvent[]): string => {
      for (const event of events) ({ state } = lectureStep(state, event, sheet));
      return `${state.place.station} ${state.place.reveal} ${handAsked(state) ?? ''} ${state.said ?? ''}`;
    };
    const on = { on: 'next' } as const;
    expect(go(on, on, on)).toBe('V result  ');
    expect(go(on)).toBe('V up up ');
    expect(go(on, { on: 'blank' })).toBe('V down down down');
    expect([go(on), go({ on: 'back' }), go(on, on)]).toEqual(['V outcome  down', 'V stays stays down', 'end words  ']);
    // V = a³: 0.9³ = 0.729
    expect(presentPrediction({ symbol: 'a', share: -0.1 }, 'V', own)).toMatchObject({ change: '10 % less', outcome: { direction: 'down', text: '27.1 %' } });
    expect(presentPrediction({ symbol: 'nothing', share: -0.1 }, 'V', own).outcome).toBeUndefined();
  });

  test('asked for, it is shown at once with its result; all at once, every one is', () => {
    const told = holding('S');
    told.act({ on: 'show' });
    expect([told.where(), told.sheet().awaitsGuess('S')]).toEqual(['S result', false]);
    expect(told.act({ on: 'show all' })).toEqual(['refresh']);
    expect(told.sheet().awaitsGuess('V')).toBe(false);
  });

  test('an edit after something was shown holds back anew; one before it does not', () => {
    const told = holding('S');
    const { round } = told.now().pause;
    told.act({ on: 'edited', before: context.states });
    expect(told.now().pause.round).toBe(round);
    told.act({ on: 'show' }, { on: 'edited', before: context.states });
    expect([told.now().pause.round?.before === context.states, told.sheet().awaitsGuess('S')]).toEqual([true, true]);
  });

  test('ended by its key, and with it what it held back', () => {
    const told = holding('S');
    expect([told.act({ on: 'guess first' }), told.now().pause]).toEqual([['refresh'], NO_PAUSE]);
    told.act({ on: 'edited', before: before.states });
    expect(told.now().pause).toEqual(NO_PAUSE);
  });
});

describe('what the class works out itself', () => {
  let own: LectureSheet;
  beforeAll(async () => {
    own = sheetOf(await contextOf(SHEET.replace('label: Area', 'label: Area\nasked: true').replace('label: Volume', 'label: Volume\nasked: true')));
  });
  const toldAt = (station: string, reveal: LectureState['place']['reveal'], isOpen = true): string[] =>
    [...toldOf({ ...CLOSED, isOpen, place: { ...placeOf(own.order, station)!, reveal } }, own)];

  test('its blank has a press of its own, and the one after it tells the result', () => {
    const [S] = own.order.stations.filter(({ id }) => id === 'S');
    expect(S === undefined ? [] : own.order.revealsAt(S)).toEqual(['words', 'symbols', 'numbers', 'result']);
    expect(['words', 'symbols', 'numbers', 'result'].map((reveal) => toldAt('S', reveal as 'words'))).toEqual([[], [], [], ['S']]);
  });

  test('told is all before the place, nothing behind it, and nothing once the lecture is left', () => {
    expect([toldAt('V', 'words'), toldAt('end', 'words'), toldAt('a', 'words'), toldAt('end', 'words', false)]).toEqual([['S'], ['S', 'V'], [], []]);
  });
});

test('every key of the lecture is an event', () => {
  expect(['next', 'chain', 'up', 'stays', 'leave'].map((action) => eventOf(action as 'next'))).toEqual(
    [{ on: 'next' }, { on: 'view', view: 'chain' }, { on: 'guess', guess: 'up' }, { on: 'guess', guess: 'stays' }, { on: 'leave' }]);
});
