/** What an edit's results are compared with: bursts, undo in between, results held back; and in which order it is spoken. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createAnnouncer, movedWords } from '../../src/view/announce.ts';
import { unchanged, withEdit, withRest, withResults, type Changes } from '../../src/view/changes.ts';
import type { WholeContext } from '../../src/report/index.ts';
import type { EditCommand } from '../../src/sheet/index.ts';
import { contextOf, given, step } from '../report/sheet-at.ts';

const sheetWith = (a: string): Promise<WholeContext> => contextOf([given('a', a, 'mm', 'label: Side'), step('S', 'a*a', 'mm^2', 'label: Area'), step('V', 'S*a', 'mm^3', 'label: Volume')].join('\n'));
const [two, three, four] = await Promise.all(['2 mm', '3 mm', '4 mm'].map(sheetWith)) as [WholeContext, WholeContext, WholeContext];
const typed = (value: string, key = 'value'): EditCommand => ({ do: 'set key', cellId: 'a', key, value });
const results = (changes: Changes, before: WholeContext, after: WholeContext) => withResults(changes, { before: before.states, after: after.states });
const volume = ({ moved }: Changes): string | undefined => moved.get('V')?.text;

describe('what results are compared with', () => {
  test('a burst of edits of one blank is compared with the sheet before its first', () => {
    const first = results(withEdit(unchanged(two.states), typed('3 mm'), two.states), two, three).changes;
    expect(volume(first)).toBe('240 %');
    const second = results(withEdit(first, typed('4 mm'), three.states), three, four);
    expect([volume(second.changes), second.isForeign]).toEqual(['700 %', false]);
  });

  test('after a rest, or in another place, it is compared with the sheet as it was just now', () => {
    const first = results(withEdit(unchanged(two.states), typed('3 mm'), two.states), two, three).changes;
    for (const again of [withEdit(withRest(first), typed('4 mm'), three.states), withEdit(first, typed('4 mm', 'note'), three.states)]) {
      expect(volume(results(again, three, four).changes)).toBe('140 %');
    }
  });

  test('an undo in between is not made here: what is half typed gives way, and the burst ends', () => {
    const first = results(withEdit(unchanged(two.states), typed('3 mm'), two.states), two, three).changes;
    const undone = results(first, three, two);
    expect([undone.isForeign, undone.changes.moved.get('V')?.direction, undone.changes.burst]).toEqual([true, 'down', '']);
    const again = withEdit(undone.changes, typed('4 mm'), two.states);
    expect(volume(results(again, two, four).changes)).toBe('700 %');
  });

  test('an edit that moves nothing leaves the marks, and the next change is told from one made elsewhere', () => {
    const first = results(withEdit(unchanged(two.states), typed('3 mm'), two.states), two, three).changes;
    const same = results(withEdit(first, typed('3.0 mm', 'note'), three.states), three, three);
    expect([volume(same.changes), same.isForeign, same.changes.isOwn]).toEqual(['240 %', false, false]);
    expect(results(same.changes, three, two).isForeign).toBe(true);
  });

  test('what was held back for a guess is compared with the sheet before the round', () => {
    const held = withResults(unchanged(three.states), { before: three.states, after: four.states, compared: two.states });
    expect(volume(held.changes)).toBe('700 %');
  });
});

describe('what is spoken', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());
  const announcer = () => {
    const region = { textContent: '' };
    const { say, sayMoved, dispose } = createAnnouncer(region);
    const heard = (): string => {
      vi.advanceTimersByTime(1000);
      return region.textContent;
    };
    return { say, sayMoved, dispose, heard };
  };

  test('what was said of an edit comes before what moved with it, and neither is lost', () => {
    const { say, sayMoved, heard } = announcer();
    say('Row 5 is deleted.');
    sayMoved('Area up 2 %.');
    expect(heard()).toBe('Row 5 is deleted. Area up 2 %.');
    sayMoved('Area down 1 %.');
    expect(heard()).toBe('Area down 1 %.');
  });

  test('what moved sign by sign is said once, when typing rests; what is said later takes the place of all before it', () => {
    const { say, sayMoved, heard, dispose } = announcer();
    sayMoved('Area up 2 %.');
    sayMoved('Area up 3 %.');
    expect(heard()).toBe('Area up 3 %.');
    sayMoved('Area up 4 %.');
    say('The lines stand as before.');
    expect(heard()).toBe('The lines stand as before.');
    say('Nobody hears it.');
    dispose();
    expect(heard()).toBe('The lines stand as before.');
  });

  test('the ends of the derivation are named first, by their labels; what is asked of the reader is not', () => {
    const { changes: { moved } } = results(unchanged(two.states), two, three);
    expect(movedWords(moved, three.states, three)).toMatch(/^Volume up 240 %; Area up 130 %/);
    expect(movedWords(moved, three.states, { ...three, guess: { shown: new Set(['S']) } })).toBe('Area up 130 %; Side up 50 %.');
  });
});
