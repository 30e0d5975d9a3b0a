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

/** Holds `actual` against the printed value at its tolerance, and against the table's full-precision recomputation. */
function compare(of: TableCase, name: string, actual: number | number[], recomputedTolerance = 1e-12): void {
  const expected = of.expected[name];
  if (!expected) throw new Error(`${of.id} expects no ${name}`);
  const list = [actual].flat();
  const printed = [expected.value].flat();
  expect(list).toHaveLength(printed.length);
  list.forEach((value, index) => {
    const target = printed[index] ?? Number.NaN;
    const allowed = expected.tolerance.kind === 'absolute' ? expected.tolerance.value
      : target === 0 ? roundingInTableUnits : expected.tolerance.value * Math.abs(target);
    expect(Math.abs(value - target), `${of.id} ${name}[${index}]`).toBeLessThanOrEqual(allowed);
    const full = [of.recomputed.value[name] ?? []].flat()[index];
    if (full !== undefined) {
      expect(Math.abs(value - full)).toBeLessThanOrEqual(Math.max(roundingInTableUnits, recomputedTolerance * Math.abs(full)));
    }
  });
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
    compare(one, 'R_left', reactions.left);
    compare(one, 'R_right', reactions.right);
    // The table sums in millimetres: a section on a load must fall on the same side of it here.
    const snapped = places.map((place) => beam.loads.find((load) => Math.abs(load.position - place) < 1e-12)?.position
      ?? (Math.abs(place - beam.span) < 1e-12 ? beam.span : place));
    compare(one, 'moments', snapped.map((place) => momentAt(beam, place) / mm));
    compare(one, 'shear_right_of', snapped.map((place) => shearAt(beam, place)));
  });

  test('cantilever: the overhang of a beam carries P x at x from its loaded end', () => {
    const one = caseNamed(beams.cases, 'beam-cantilever-end');
    const length = number(one, 'L') * mm;
    const beam: Beam = { span: 0.2, loads: [{ position: 0.2 + length, force: number(one, 'P') }] };
    const moments = numbers(one, 'x').map((x) => Math.abs(momentAt(beam, 0.2 + length - x * mm)) / mm);
    compare(one, 'moments', moments);
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
    compare(one, 'sigma', stress, 1e-9);
    compare(one, 'sigma_full', stress, 1e-9);
    compare(one, 'mean', (greatest + least) / 2, 1e-9);
    compare(one, 'amplitude', (greatest - least) / 2, 1e-9);
    compare(one, 'R', least / greatest);
  });

  test('guided end', () => {
    const one = caseNamed(beams.cases, 'beam-guided');
    const stress = stripStress(strip(one, 'guided'), number(one, 'delta') * mm);
    compare(one, 'sigma', stress / MPa, 1e-9);
    compare(one, 'ratio_to_free_cantilever', stress / stripStress(strip(one, 'cantilever'), number(one, 'delta') * mm), 1e-9);
  });

  test('tapered', () => {
    const one = caseNamed(beams.cases, 'beam-tapered');
    compare(one, 'sigma', stripStress(strip(one, 'tapered'), number(one, 'delta') * mm) / MPa, 1e-8);
  });

  test('driven in the middle: two half cantilevers, each bent by the same displacement over half the span', () => {
    // Symmetry of the elastic line; the factor of the table is independent of it.
    const whole = stripStress({ support: 'centre', youngsModulus: 70e9, length: 0.12, thickness: 0.003 }, 0.002);
    const half = stripStress({ support: 'cantilever', youngsModulus: 70e9, length: 0.06, thickness: 0.003 }, 0.002);
    expect(whole / half).toBeCloseTo(1, 12);
  });
});

describe('sections', () => {
  const compareSection = (one: TableCase, of: Section) => {
    compare(one, 'I', of.secondMoment / mm ** 4);
    compare(one, 'c', of.fibreDistance / mm);
    compare(one, 'W', of.sectionModulus / mm ** 3);
    if (one.expected['area']) compare(one, 'area', of.area / mm ** 2);
    if (one.expected['W_published']) compare(one, 'W_published', of.sectionModulus / mm ** 3);
  };

  test.each(['section-round-7.52', 'section-round-32'])('%s', (id) => {
    const one = caseNamed(sections.cases, id);
    compareSection(one, solidRound(number(one, 'd') * mm));
  });

  test('tube', () => {
    const one = caseNamed(sections.cases, 'section-tube');
    compareSection(one, roundTube(number(one, 'D') * mm, number(one, 'd_inner') * mm));
  });

  test('rectangle', () => {
    const one = caseNamed(sections.cases, 'section-rectangle');
    compareSection(one, rectangle(number(one, 'width') * mm, number(one, 'height') * mm));
  });

  test('bending stress of a round bar, from the moment and from four-point bending', () => {
    const one = caseNamed(sections.cases, 'section-stress-round');
    const round = solidRound(number(one, 'd') * mm);
    compare(one, 'sigma_M', nominalBendingStress(number(one, 'M') * mm, round) / MPa);
    const force = number(one, 'F') / 2;
    const arm = number(one, 'a') * mm;
    const beam: Beam = { span: 0.45, loads: [{ position: arm, force }, { position: 0.45 - arm, force }] };
    const { moment } = shearMomentDiagram(beam);
    compare(one, 'sigma_4pt', nominalBendingStress(moment.greatest.value, round) / MPa);
  });

  test('stress at a shoulder', () => {
    const one = caseNamed(sections.cases, 'section-shigley-6-9-stress');
    const nominal = nominalBendingStress(number(one, 'M') * mm, solidRound(number(one, 'd') * mm));
    compare(one, 'sigma', (number(one, 'Kf') * nominal) / MPa);
  });
});
