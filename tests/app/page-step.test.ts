/** How the page stands around its sheet: panels that wait for their lists, keeping, what is worked out while somebody looks. */
import { describe, expect, test } from 'vitest';
import type { KeptSheet } from '../../src/app/kept-sheet.ts';
import { NEW_PAGE, pageStep, type PageEvent, type PageState } from '../../src/app/page-step.ts';

const sheet = (id: string): KeptSheet => ({ id, title: id, detail: '', text: '', changed: '2026-11-20T10:00:00Z', revision: 1, isCopy: false });
const read = (...ids: readonly string[]): PageEvent => ({ on: 'lists read', kept: ids.map(sheet), damaged: [] });
const at = new Date(0);

function page(first: Partial<PageState> = {}) {
  let state: PageState = { ...NEW_PAGE, ...first };
  const act = (...events: readonly PageEvent[]): readonly string[] => events.flatMap((event) => {
    const step = pageStep(state, event);
    ({ state } = step);
    return step.effects.map((effect) => effect.do);
  });
  return { act, now: () => state, kept: () => state.kept.map(({ id }) => id).join(' ') };
}
const SHOWN = ['work out', 'fold earlier', 'show'];

describe('panels', () => {
  test('one without lists unfolds at once and folds again', () => {
    const one = page();
    expect([one.act({ on: 'unfold', panel: 'takeaways' }), one.now().unfolded]).toEqual([SHOWN, 'takeaways']);
    expect([one.act({ on: 'unfold', panel: undefined }), one.now().unfolded]).toEqual([SHOWN, undefined]);
  });

  test('one with lists waits for them, and for no other answer than its own', () => {
    const one = page();
    expect([one.act({ on: 'unfold', panel: 'sheets' }), one.now().unfolded]).toEqual([['read lists'], undefined]);
    one.act({ on: 'unfold', panel: 'slips' });
    expect([one.act({ on: 'waited for', panel: 'sheets' }), one.now().unfolded]).toEqual([[], 'slips']);
    expect(one.act({ on: 'unfold', panel: 'hold' }, { on: 'unfold', panel: 'sheets' }, { on: 'waited for', panel: 'hold' })).toEqual(['read lists', 'read lists']);
    expect([one.act({ on: 'waited for', panel: 'sheets' }), one.now().unfolded]).toEqual([[...SHOWN, 'look at promise'], 'sheets']);
  });

  test('folded up before its lists are there, it stays folded', () => {
    const one = page();
    one.act({ on: 'unfold', panel: 'sheets' }, { on: 'unfold', panel: undefined });
    expect([one.act({ on: 'waited for', panel: 'sheets' }), one.now().unfolded]).toEqual([[], undefined]);
  });

  test('no sheet changes places under the finger; the next look has them newest first', () => {
    const one = page();
    one.act(read('a', 'b'), { on: 'unfold', panel: 'sheets' }, { on: 'waited for', panel: 'sheets' }, read('c', 'b', 'a'));
    expect(one.kept()).toBe('a b c');
    one.act({ on: 'unfold', panel: 'slips' }, read('c', 'b', 'a'));
    expect(one.kept()).toBe('c b a');
  });
});

describe('what is worked out', () => {
  test('only while somebody looks at it, once typing rests', () => {
    expect(page().act({ on: 'changed' }, { on: 'look' })).toEqual(['show when still']);
    const one = page({ unfolded: 'slips' });
    expect(one.act({ on: 'changed' }, { on: 'look' }, { on: 'rested' })).toEqual(['show when still', 'work out soon', 'work out soon', 'work out', 'show']);
    one.act({ on: 'worked out', hold: { problems: [], notHeld: [], further: [], refused: [] } });
    expect([one.now().slips, one.now().hold?.problems]).toEqual([[], []]);
  });

  test('of another sheet anew: the panel lists nothing of the one before', () => {
    expect(page({ unfolded: 'slips' }).act({ on: 'opened', canKeep: true })).toEqual(['work out soon']);
    expect(page({ unfolded: 'sheets' }).act({ on: 'opened', canKeep: true })).toEqual([]);
  });
});

describe('keeping', () => {
  const states = { waiting: { state: 'waiting' }, kept: { state: 'kept', at }, copied: { state: 'copied', at, otherId: 'x' }, failed: { state: 'failed', reason: 'full' } } as const;
  test.each([
    ['waiting', ['show when still'], ['show when still']],
    ['failed', ['show when still'], ['show when still']],
    ['kept', ['tell kept', 'show when still'], ['tell kept', 'refresh lists']],
    ['copied', ['tell kept', 'tell copied', 'show when still'], ['tell kept', 'tell copied', 'refresh lists']],
  ] as const)('%s: the reader sees it, others hear of what is kept, the list is read while it lies open', (name, folded, unfolded) => {
    expect(page().act({ on: 'keeping', state: states[name] })).toEqual(folded);
    expect(page({ unfolded: 'sheets' }).act({ on: 'keeping', state: states[name] })).toEqual(unfolded);
  });

  test('begins anew with another sheet, and says where nothing is kept', () => {
    const one = page({ keeping: states.copied });
    one.act({ on: 'opened', canKeep: true });
    expect(one.now().keeping).toEqual({ state: 'unchanged' });
    one.act({ on: 'opened', canKeep: false });
    expect(one.now().keeping.state).toBe('failed');
  });

  test('the browser’s promise is shown where sheets are listed, and once', () => {
    const one = page({ unfolded: 'sheets' });
    expect(one.act({ on: 'promise', answer: 'promised' }, { on: 'promise', answer: 'promised' })).toEqual(['show']);
    expect(page().act({ on: 'promise', answer: 'promised' })).toEqual([]);
  });
});
