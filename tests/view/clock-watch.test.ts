import { describe, expect, it } from 'vitest';
import { jumpWords } from '../../src/view/record/clock-told.ts';
import { clockJump, createClockWatch, type Clocks } from '../../src/view/record/clock-watch.ts';

const HOUR = 3_600_000;
const at = (wall: number, steady: number, wasSeen = true): Clocks => ({ wall, steady, wasSeen });

describe('the clock of the device', () => {
  it('that goes on as time does is nothing to tell, however long it was not looked at', () => {
    expect(clockJump(at(0, 0), at(72 * HOUR, 72 * HOUR, false))).toBeUndefined();
    expect(clockJump(at(0, 0), at(1000, 3000))).toBeUndefined();
  });

  it('that was set back is told, in view or not', () => {
    expect(clockJump(at(10 * HOUR, 0), at(9 * HOUR + 1000, 1000, false))).toEqual({ by: -HOUR, at: 9 * HOUR + 1000 });
  });

  it('that jumped ahead is told of a page in view; out of view the device slept, as far as can be known', () => {
    expect(clockJump(at(0, 0), at(3 * HOUR + 1000, 1000))).toEqual({ by: 3 * HOUR, at: 3 * HOUR + 1000 });
    expect(clockJump(at(0, 0), at(3 * HOUR + 1000, 1000, false))).toBeUndefined();
  });

  it('is told until it is put away; set and set right again it is nothing to tell', () => {
    let now = at(10 * HOUR, 0);
    const watch = createClockWatch(() => now);
    expect([watch.look(), watch.jump()]).toEqual([false, undefined]);
    now = at(9 * HOUR, 1000);
    expect(watch.look()).toBe(true);
    now = at(9 * HOUR + 1000, 2000);
    expect([watch.look(), watch.jump()?.by]).toEqual([false, -HOUR - 1000]);
    now = at(10 * HOUR + 2000, 3000);
    expect([watch.look(), watch.jump()]).toEqual([true, undefined]);
    now = at(9 * HOUR, 4000);
    watch.look();
    watch.putAway();
    expect(watch.jump()).toBeUndefined();
  });

  it('is told with what is sure: back was set, ahead may have slept', () => {
    expect(jumpWords({ by: -HOUR, at: 0 }, '08:00')).toBe('The clock of this device was set back by 1 h 00 min 00 s; it now says 08:00. Stamps from before are later than the clock.');
    expect(jumpWords({ by: 3 * HOUR, at: 0 }, '12:00')).toMatch(/^The clock of this device jumped ahead by 3 h 00 min 00 s, to 12:00\. If the device slept, all is well;/);
  });
});
