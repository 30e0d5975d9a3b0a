import { describe, expect, test } from 'vitest';
import { beamFigureFrom, freeBody, shearMoment, type Drawing } from '../../../src/figures/drawings/index.ts';
import { figureOf, sheetValues, SYMMETRIC, TEXTS, UNEQUAL } from './sheet-values.ts';
import { readSvg, withClass, type Element } from './svg-reading.ts';

const options = { width: 640, idPrefix: 'sm' };
const draw = (figure = figureOf(UNEQUAL)): Drawing => shearMoment(figure, options);

function corners(drawing: Drawing, panel: 'shear' | 'moment'): { x: number; y: number }[] {
  const [of] = withClass(readSvg(drawing.svg), panel);
  const [curve] = withClass(of as Element, 'curve');
  return (curve?.attributes['points'] ?? '').split(' ').map((pair) => {
    const [x = Number.NaN, y = Number.NaN] = pair.split(',').map(Number);
    return { x, y };
  });
}

function zeroLevel(drawing: Drawing, panel: 'shear' | 'moment'): number {
  const [of] = withClass(readSvg(drawing.svg), panel);
  return Number(withClass(of as Element, 'zero-line')[0]?.attributes['y1']);
}

describe('curves', () => {
  test('line up with the free body above', () => {
    const above = freeBody(figureOf(UNEQUAL), options);
    const below = draw();
    expect(below.frame).toEqual(above.frame);
    expect(below.pxPerMetre).toBe(above.pxPerMetre);
    const loadX = withClass(readSvg(above.svg), 'load').map((arrow) => Number(withClass(arrow, 'force-line')[0]?.attributes['x1']));
    expect(corners(below, 'moment').map((corner) => corner.x)).toEqual(expect.arrayContaining(loadX));
  });

  test('heights are in proportion to shear and moment, positive upwards', () => {
    // By hand: R_A = (300*0.37 + 120*0.17)/0.45 = 292 N; V = 292, -8, -128 N; M = 0, 23.36, 21.76, 0 N m.
    const drawing = draw();
    const shear = corners(drawing, 'shear').map((corner) => zeroLevel(drawing, 'shear') - corner.y);
    expect(shear).toHaveLength(8);
    [0, 292, 292, -8, -8, -128, -128, 0].forEach((value, index) => expect((shear[index] ?? 0) / (shear[1] ?? 1)).toBeCloseTo(value / 292, 2));
    const moment = corners(drawing, 'moment').map((corner) => zeroLevel(drawing, 'moment') - corner.y);
    [0, 23.36, 21.76, 0].forEach((value, index) => expect((moment[index] ?? 0) / (moment[1] ?? 1)).toBeCloseTo(value / 23.36, 2));
    expect(moment[1]).toBeGreaterThan(0);
  });

  test('the section is marked on both curves with the sheet\'s own values', () => {
    const drawing = draw();
    const root = readSvg(drawing.svg);
    expect(withClass(root, 'section-dot')).toHaveLength(2);
    expect(withClass(root, 'look').map((text) => text.text.replaceAll('\u00A0', ' '))).toEqual(['Vs = -8.0 N', 'Ms = 22.40 N·m']);
  });

  test('extreme values carry their figure', () => {
    const texts = withClass(readSvg(draw().svg), 'value').map((text) => text.text.replaceAll('\u00A0', ' '));
    expect(texts).toEqual(expect.arrayContaining(['292.0 N', '-128.0 N', '23.36 N·m']));
  });

  test('each panel is hatched with the drawing\'s own pattern', () => {
    const { svg } = draw();
    expect(svg).toContain('<pattern id="sm-hatch"');
    expect(svg.match(/fill="url\(#sm-hatch\)"/g)).toHaveLength(2);
  });
});

describe('hidden and missing', () => {
  test('a panel whose shape would answer an asked step is not drawn', () => {
    for (const hidden of ['RA', 'moment'] as const) {
      const drawing = draw(figureOf(UNEQUAL, [hidden]));
      const root = readSvg(drawing.svg);
      const [moment] = withClass(root, 'moment');
      expect(withClass(moment as Element, 'curve')).toHaveLength(0);
      expect(moment?.text).toContain('drawn once you have worked it out');
      expect(drawing.svg + drawing.sentence + drawing.description).not.toMatch(/23\.36|22\.40/);
    }
    expect(corners(draw(figureOf(UNEQUAL, ['moment'])), 'shear')).toHaveLength(8);
  });

  test('what is missing is named', () => {
    const values = sheetValues(UNEQUAL);
    const figure = beamFigureFrom({ ...values, F2: { ...values.F2, si: undefined, text: '' } }, TEXTS);
    const drawing = draw(figure);
    expect(withClass(readSvg(drawing.svg), 'notes')[0]?.text).toBe('The diagrams need a value for F2.');
    expect(drawing.sentence).toBe('The diagrams appear here when every length and force has a value.');
  });

  test('a section outside the supports has no values of the sheet, whose formulas end there', () => {
    const drawing = draw(figureOf({ ...UNEQUAL, xs: 0.5 }));
    expect(withClass(readSvg(drawing.svg), 'section-dot')).toHaveLength(0);
    expect(drawing.sentence).not.toContain('at the section');
  });
});

describe('sentence', () => {
  test.each([
    [SYMMETRIC, 'Shear is zero between the load points, so the moment there is constant at 20.00 N·m.'],
    [UNEQUAL, 'The largest bending moment, 23.36 N·m, is at the left load point; at the section it is 22.40 N·m.'],
    [{ ...SYMMETRIC, F1: 0, F2: 0 }, 'Nothing bends the shaft: the moment is zero everywhere.'],
    [{ ...SYMMETRIC, s1: 0.2, s2: 0, s3: 0.25, xs: 0.2 }, 'The largest bending moment, 44.44 N·m, is where both loads act.'],
    [{ ...SYMMETRIC, L: 0.3, s1: -0.05, s2: 0.4, s3: -0.05 }, 'Shear is zero between the supports, so the moment there is constant at -10.00 N·m.'],
  ])('%#', (setUp, sentence) => {
    expect(draw(figureOf(setUp)).sentence).toBe(sentence);
  });
});
