import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { brokenBy, compareCounts, countedCycles, lifeGivenSurvival, runningTime, stillBreaks } from '../../../src/core/fatigue/index.ts';

describe('running time', () => {
  it('takes pauses off, shared time once, and only what lies within the test', () => {
    expect(runningTime(0, 100, [])).toBe(100);
    expect(runningTime(0, 100, [{ from: 10, to: 30 }, { from: 20, to: 40 }])).toBe(70);
    expect(runningTime(0, 100, [{ from: 20, to: 40 }, { from: 10, to: 30 }, { from: 25, to: 26 }])).toBe(70);
    expect(runningTime(0, 100, [{ from: -50, to: 10 }, { from: 90, to: 500 }])).toBe(80);
    expect(runningTime(0, 100, [{ from: 60 }])).toBe(60);
    expect(runningTime(100, 0, [])).toBe(0);
  });

  it('is what is left when each millisecond is looked at by itself', () => {
    const pause = fc.record({ from: fc.integer({ min: -10, max: 60 }), to: fc.option(fc.integer({ min: -10, max: 60 }), { nil: undefined }) });
    fc.assert(fc.property(fc.integer({ min: 0, max: 50 }), fc.array(pause, { maxLength: 5 }), (end, pauses) => {
      let running = 0;
      for (let t = 0; t < end; t += 1) if (!pauses.some(({ from, to }) => t >= from && t < (to ?? end))) running += 1;
      expect(runningTime(0, end, pauses)).toBe(running);
    }));
  });
});

describe('cycles from a counter', () => {
  it('is exact through readings and roll-overs', () => {
    const counts = fc.array(fc.integer({ min: 0, max: 999_999 }), { minLength: 1, maxLength: 6 });
    fc.assert(fc.property(fc.integer({ min: 0, max: 999_999 }), counts, fc.constantFrom(1, 10, 100, 1000), (start, parts, multiplier) => {
      const readings = [start];
      let total = start;
      for (const part of parts) {
        total += part;
        readings.push(total % 1_000_000);
      }
      const { cycles, rollOvers } = countedCycles(readings, { multiplier, digits: 6 });
      expect(cycles).toBe((total - start) * multiplier);
      expect(rollOvers).toBe(Math.floor(total / 1_000_000));
    }));
  });

  it('has the uncertainty of a difference of two readings, each u = multiplier/√12 (JCGM 100, 4.3.7 and 5.1.2)', () => {
    const single = 100 / Math.sqrt(12);
    expect(countedCycles([0, 5], { multiplier: 100, digits: 6 }).standardUncertainty).toBeCloseTo(Math.hypot(single, single), 12);
  });
});

describe('counter against speed times time', () => {
  const counter = { multiplier: 1, digits: 6 };
  const compare = (first: number, last: number, expected: number, hours = 2, relative = 0.001) => compareCounts({
    ...counter, counted: countedCycles([first, last], counter), firstReading: first, lastReading: last, expected, expectedUncertainty: relative * expected, hours,
  });

  it('agrees within twice the combined standard uncertainty', () => {
    expect(compare(0, 336_500, 336_000)).toMatchObject({ agree: true, suspicions: [] });
    expect(compare(0, 337_000, 336_000).agree).toBe(false);
  });

  // The factors of usual slips: common practice, no published source.
  it.each([
    ['the clock counted minutes as hours', compare(0, 336_000, 336_000 / 60), 'factor 60'],
    ['the multiplier of ten was forgotten', compare(0, 33_600, 336_000), 'power of ten'],
    ['the counter counts half strokes', compare(0, 672_000, 336_000), 'factor 2'],
    ['one roll-over more', compare(100, 400_100, 1_400_000), 'roll-over'],
    ['the counter had been set to zero', compare(50_000, 336_000, 336_000), 'start not taken off'],
    ['1:30 was taken as 1.30 h', compare(0, 218_400, 252_000, 1.5), 'clock as decimal'],
    ['the speed fell a little', compare(0, 320_000, 336_000), 'speed not steady'],
  ] as const)('%s', (_what, comparison, suspicion) => {
    expect(comparison.agree).toBe(false);
    expect(comparison.suspicions).toContain(suspicion);
  });
});

describe('life of a specimen that still runs', () => {
  const predicted = { logLife: 5.15, standardDeviation: 0.21 };
  // Computed with scipy 1 (scipy.stats.norm.cdf, sf, isf) in double precision.
  it.each([
    [0, 0, [54752.955045818315, 141253.75446227554, 364411.8044951564]],
    [1e5, 0.23752526202697594, [102962.80297503018, 163481.58908156565, 384981.26485510886]],
    [3e5, 0.9403502122372894, [301848.14615490375, 351162.7213490352, 593748.8207715444]],
    [2e6, 0.9999999788649552, [2004334.2358369282, 2120865.9495015987, 2698513.9853131054]],
  ])('after %d cycles', (survived, broken, quantiles) => {
    expect(brokenBy(survived, predicted)).toBeCloseTo(broken, 13);
    [0.025, 0.5, 0.975].forEach((p, i) => {
      expect(lifeGivenSurvival(p, survived, predicted) / (quantiles[i] ?? Number.NaN)).toBeCloseTo(1, 10);
    });
  });

  // Computed with scipy 1 (scipy.stats.norm) from F(N) = min(b, Φ((lg N − m)/s)): P(break | lasted) = (b − F)/(1 − F), quantile F⁻¹(F + p (b − F)).
  it.each([
    [0, 0.5, [47786.52248031954, 101942.93955850876, 139129.43573599026]],
    [1e5, 0.344240569426328, [101024.0382004564, 120121.90462407644, 140134.71338016575]],
  ])('where only half break at all, after %d cycles', (survived, chance, quantiles) => {
    const half = { ...predicted, breaks: 0.5 };
    expect(stillBreaks(survived, half)).toBeCloseTo(chance, 4);
    [0.025, 0.5, 0.975].forEach((p, i) => {
      expect(lifeGivenSurvival(p, survived, half) / (quantiles[i] ?? Number.NaN)).toBeCloseTo(1, 10);
    });
  });

  it('once those that break have broken no life is to come', () => {
    const half = { ...predicted, breaks: 0.5 };
    expect(brokenBy(3e5, half)).toBe(0.5);
    expect(stillBreaks(3e5, half)).toBe(0);
    expect(lifeGivenSurvival(0.5, 3e5, half)).toBeNaN();
  });

  it('never lies in the past, also without scatter', () => {
    fc.assert(fc.property(fc.double({ min: 0.01, max: 0.99, noNaN: true }), fc.double({ min: 0, max: 1e9, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), (p, survived, standardDeviation) => {
      expect(lifeGivenSurvival(p, survived, { logLife: 5, standardDeviation })).toBeGreaterThanOrEqual(survived);
    }));
    expect(brokenBy(1e5 - 1, { logLife: 5, standardDeviation: 0 })).toBe(0);
    expect(brokenBy(1e5 + 1, { logLife: 5, standardDeviation: 0 })).toBe(1);
  });
});
