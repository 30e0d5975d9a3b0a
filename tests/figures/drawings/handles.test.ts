import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beamFigureFrom, freeBody, keptFrame, shearMoment, type Handle, type PlaceName } from '../../../src/figures/drawings/index.ts';
import { figureOf, sheetValues, SYMMETRIC, TEXTS, UNEQUAL, type SetUp } from './sheet-values.ts';

const options = { width: 640, idPrefix: 'h' };
const keyOf: Readonly<Record<string, keyof SetUp>> = { L: 'L', s_1: 's1', s_2: 's2', s_3: 's3', x_s: 'xs' };

/** The set-up after a handle has moved to the right by a distance: its moves carried out, nothing else. */
function moved(setUp: SetUp, handle: Handle, by: number): SetUp {
  const changed: Record<string, number> = { ...setUp };
  for (const { symbol, sign } of handle.moves) {
    const key = keyOf[symbol];
    if (!key) throw new Error(`no given ${symbol}`);
    changed[key] = (changed[key] ?? 0) + sign * by;
  }
  return changed as unknown as SetUp;
}

/** Places of everything on the shaft, with the left support at `origin`. */
function places(setUp: SetUp, origin = 0): Record<PlaceName, number> & { chainEnd: number } {
  return {
    'left support': origin,
    'left load point': origin + setUp.s1,
    'right load point': origin + setUp.s1 + setUp.s2,
    'right support': origin + setUp.L,
    section: origin + setUp.xs,
    chainEnd: origin + setUp.s1 + setUp.s2 + setUp.s3,
  };
}

const names: PlaceName[] = ['left support', 'left load point', 'right load point', 'right support', 'section'];

describe('moving a handle', () => {
  test('there is one for every place', () => {
    expect(freeBody(figureOf(UNEQUAL), options).handles.map((handle) => handle.name)).toEqual(names);
    expect(shearMoment(figureOf(UNEQUAL), options).handles.map((handle) => handle.name)).toEqual(['section']);
  });

  test.each(names)('%s: it moves, everything else keeps its place', (name) => {
    const lengths = fc.double({ min: 0.02, max: 0.3, noNaN: true });
    fc.assert(fc.property(lengths, lengths, lengths, lengths, fc.double({ min: -0.02, max: 0.02, noNaN: true }), (s1, s2, s3, xs, by) => {
      const before: SetUp = { ...SYMMETRIC, s1, s2, s3, L: s1 + s2 + s3 + 0.0004, xs };
      const handle = freeBody(figureOf(before), options).handles.find((one) => one.name === name);
      expect(handle).toBeDefined();
      const after = moved(before, handle as Handle, by);
      const was = places(before);
      const is = places(after, name === 'left support' ? by : 0);
      for (const other of names) expect(is[other] - was[other]).toBeCloseTo(other === name ? by : 0, 12);
      // The closure stays what it was measured to be: the end of the chain goes with the right support only.
      expect(is.chainEnd - was.chainEnd).toBeCloseTo(name === 'right support' ? by : 0, 12);
    }));
  });

  test('under a held frame nothing else moves on the page either', () => {
    for (const name of names) {
      const first = freeBody(figureOf(UNEQUAL), options);
      const handle = first.handles.find((one) => one.name === name);
      const by = 10 / first.pxPerMetre;
      const frame = keptFrame(first.frame, name, by);
      const second = freeBody(figureOf(moved(UNEQUAL, handle as Handle, by)), { ...options, frame });
      expect(second.pxPerMetre).toBeCloseTo(first.pxPerMetre, 6);
      for (const [index, one] of second.handles.entries()) {
        expect(one.x - (first.handles[index]?.x ?? 0), `${one.name} while ${name} moves`).toBeCloseTo(one.name === name ? 10 : 0, 6);
      }
    }
  });

  test('labels say where the place is', () => {
    expect(freeBody(figureOf(SYMMETRIC), options).handles.map((handle) => handle.label)).toEqual([
      'Left support, 450.0 mm from the right support',
      'Left load point, 100.0 mm from the left support',
      'Right load point, 350.0 mm from the left support',
      'Right support, 450.0 mm from the left support',
      'Section, 225.0 mm from the left support',
    ]);
  });

  test('a place can be moved only where all that has to change is the reader\'s own', () => {
    const values = sheetValues(UNEQUAL);
    const { given: _given, ...derived } = values.s2;
    const figure = beamFigureFrom({ ...values, s2: derived }, TEXTS);
    expect(freeBody(figure, options).handles.map((handle) => handle.name)).toEqual(['left support', 'right support', 'section']);
  });
});
