import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LEVER_ROLES, leverFigureFrom, loadingLever, type FigureValue, type LeverRole, type LeverValues } from '../../../src/figures/drawings/index.ts';
import { numbersOf, readSvg, withClass, type Element } from './svg-reading.ts';

const mm = (si: number) => `${(si * 1e3).toFixed(1)} mm`;
const POSITIONS: ReadonlySet<LeverRole> = new Set(['x1', 'x2', 'x3', 'hanger', 'gb', 'hc', 'low', 'high', 'moved', 'wanted']);

/** Invented: 40 N at 300 mm and 10 N at 200 mm, balanced by the hanger at 60 mm alone: F = 14/0.06 N. */
const SET_UP: Partial<Record<LeverRole, number>> = {
  W1: 40, x1: 0.3, W2: 10, x2: 0.2, W3: 0, x3: 0.1, Wb: 0, gb: 0.1, Wc: 6, hc: 0.05, hanger: 0.06, low: 0.08, high: 0.4,
  F: 13.7 / 0.06, R: 56 - 13.7 / 0.06, moved: 0.3, wanted: 0.35,
};

function values(setUp: Partial<Record<LeverRole, number>>): LeverValues {
  return Object.fromEntries(Object.entries(setUp).map(([role, si]): [string, FigureValue] => [role, {
    si, text: POSITIONS.has(role as LeverRole) ? mm(si) : `${si.toFixed(1)} N`, symbol: role, hidden: false,
    ...(['F', 'R', 'wanted', 'moved'].includes(role) ? {} : { given: role }),
  }]));
}

function drawn(setUp: Partial<Record<LeverRole, number>>, width = 700) {
  return loadingLever(leverFigureFrom(values(setUp), mm), { width, idPrefix: 'lever' });
}

describe('the loading lever', () => {
  test('stands to scale: places of handles follow the distances', () => {
    const { handles, pxPerMetre } = drawn(SET_UP);
    const at = new Map(handles.map((handle) => [handle.name, handle.x + handle.width / 2]));
    const [first = 0, second = 0, counter = 0] = ['first weight', 'second weight', 'counterweight'].map((name) => at.get(name));
    expect(first - second).toBeCloseTo(0.1 * pxPerMetre, 9);
    expect(second - counter).toBeCloseTo(0.25 * pxPerMetre, 9);
  });

  test('a weight of nothing is not there: no handle, no dimension', () => {
    const { handles, figures } = drawn(SET_UP);
    expect(handles.map(({ name }) => name).sort()).toEqual(['counterweight', 'first weight', 'second weight']);
    expect(figures.map(({ given }) => given).sort()).toEqual(['hanger', 'hc', 'x1', 'x2']);
  });

  test('a weight moved to the right goes away from the fulcrum, the counterweight towards it', () => {
    const moves = new Map(drawn(SET_UP).handles.map((handle) => [handle.name, handle.moves]));
    expect(moves.get('first weight')).toEqual([{ symbol: 'x1', sign: 1 }]);
    expect(moves.get('counterweight')).toEqual([{ symbol: 'hc', sign: -1 }]);
  });

  test('all arrows have one scale', () => {
    const setUp = { ...SET_UP, W1: 200, W2: 100, F: 220, R: 86 };
    // A line ends a little before the tip of its head.
    const lengths = withClass(readSvg(drawn(setUp).svg), 'force').map((arrow) => {
      const [tail = 0] = numbersOf(withClass(arrow, 'force-line')[0] as Element, 'y1');
      const tip = Number((withClass(arrow, 'force-head')[0] as Element).attributes['points']?.split(' ')[0]?.split(',')[1]);
      return Math.abs(tip - tail);
    });
    const forces = [6, 200, 100, 86, 220];
    const scale = (lengths[1] ?? 0) / 200;
    forces.forEach((force, index) => expect((lengths[index] ?? 0) / (force * scale)).toBeCloseTo(1, 2));
  });

  test('the sentence says when the wanted place lies outside the travel', () => {
    expect(drawn(SET_UP).sentence).toContain('chain line');
    expect(drawn({ ...SET_UP, wanted: 0.5 }).sentence).toContain('outside the travel');
  });

  test('says in words what it shows, and what has no value yet', () => {
    const { x2: _, ...rest } = SET_UP;
    const lacking = values(rest);
    const { description } = loadingLever(
      leverFigureFrom({ ...lacking, x2: { si: undefined, text: '', symbol: 'x_2', hidden: false } }, mm), { width: 700, idPrefix: 'a' },
    );
    expect(description).toContain('The first weight, W1 = 40.0 N, hangs 300.0 mm from the fulcrum');
    expect(description).toContain('The counterweight, Wc = 6.0 N, hangs 50.0 mm from the fulcrum on the other side');
    expect(description).toContain('Left out until it has a value: x 2.');
  });

  test('whatever the values: well-formed, finite, at least as wide as asked', () => {
    const quantity = fc.oneof(
      { weight: 6, arbitrary: fc.double({ min: -0.5, max: 1, noNaN: true }) },
      { weight: 2, arbitrary: fc.double() },
      { weight: 1, arbitrary: fc.constantFrom(undefined, 0, 1e-12) },
    );
    const value = fc.record({ si: quantity, text: fc.string({ unit: 'binary', maxLength: 12 }), symbol: fc.constantFrom('x_1', 'W_1', '<b>'), hidden: fc.boolean() });
    const record = fc.record(Object.fromEntries(LEVER_ROLES.map((role) => [role, value])) as Record<LeverRole, typeof value>, { requiredKeys: [] });
    fc.assert(fc.property(record, fc.integer({ min: 100, max: 1200 }), (given, width) => {
      const drawing = loadingLever(leverFigureFrom(given, () => 'length'), { width, idPrefix: 'x' });
      readSvg(drawing.svg);
      expect(drawing.svg.replace(/>[^<]*</g, '><')).not.toMatch(/NaN|Infinity|undefined|null|\de[+-]?\d/);
      expect(Number.isFinite(drawing.pxPerMetre)).toBe(true);
      for (const handle of drawing.handles) expect([handle.x, handle.y].every(Number.isFinite)).toBe(true);
    }), { numRuns: 120 });
  });
});
