import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { STRIP_SHAPES, type StripSupport } from '../../../src/core/mechanics/index.ts';
import {
  isStripForm, planeBending, STRIP_ROLES, stressAlong, stripFigureFrom, type FigureValue, type StripRole, type StripValues,
} from '../../../src/figures/drawings/index.ts';
import { readSvg, withClass } from './svg-reading.ts';

const mm = (si: number) => `${(si * 1e3).toFixed(2)} mm`;
const texts = { lengthText: mm, momentText: (si: number) => `${si.toFixed(2)} N·m`, stressText: (si: number) => `${(si / 1e6).toFixed(1)} MPa` };

/** Invented: a strip of 80 by 3 mm, driven from 9.6 to 15.4 mm, unloaded at 12.4 mm. */
const SET_UP: Partial<Record<StripRole, number>> = {
  length: 0.08, height: 0.003, amplitude: 0.0029, offset: 0.0001, lower: 0.0096, upper: 0.0154, section: 0.01, moment: 12.5, stress: 420e6, local: 367.5e6,
};

function values(setUp: Partial<Record<StripRole, number>>, hidden: readonly StripRole[] = []): StripValues {
  return Object.fromEntries(Object.entries(setUp).map(([role, si]): [string, FigureValue] => [role, {
    si, symbol: role, hidden: hidden.includes(role as StripRole),
    text: role === 'stress' || role === 'local' ? texts.stressText(si) : role === 'moment' ? texts.momentText(si) : mm(si),
    ...(['length', 'height', 'lower', 'upper', 'section'].includes(role) ? { given: role } : {}),
  }]));
}

/** A waist of 20 mm in a strip of 60 mm, by arcs of 25 mm, 25 mm from the clamp; invented. */
const WAIST: Partial<Record<StripRole, number>> = { width: 0.02, wide: 0.06, radius: 0.025, waist: 0.025 };

const SUPPORTS = Object.keys(STRIP_SHAPES) as StripSupport[];
const drawn = (support: StripSupport | 'waisted', setUp = SET_UP, width = 700, hidden: readonly StripRole[] = []) => ({
  setUp: planeBending(stripFigureFrom(support, values(setUp, hidden), texts), { width, idPrefix: 's' }),
  along: stressAlong(stripFigureFrom(support, values(setUp, hidden), texts), { width, idPrefix: 'a' }),
});

