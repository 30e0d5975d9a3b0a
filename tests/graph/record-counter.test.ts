import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRecord, type RecordState } from '../../src/graph/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { fenced, given } from '../report/sheet-at.ts';

interface Reading {
  readonly minute: number;
  readonly counter: number;
  readonly rolled?: string;
}

const at = (minute: number): string => new Date(Date.parse('2026-11-20T08:00:00Z') + minute * 60_000).toISOString();

/** A test at 3000 rev/min with a counter of six digits, each of its units `multiplier` cycles. */
function record(start: number, readings: readonly Reading[], multiplier = 1, ...more: readonly string[]): RecordState {
  const entries = readings.flatMap(({ minute, counter, rolled }) => [
    `  - at: "${at(minute)}"`, `    counter: ${counter}`, ...(rolled === undefined ? [] : [`    rolled_over: ${rolled}`]),
  ]);
  const text = given('n', '3000 rev/min', 'rev/min') + fenced('record', 'id: test', 'watches:', '  speed: n', `started: "${at(0)}"`, `counter_start: ${start}`,
    `counter_multiplier: ${multiplier}`, 'readings:', ...entries, 'frozen:', '  n: 3000 rev/min', ...more);
  for (const block of parseSheet(text).blocks) if (block.kind === 'cell' && block.cell.kind === 'record') return readRecord(block.cell);
  throw new Error('no record');
}

describe('a counter reading lower than the one before it', () => {
  it('is asked about, and makes no cycles: 999200, and 999100 two minutes later', () => {
    const state = record(993_200, [{ minute: 2, counter: 999_200 }, { minute: 4, counter: 999_100 }]);
    expect(state.question).toEqual({ place: 1, before: 999_200, reading: 999_100 });
    expect(state.counted).toBeUndefined();
    expect(state.counter.map(({ reading }) => reading)).toEqual([993_200, 999_200]);
    // 10⁶ − 100 cycles, where 2 min at 50 a second are 6000.
    expect(state.warnings.map(({ what }) => what)).toEqual([
      'The counter shows 999100, less than the 999200 noted 2 min before. Past its last number it would have counted 999900 cycles since, where speed and time give about 6000. That can hardly be.',
    ]);
  });

  it('is a roll-over once that is confirmed, and only for these two readings', () => {
    const rolled = record(993_200, [{ minute: 2, counter: 999_200 }, { minute: 4, counter: 5_200, rolled: '999200 to 5200' }]);
    expect(rolled.counted).toMatchObject({ cycles: 12_000, rollOvers: 1 });
    expect(rolled.warnings).toEqual([]);
    const corrected = record(993_200, [{ minute: 2, counter: 999_300 }, { minute: 4, counter: 5_200, rolled: '999200 to 5200' }]);
    expect(corrected.counted).toBeUndefined();
    expect(corrected.question).toEqual({ place: 1, before: 999_300, reading: 5_200 });
  });

  it('says that a plausible one may be confirmed', () => {
    const [warning] = record(997_000, [{ minute: 2, counter: 3_000 }]).warnings;
    expect(warning?.mend).toMatch(/^Confirm that it went past its last number, or correct the reading\./);
  });

  it('is asked about at the end, too', () => {
    const ended = ['ended: "' + at(2) + '"', 'counter_end: 3000', 'outcome: fracture'];
    expect(record(997_000, [], 1, ...ended)).toMatchObject({ question: { place: 'end', before: 997_000, reading: 3_000 } });
    expect(record(997_000, [], 1, ...ended, 'counter_end_rolled_over: 997000 to 3000').counted).toMatchObject({ cycles: 6_000 });
  });

  it('however the readings come: never a roll-over that nobody confirmed', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 999_999 }), fc.array(fc.integer({ min: 0, max: 999_999 }), { minLength: 1, maxLength: 5 }), (start, counters) => {
      const { counted, question } = record(start, counters.map((counter, i) => ({ minute: i + 1, counter })));
      const lower = [start, ...counters].findIndex((counter, i, all) => i > 0 && counter < (all[i - 1] ?? 0));
      expect(question?.place).toBe(lower < 0 ? undefined : lower - 1);
      expect(counted?.cycles).toBe(lower < 0 ? (counters.at(-1) ?? 0) - start : undefined);
    }));
  });
});

describe('a counter reading far ahead of speed and time', () => {
  it('is told and used: a digit too many', () => {
    const state = record(1_000, [{ minute: 2, counter: 70_000 }]);
    expect(state.warnings.map(({ what }) => what)).toEqual(['Reading 1 is 69000 cycles after the one before it, where speed and time give about 6000.']);
    expect(state.counted?.cycles).toBe(69_000);
  });

  it.each([[7_000, 1], [1_060, 100], [12_900, 1], [4_100, 1]])('%s after 2 min with units of %s cycles is near enough', (counter, multiplier) => {
    expect(record(1_000, [{ minute: 2, counter }], multiplier).warnings).toEqual([]);
  });
});

describe('a counter that went past its last number several times between two readings', () => {
  // 60 h at 3000 rev/min are 10 800 000 revolutions: a counter of six digits shows 800 000 then, having passed its last number ten times.
  const [hours, shown] = [60 * 60, 800_000];

  it('is asked about with the number of times that speed and time bear out, and used as it stands meanwhile', () => {
    const state = record(0, [{ minute: hours, counter: shown }]);
    expect(state.question).toEqual({ place: 0, before: 0, reading: shown, times: 10 });
    expect(state.counted).toMatchObject({ cycles: shown, rollOvers: 0 });
    expect(state.warnings.map(({ what }) => what)).toEqual([
      'Reading 1 is 800000 cycles after the reading before it, where speed and time give about 10800000. It would fit if the counter went past its last number 10 times since.',
    ]);
  });

  it('counts them once they are confirmed, for these two readings only', () => {
    const confirmed = record(0, [{ minute: hours, counter: shown, rolled: `0 to ${shown}, 10 times` }]);
    expect(confirmed.counted).toMatchObject({ cycles: 10_800_000, rollOvers: 10 });
    expect([confirmed.question, confirmed.warnings]).toEqual([undefined, []]);
    expect(record(0, [{ minute: hours, counter: 700_000, rolled: `0 to ${shown}, 10 times` }]).counted?.rollOvers).toBe(0);
  });

  it('is asked about below the reading before it, too, and makes no cycles then', () => {
    const state = record(900_000, [{ minute: hours, counter: 700_000 }]);
    expect(state.question).toEqual({ place: 0, before: 900_000, reading: 700_000, times: 11 });
    expect(state.counted).toBeUndefined();
    expect(state.warnings[0]?.what).toMatch(/Past its last number 11 times it would have counted 10800000 cycles since, where speed and time give about 10800000\.$/);
    expect(record(900_000, [{ minute: hours, counter: 700_000, rolled: '900000 to 700000, 11 times' }]).counted?.cycles).toBe(10_800_000);
  });

  it('is asked about at the end, and not where no number of times fits: then the machine stood still', () => {
    expect(record(0, [], 1, `ended: "${at(hours)}"`, `counter_end: ${shown}`).question).toEqual({ place: 'end', before: 0, reading: shown, times: 10 });
    const stood = record(0, [{ minute: hours, counter: 500_000 }]);
    expect([stood.question, stood.warnings.map(({ code }) => code)]).toEqual([undefined, ['record-counter-speed']]);
    expect(record(0, [{ minute: 300, counter: 300_000 }]).question).toBeUndefined();
  });
});
