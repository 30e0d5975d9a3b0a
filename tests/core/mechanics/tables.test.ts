import { describe, expect, test } from 'vitest';
import {
  beamReactions, momentAt, nominalBendingStress, rectangle, roundTube, shearAt, shearMomentDiagram, solidRound, stripStress,
  type Beam, type Section, type StripSupport,
} from '../../../src/core/mechanics/index.ts';
import beams from '../../tables/beams.json' with { type: 'json' };
import sections from '../../tables/sections.json' with { type: 'json' };

// Each case names its source in the table; numbers are compared in the table's units (mm, N, MPa).

interface Tolerance { kind: string; value: number }
interface Expected { value: number | number[]; tolerance: Tolerance }
interface TableCase {
  id: string;
  source: string;
  inputs: Record<string, { value: number | number[] }>;
  expected: Record<string, Expected>;
  recomputed: { value: Record<string, number | number[]> };
}

const mm = 1e-3;
const MPa = 1e6;
/** Where the value is zero: rounding of sums of some hundreds of newtons, seen in N mm. */
const roundingInTableUnits = 1e-10;

function number(of: TableCase, name: string): number {
  const value = of.inputs[name]?.value;
  if (typeof value !== 'number') throw new Error(`${of.id} has no number ${name}`);
  return value;
}

function numbers(of: TableCase, name: string): number[] {
  const value = of.inputs[name]?.value;
  if (!Array.isArray(value)) throw new Error(`${of.id} has no list ${name}`);
  return value;
}

/**
 * What of `actual` lies outside the printed value's tolerance, or off the table's full-precision recomputation; empty where all agrees.
 */
function disagreements(of: TableCase, name: string, actual: number | number[], recomputedTolerance = 1e-12): string[] {
  const expected = of.expected[name];
  if (!expected) throw new Error(`${of.id} expects no ${name}`);
  const { kind, value: tolerance } = expected.tolerance;
  const list = [actual].flat();
  const printed = [expected.value].flat();
  const full = [of.recomputed.value[name] ?? printed].flat();
  const near = (value: number, target: number, allowed: number) => Math.abs(value - target) <= Math.max(roundingInTableUnits, allowed);
  const agrees = (value: number, index: number) => {
    const target = printed[index] ?? Number.NaN;
    const recomputed = full[index] ?? Number.NaN;
    return near(value, target, kind === 'absolute' ? tolerance : tolerance * Math.abs(target))
      && (of.recomputed.value[name] === undefined || near(value, recomputed, recomputedTolerance * Math.abs(recomputed)));
  };
  if (list.length !== printed.length) return [`${list.length} values where the table has ${printed.length}`];
  return list.filter((value, index) => !agrees(value, index)).map((value) => `${value}, not ${printed.join(', ')}`);
}

function caseNamed(cases: readonly unknown[], id: string): TableCase {
  const found = (cases as TableCase[]).find((one) => one.id === id);
  if (!found) throw new Error(`no case ${id}`);
  return found;
}

describe('beams on two supports', () => {
  const onSupports = (beams.cases as unknown as TableCase[]).filter((one) => one.inputs['support_left']);
  test('the table has its seven cases', () => expect(onSupports).toHaveLength(7));

  test.each(onSupports.map((one) => [one.id, one] as const))('%s', (_id, one) => {
    const left = number(one, 'support_left');
    const forces = numbers(one, 'loads');
    const beam: Beam = {
      span: (number(one, 'support_right') - left) * mm,
      loads: numbers(one, 'load_positions').map((position, index) => ({
        position: (position - left) * mm, force: forces[index] ?? Number.NaN,
      })),
    };
    const places = numbers(one, 'sections').map((position) => (position - left) * mm);
    const reactions = beamReactions(beam);
    expect(disagreements(one, 'R_left', reactions.left)).toEqual([]);
    expect(disagreements(one, 'R_right', reactions.right)).toEqual([]);
    // The table sums in millimetres: a section on a load must fall on the same side of it here.
    const snapped = places.map((place) => beam.loads.find((load) => Math.abs(load.position - place) < 1e-12)?.position
      ?? (Math.abs(place - beam.span) < 1e-12 ? beam.span : place));
    expect(disagreements(one, 'moments', snapped.map((place) => momentAt(beam, place) / mm))).toEqual([]);
    expect(disagreements(one, 'shear_right_of', snapped.map((place) => shearAt(beam, place)))).toEqual([]);
  });

  test('cantilever: the overhang of a beam carries P x at x from its loaded end', () => {
    const one = caseNamed(beams.cases, 'beam-cantilever-end');
    const length = number(one, 'L') * mm;
    const beam: Beam = { span: 0.2, loads: [{ position: 0.2 + length, force: number(one, 'P') }] };
    const moments = numbers(one, 'x').map((x) => Math.abs(momentAt(beam, 0.2 + length - x * mm)) / mm);
    expect(disagreements(one, 'moments', moments)).toEqual([]);
  });
});