/** Coordinates in the order of a path. */
function corners(d: string | undefined): { x: number; y: number }[] {
  return [...(d ?? '').matchAll(/[ML] (\S+) (\S+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));
}

describe('the set-up of plane bending', () => {
  test('stands to scale: thickness and both ends of the stroke in the scale of the length', () => {
    const { setUp } = drawn('cantilever');
    const svg = readSvg(setUp.svg);
    const [strip] = withClass(svg, 'outline').map((one) => corners(one.attributes['d']));
    const [up, down] = withClass(svg, 'moved-outline').map((one) => corners(one.attributes['d']));
    const scale = setUp.pxPerMetre;
    expect((strip?.[1]?.x ?? 0) - (strip?.[0]?.x ?? 0)).toBeCloseTo(0.08 * scale, 1);
    expect((strip?.[2]?.y ?? 0) - (strip?.[1]?.y ?? 0)).toBeCloseTo(0.003 * scale, 1);
    const tip = (outline: { x: number; y: number }[] | undefined) => (strip?.[1]?.y ?? 0) - Math.min(...(outline ?? []).filter(({ x }) => x === strip?.[1]?.x).map(({ y }) => y));
    expect(tip(up)).toBeCloseTo(0.003 * scale, 1);
    expect(tip(down)).toBeCloseTo(-0.0028 * scale, 1);
    expect(setUp.sentence).toMatch(/^To scale/);
  });

  test('says when deflections are drawn larger than lengths', () => {
    const { setUp } = drawn('cantilever', { ...SET_UP, amplitude: 0.0002, offset: 0 });
    expect(readSvg(setUp.svg).text).toContain('Deflections are drawn 10 times as large as lengths.');
    expect(setUp.sentence).toMatch(/^Lengths to scale/);
    expect(setUp.handles.find(({ name }) => name.startsWith('upper'))?.upright?.pxPerMetre).toBeCloseTo(10 * setUp.pxPerMetre, 6);
  });

  test('the length, the section and both ends of the stroke can be moved, each changing its own reading', () => {
    for (const support of SUPPORTS) {
      const moves = Object.fromEntries(drawn(support).setUp.handles.map(({ name, moves: [move], upright }) => [name, [move?.symbol, move?.sign, upright !== undefined]]));
      expect(moves).toEqual({
        [support === 'centre' ? 'right support' : 'drive']: ['length', 1, false], section: ['section', 1, false],
        'upper end of the stroke': ['upper', 1, true], 'lower end of the stroke': ['lower', 1, true],
      });
    }
    const swapped = drawn('cantilever', { ...SET_UP, lower: 0.0154, upper: 0.0096 }).setUp.handles;
    expect(swapped.find(({ name }) => name === 'upper end of the stroke')?.moves).toEqual([{ symbol: 'lower', sign: 1 }]);
  });

  test('the upper end lies above the lower one, clear of it', () => {
    for (const width of [340, 700]) {
      const handles = drawn('cantilever', SET_UP, width).setUp.handles;
      const [upper, lower] = ['upper', 'lower'].map((word) => handles.find(({ name }) => name.startsWith(word)));
      expect((upper?.y ?? 0) + (upper?.height ?? 0)).toBeLessThanOrEqual(lower?.y ?? 0);
    }
  });

  test('a missing length makes a schematic that says so and can’t be dragged', () => {
    const { length: _length, ...rest } = SET_UP;
    const { setUp, along } = drawn('cantilever', rest);
    expect(setUp.handles).toEqual([]);
    expect(setUp.sentence).not.toContain('scale');
    expect(along.sentence).toContain('when it has a value');
    const stout = drawn('cantilever', { ...SET_UP, height: 0.2 }).setUp;
    expect(readSvg(stout.svg).text).toContain('longer than it is high');
  });
});

describe('a strip whose width changes', () => {
  const viewFromAbove = (support: StripSupport | 'waisted', setUp = { ...SET_UP, ...WAIST }, width = 700) => {
    const { setUp: drawing } = drawn(support, setUp, width);
    return { drawing, outline: corners(withClass(readSvg(drawing.svg), 'outline').map((one) => one.attributes['d'] ?? '').find((d) => d.split('L').length > 100)) };
  };

  test('a tapered one is drawn tapered, from above, to nothing at the drive', () => {
    const { drawing, outline } = viewFromAbove('tapered');
    const half = outline.length / 2;
    const widths = outline.slice(0, half).map(({ y }, i) => (outline.at(-1 - i)?.y ?? Number.NaN) - y);
    expect(widths[half - 1]).toBeCloseTo(0, 1);
    for (const [i, width] of widths.entries()) expect(width / (widths[0] ?? 0)).toBeCloseTo(1 - i / (half - 1), 2);
    expect(readSvg(drawing.svg).text).toContain('seen from above');
  });

  test('a waisted one has its waist where it is, as narrow as it is, in one scale of widths', () => {
    for (const width of [340, 700]) {
      const { drawing, outline } = viewFromAbove('waisted', undefined, width);
      const half = outline.length / 2;
      const widths = outline.slice(0, half).map(({ x, y }, i) => ({ x, width: (outline.at(-1 - i)?.y ?? Number.NaN) - y }));
      const least = widths.reduce((a, b) => (b.width < a.width ? b : a));
      expect((least.x - (outline[0]?.x ?? 0)) / drawing.pxPerMetre).toBeCloseTo(0.025, 3);
      expect(least.width / (widths[0]?.width ?? 0)).toBeCloseTo(1 / 3, 2);
      expect(readSvg(drawing.svg).text).toContain('widths are drawn smaller than lengths');
    }
  });

  test('where there is room widths have the scale of the length, and nothing is said of another', () => {
    const { drawing, outline } = viewFromAbove('tapered', { ...SET_UP, width: 0.008 });
    expect(((outline.at(-1)?.y ?? 0) - (outline[0]?.y ?? 0)) / drawing.pxPerMetre).toBeCloseTo(0.008, 4);
    expect(readSvg(drawing.svg).text).not.toContain('widths');
  });

  test('a uniform one is not drawn from above; a waist that does not fit is said to', () => {
    for (const support of ['cantilever', 'guided', 'centre'] as const) expect(readSvg(viewFromAbove(support).drawing.svg).text).not.toContain('above');
    const { drawing } = viewFromAbove('waisted', { ...SET_UP, ...WAIST, waist: 0.01 });
    expect(readSvg(drawing.svg).text).toContain('does not fit');
    expect(drawing.handles).toEqual([]);
  });

  test('the stress of a waisted one is highest just before its waist, the dot stands there and the words say the waist', () => {
    const { along } = drawn('waisted', { ...SET_UP, ...WAIST });
    const left = (along.viewBox.width - 0.08 * along.pxPerMetre) / 2;
    const dots = withClass(readSvg(along.svg), 'section-dot').map(({ attributes }) => (Number(attributes['cx']) - left) / along.pxPerMetre);
    // 4.5 mm before the waist, b R/(2(L − x)), in first order.
    expect(dots.some((place) => Math.abs(place - 0.021) < 0.0015)).toBe(true);
    expect(readSvg(along.svg).text).toContain('fracture expected at the waist');
    // Both values are those of the waist; the moment is more at the clamp.
    expect(readSvg(along.svg).text.match(/(?<!expected) at the waist/gu)?.length).toBe(2);
    expect(along.sentence).toContain('420.0 MPa at the narrowest place');
  });
});

describe('moment and stress along the strip', () => {
  test('the curve is highest where the strip is expected to break', () => {
    for (const support of SUPPORTS) {
      const { along } = drawn(support);
      const dots = withClass(readSvg(along.svg), 'section-dot').map(({ attributes }) => Number(attributes['cx']));
      const left = (along.viewBox.width - 0.08 * along.pxPerMetre) / 2;
      for (const place of STRIP_SHAPES[support].highest) expect(dots.some((x) => Math.abs(x - left - place * 0.08 * along.pxPerMetre) < 0.1), support).toBe(true);
      expect(along.sentence).toContain('420.0 MPa');
      expect(along.description).toContain('at the section looked at, 10.00 mm along');
    }
  });

  test('nothing shows of a stress that the reader is asked for', () => {
    const { along } = drawn('cantilever', SET_UP, 700, ['moment', 'stress', 'local']);
    for (const given of ['420', '367', '12.5', 'expected at']) expect(along.svg).not.toContain(given);
    expect(along.sentence).toContain('once you have worked it out');
  });

  test('words for how it is held are those of the choice', () => {
    expect(SUPPORTS.every(isStripForm)).toBe(true);
    expect(isStripForm('toString')).toBe(false);
  });
});

describe('shapes of a bent strip', () => {
  test('start at rest, reach the drive, and have the curvature of their moment', () => {
    for (const support of SUPPORTS) {
      const { deflection, moment, stress, drive, highest } = STRIP_SHAPES[support];
      expect(deflection(0)).toBe(0);
      expect(deflection(drive)).toBeCloseTo(1, 12);
      for (const place of highest) expect(stress(place)).toBe(1);
      const curvature = (x: number) => (deflection(x + 1e-4) - 2 * deflection(x) + deflection(x - 1e-4)) / 1e-8;
      // Curvature over stress is one number along the strip, since the height is constant.
      const ratios = [0.11, 0.23, 0.37, 0.45].map((x) => Math.abs(curvature(x)) / stress(x));
      for (const ratio of ratios) expect(ratio / (ratios[0] ?? 0)).toBeCloseTo(1, 3);
      // Where the width falls to nothing as the moment does, the moment is the stress times the width.
      const width = (x: number) => (support === 'tapered' ? 1 - x : 1);
      for (const x of [0.11, 0.37, 0.45]) expect(Math.abs(moment(x))).toBeCloseTo(stress(x) * width(x), 12);
    }
  });
});

test('any values make a drawing without a number that is none', () => {
  const anything = fc.oneof(fc.double(), fc.double({ min: -1, max: 1 }), fc.constant(Number.NaN));
  const record = fc.record(Object.fromEntries(STRIP_ROLES.map((role) => [role, anything])) as Record<StripRole, fc.Arbitrary<number>>, { requiredKeys: [] });
  fc.assert(fc.property(record, fc.constantFrom(...SUPPORTS), fc.constantFrom(240, 700), (setUp, support, width) => {
    const { setUp: one, along } = drawn(support, setUp as Partial<Record<StripRole, number>>, width);
    for (const { svg, handles, viewBox } of [one, along]) {
      expect(svg.replace(/<(title|desc|text)[\s\S]*?<\/\1>/g, '')).not.toMatch(/NaN|Infinity|undefined/);
      expect([viewBox.width, viewBox.height, ...handles.flatMap(({ x, y }) => [x, y])].every(Number.isFinite)).toBe(true);
    }
  }), { numRuns: 150 });
});
