/** Weights and places of a lever for a wanted load: by hand, and against every combination at every place gone through apart. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { combinationsOf, leverSettings, type LeverToSet, type OwnedWeight } from '../../../src/core/mechanics/index.ts';

/** Law of the lever with round figures: gravity 10 m/s², hanger at 50 mm, nothing else on the lever. */
const LEVER: LeverToSet = { wanted: 240, arm: 0.05, rest: 0, hanging: 0, gravity: 10, carrier: 0, from: 0.1, to: 0.4, apart: 0, near: 0.002 };
const ones = (...masses: number[]): OwnedWeight[] => masses.map((mass) => ({ mass, count: 1 }));

describe('by hand', () => {
  it('240 N at 50 mm is 12 N·m: 4 kg stand at 300 mm', () => {
    const { settings, isNear, needed, owned } = leverSettings(ones(4), LEVER);
    expect(settings[0]).toMatchObject({ counts: [1], pieces: 1, mass: 4 });
    expect(settings[0]?.place).toBeCloseTo(0.3, 12);
    expect(settings[0]?.load).toBeCloseTo(240, 9);
    expect(isNear).toBe(true);
    // 12 N·m at 400 mm are 30 N, at 100 mm 120 N.
    expect(needed.least).toBeCloseTo(3, 12);
    expect(needed.most).toBeCloseTo(12, 12);
    expect(owned).toEqual({ least: 4, most: 4 });
  });
  it('of those that give it the fewest pieces, then the lightest', () => {
    expect(leverSettings(ones(5, 2, 4), LEVER).settings[0]?.counts).toEqual([0, 0, 1]);
    // 2 + 1 kg is lighter than 5 kg, and is two pieces.
    expect(leverSettings(ones(5, 2, 1), LEVER).settings[0]?.counts).toEqual([1, 0, 0]);
    expect(leverSettings([{ mass: 1, count: 3 }], LEVER).settings[0]).toMatchObject({ counts: [3], pieces: 3, mass: 3, place: 0.4 });
  });
  it('what carries the weights weighs with them', () => {
    // 3 kg and a carrier of 1 kg stand where 4 kg do.
    const { settings, owned } = leverSettings(ones(3), { ...LEVER, carrier: 1 });
    expect(settings[0]).toMatchObject({ pieces: 1, mass: 4 });
    expect(settings[0]?.place).toBeCloseTo(0.3, 12);
    expect(owned.most).toBe(4);
  });
  it('beam, other weights and what hangs at the specimen are taken off first', () => {
    // (240 − 20) N · 0.05 m − 3 N·m = 8 N·m; 4 kg at 200 mm.
    const { settings, bare } = leverSettings(ones(4), { ...LEVER, hanging: 20, rest: 3 });
    expect(settings[0]?.place).toBeCloseTo(0.2, 12);
    expect(bare).toBeCloseTo(80, 12);
  });
  it('too light, too heavy, too much already: the nearest, and what it would take', () => {
    const light = leverSettings(ones(1, 1.5), LEVER);
    // All of them at the far end: 25 N · 0.4 m / 0.05 m.
    expect(light.settings[0]).toMatchObject({ counts: [1, 1], place: 0.4 });
    expect(light.settings[0]?.load).toBeCloseTo(200, 9);
    expect(light.isNear).toBe(false);
    expect([light.needed.least, light.owned.most]).toEqual([expect.closeTo(3, 9), 2.5]);
    const heavy = leverSettings(ones(20), { ...LEVER, wanted: 240 });
    expect(heavy.isNear).toBe(false);
    // 200 N at 100 mm give 400 N, farther off than nothing at all does: 240 N against 160 N.
    expect(heavy.settings[0]).toMatchObject({ counts: [1], place: 0.1 });
    expect(heavy.needed.most).toBeCloseTo(12, 9);
    const much = leverSettings(ones(4), { ...LEVER, rest: 15 });
    expect(much.needed.least).toBeLessThan(0);
    expect(much.settings[0]).toMatchObject({ pieces: 0 });
    expect(much.bare).toBeCloseTo(300, 9);
  });
  it('notches: the nearest of them, never past the last', () => {
    // Every 7 mm from 100 mm on: 296 and 303 mm about 300 mm; 303 mm gives 242.4 N, 296 mm 236.8 N.
    const { settings, isNear } = leverSettings(ones(4), { ...LEVER, apart: 0.007 });
    expect(settings[0]?.place).toBeCloseTo(0.303, 12);
    expect(settings[0]?.load).toBeCloseTo(242.4, 9);
    expect(isNear).toBe(false);
    expect(leverSettings(ones(4), { ...LEVER, apart: 0.007, near: 0.011 }).isNear).toBe(true);
    // 100 + 42·7 = 394 mm is the last one within 400 mm; where the travel is whole notches, its end is one.
    expect(leverSettings(ones(1), { ...LEVER, apart: 0.007 }).settings[0]?.place).toBeCloseTo(0.394, 12);
    expect(leverSettings(ones(1), { ...LEVER, apart: 0.001 }).settings[0]?.place).toBeCloseTo(0.4, 12);
  });
  it('counts the combinations', () => {
    expect(combinationsOf([{ mass: 1, count: 2 }, { mass: 2, count: 1 }])).toBe(6);
  });
});

const between = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
const cases = fc.record({
  masses: fc.array(between(0.05, 5), { minLength: 1, maxLength: 5 }),
  lever: fc.record({
    wanted: between(5, 900), arm: between(0.03, 0.1), rest: between(-2, 6), hanging: between(0, 20), carrier: fc.constantFrom(0, 0.3),
    from: between(0.05, 0.2), length: between(0.05, 0.5), notches: fc.integer({ min: 2, max: 60 }),
  }),
});

describe('against every combination at every notch', () => {
  it('no other is nearer where none is near enough, and none near enough has fewer pieces', () => {
    fc.assert(fc.property(cases, ({ masses, lever: { length, notches, ...rest } }) => {
      const apart = length / notches;
      const lever: LeverToSet = { ...rest, to: rest.from + length, gravity: 9.81, apart, near: 0.01 };
      const found = leverSettings(ones(...masses), lever);
      const every: { off: number; pieces: number }[] = [];
      // Bit by bit and notch by notch, with moments about the hanger's line put together otherwise.
      for (let set = 0; set < 2 ** masses.length; set++) {
        const on = masses.filter((_, i) => Math.floor(set / 2 ** i) % 2 === 1);
        const total = [lever.carrier, ...on].reduce((sum, mass) => sum + mass, 0);
        for (let notch = 0; notch <= notches; notch++) {
          const ratio = (lever.from + notch * apart) / lever.arm;
          every.push({ off: Math.abs(total * 9.81 * ratio + lever.rest / lever.arm + lever.hanging - lever.wanted), pieces: on.length });
        }
      }
      const near = every.filter(({ off }) => off <= 0.01 * lever.wanted);
      const best = found.settings[0];
      expect(best).toBeDefined();
      expect(found.isNear).toBe(near.length > 0);
      const nearest = Math.min(...every.map(({ off }) => off));
      const fewest = Math.min(...near.map(({ pieces }) => pieces));
      // Of those near enough the fewest pieces count, of the others the load.
      const [told, right] = near.length > 0 ? [best?.pieces ?? Number.NaN, fewest] : [Math.abs((best?.load ?? Number.NaN) - lever.wanted), nearest];
      expect(told).toBeCloseTo(right, 6);
    }), { numRuns: 200 });
  });
});