describe('strips bent by a set displacement', () => {
  const strip = (one: TableCase, support: StripSupport) => ({
    support, youngsModulus: number(one, 'E') * MPa, length: number(one, 'L') * mm, thickness: number(one, 't') * mm,
  });

  test('flat spring as cantilever', () => {
    const one = caseNamed(beams.cases, 'beam-flat-spring');
    const stress = numbers(one, 'delta').map((delta) => stripStress(strip(one, 'cantilever'), delta * mm) / MPa);
    const [greatest = 0, least = 0] = stress;
    expect(disagreements(one, 'sigma', stress, 1e-9)).toEqual([]);
    expect(disagreements(one, 'sigma_full', stress, 1e-9)).toEqual([]);
    expect(disagreements(one, 'mean', (greatest + least) / 2, 1e-9)).toEqual([]);
    expect(disagreements(one, 'amplitude', (greatest - least) / 2, 1e-9)).toEqual([]);
    expect(disagreements(one, 'R', least / greatest)).toEqual([]);
  });

  test('guided end', () => {
    const one = caseNamed(beams.cases, 'beam-guided');
    const stress = stripStress(strip(one, 'guided'), number(one, 'delta') * mm);
    expect(disagreements(one, 'sigma', stress / MPa, 1e-9)).toEqual([]);
    expect(disagreements(one, 'ratio_to_free_cantilever', stress / stripStress(strip(one, 'cantilever'), number(one, 'delta') * mm), 1e-9)).toEqual([]);
  });

  test('tapered', () => {
    const one = caseNamed(beams.cases, 'beam-tapered');
    expect(disagreements(one, 'sigma', stripStress(strip(one, 'tapered'), number(one, 'delta') * mm) / MPa, 1e-8)).toEqual([]);
  });

  test('driven in the middle: two half cantilevers, each bent by the same displacement over half the span', () => {
    // Symmetry of the elastic line; the factor of the table is independent of it.
    const whole = stripStress({ support: 'centre', youngsModulus: 70e9, length: 0.12, thickness: 0.003 }, 0.002);
    const half = stripStress({ support: 'cantilever', youngsModulus: 70e9, length: 0.06, thickness: 0.003 }, 0.002);
    expect(whole / half).toBeCloseTo(1, 12);
  });
});

describe('sections', () => {
  const millimetres = (of: Section): Record<string, number> => ({
    I: of.secondMoment / mm ** 4,
    c: of.fibreDistance / mm,
    W: of.sectionModulus / mm ** 3,
    W_published: of.sectionModulus / mm ** 3,
    area: of.area / mm ** 2,
  });
  const sectionDisagreements = (one: TableCase, of: Section): string[] =>
    Object.keys(one.expected).flatMap((name) => disagreements(one, name, millimetres(of)[name] ?? Number.NaN));

  test.each(['section-round-7.52', 'section-round-32'])('%s', (id) => {
    const one = caseNamed(sections.cases, id);
    expect(sectionDisagreements(one, solidRound(number(one, 'd') * mm))).toEqual([]);
  });

  test('tube', () => {
    const one = caseNamed(sections.cases, 'section-tube');
    expect(sectionDisagreements(one, roundTube(number(one, 'D') * mm, number(one, 'd_inner') * mm))).toEqual([]);
  });

  test('rectangle', () => {
    const one = caseNamed(sections.cases, 'section-rectangle');
    expect(sectionDisagreements(one, rectangle(number(one, 'width') * mm, number(one, 'height') * mm))).toEqual([]);
  });

  test('bending stress of a round bar, from the moment and from four-point bending', () => {
    const one = caseNamed(sections.cases, 'section-stress-round');
    const round = solidRound(number(one, 'd') * mm);
    expect(disagreements(one, 'sigma_M', nominalBendingStress(number(one, 'M') * mm, round) / MPa)).toEqual([]);
    const force = number(one, 'F') / 2;
    const arm = number(one, 'a') * mm;
    const beam: Beam = { span: 0.45, loads: [{ position: arm, force }, { position: 0.45 - arm, force }] };
    const { moment } = shearMomentDiagram(beam);
    expect(disagreements(one, 'sigma_4pt', nominalBendingStress(moment.greatest.value, round) / MPa)).toEqual([]);
  });

  test('a stress has the sign of its moment: hogging presses below', () => {
    expect(nominalBendingStress(-10, solidRound(0.006))).toBe(-nominalBendingStress(10, solidRound(0.006)));
  });

  test('stress at a shoulder', () => {
    const one = caseNamed(sections.cases, 'section-shigley-6-9-stress');
    const nominal = nominalBendingStress(number(one, 'M') * mm, solidRound(number(one, 'd') * mm));
    expect(disagreements(one, 'sigma', (number(one, 'Kf') * nominal) / MPa)).toEqual([]);
  });
});
