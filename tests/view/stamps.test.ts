import { afterAll, describe, expect, it } from 'vitest';

// Formats take the zone in which they are made, so that it has to hold before the module is there.
const zone = process.env['TZ'];
process.env['TZ'] = 'Europe/Berlin';
const { sayTime, sayTimeShort, stampOf } = await import('../../src/view/stamps.ts');
afterAll(() => {
  if (zone === undefined) delete process.env['TZ'];
  else process.env['TZ'] = zone;
});

describe('a stamp corrected by hand', () => {
  it('takes the offset that holds here on that day, across the end of summer time', () => {
    expect(stampOf('2026-10-25T04:00:00', '2026-10-25T01:30:00+02:00')).toBe('2026-10-25T04:00:00+01:00');
    expect(stampOf('2026-10-24T23:59', '2026-10-25T04:00:00+01:00')).toBe('2026-10-24T23:59:00+02:00');
  });

  it('keeps the offset of another place', () => {
    expect(stampOf('2026-11-20T09:12', '2026-11-20T09:00:00-05:00')).toBe('2026-11-20T09:12:00-05:00');
  });

  it('is none where nothing is chosen', () => {
    expect(stampOf('', undefined)).toBeUndefined();
  });
});

describe('a time as it is said', () => {
  it('today by the clock, on another day with it, and never a day that there is not', () => {
    const now = new Date('2026-11-20T09:00:00+01:00');
    expect(sayTime(Date.parse('2026-11-20T15:40:10+01:00'), now)).toBe('15:40');
    expect(sayTime(Date.parse('2026-11-22T15:40:10+01:00'), now)).toMatch(/22 Nov 2026.*15:40/);
    expect(sayTime(1e300, now)).toBe('a day that no calendar reaches');
  });

  // Against the engine's own British English (Unicode CLDR).
  it.each([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11])('is written as British English writes it, in month %i', (month) => {
    const now = new Date(2026, month, 3, 0, 5);
    const [long, day] = [
      new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric', hour: '2-digit', minute: '2-digit' }),
      new Intl.DateTimeFormat('en-GB', { weekday: 'short', hour: '2-digit', minute: '2-digit' }),
    ];
    for (const days of [1, 2, 3, 4, 5]) {
      const then = new Date(2026, month, 3 + days, 7 + days, 9 * days);
      expect(sayTime(then.getTime(), now)).toBe(long.format(then));
      expect(sayTimeShort(then.getTime(), now)).toBe(day.format(then).replace(',', ''));
    }
  });
});
