import { describe, expect, test } from 'vitest';
import { beamFigureFrom, freeBody, shearMoment, type Drawing } from '../../../src/figures/drawings/index.ts';
import { figureOf, mm, sheetValues, SYMMETRIC, TEXTS, UNEQUAL } from './sheet-values.ts';
import { all, numbersOf, readSvg, withClass, type Element } from './svg-reading.ts';

const draw = (figure = figureOf(UNEQUAL), width = 640): Drawing => freeBody(figure, { width, idPrefix: 'one' });

/** Arrow lengths, from the tail to the tip of the head, in drawing order: F1, F2, R_A, R_B. */
function arrows(svg: string, kind: 'load' | 'reaction'): { x: number; length: number; down: boolean }[] {
  return withClass(readSvg(svg), kind).map((arrow) => {
    const [x = 0, tail = 0] = numbersOf(withClass(arrow, 'force-line')[0] as Element, 'x1', 'y1');
    const tip = Number(withClass(arrow, 'force-head')[0]?.attributes['points']?.split(/[ ,]/)[1]);
    return { x, length: Math.abs(tip - tail), down: tip > tail };
  });
}

describe('to scale', () => {
  test('loads and reactions stand where the spans put them', () => {
    const drawing = draw();
    const [f1, f2] = arrows(drawing.svg, 'load');
    const [ra, rb] = arrows(drawing.svg, 'reaction');
    const metres = (x = 0, from = 0) => (x - from) / drawing.pxPerMetre;
    expect(metres(f1?.x, ra?.x)).toBeCloseTo(UNEQUAL.s1, 4);
    expect(metres(f2?.x, ra?.x)).toBeCloseTo(UNEQUAL.s1 + UNEQUAL.s2, 4);
    expect(metres(rb?.x, ra?.x)).toBeCloseTo(UNEQUAL.L, 4);
  });

  test.each([360, 640, 900])('arrow lengths are in proportion to the forces at %i px', (width) => {
    const { svg } = draw(figureOf(UNEQUAL), width);
    const lengths = [...arrows(svg, 'load'), ...arrows(svg, 'reaction')].map((arrow) => arrow.length);
    const values = sheetValues(UNEQUAL);
    const forces = [values.F1, values.F2, values.RA, values.RB].map((value) => value.si ?? 0);
    lengths.forEach((length, index) => expect(length / (lengths[0] ?? 1)).toBeCloseTo((forces[index] ?? 0) / (forces[0] ?? 1), 2));
  });

  test('loads point down and reactions up; a negative load is reversed', () => {
    const usual = draw().svg;
    expect(arrows(usual, 'load').map((arrow) => arrow.down)).toEqual([true, true]);
    expect(arrows(usual, 'reaction').map((arrow) => arrow.down)).toEqual([false, false]);
    const pulled = draw(figureOf({ ...UNEQUAL, F1: -300 })).svg;
    expect(arrows(pulled, 'load').map((arrow) => arrow.down)).toEqual([false, true]);
    expect(arrows(pulled, 'reaction')[0]?.down).toBe(true);
  });

  test('dimension lines are as long as their spans, and the closure of measured spans shows', () => {
    const drawing = draw(figureOf({ ...UNEQUAL, s3: UNEQUAL.s3 - 0.01 }));
    const [chain] = withClass(readSvg(drawing.svg), 'chain');
    const lengths = withClass(chain as Element, 'dimension-line').map((line) => {
      const [from = 0, to = 0] = numbersOf(line, 'x1', 'x2');
      return (to - from) / drawing.pxPerMetre;
    });
    expect(lengths.map((length) => length.toFixed(3))).toEqual(['0.080', '0.200', '0.160']);
  });

  test('is not said of spans that do not close within twice their uncertainty', () => {
    const values = sheetValues({ ...UNEQUAL, s2: UNEQUAL.s2 + 0.049 });
    const measured = (u: number) => Object.fromEntries(Object.entries(values).map(([role, value]) => [role, { ...value, uncertainty: u }]));
    const off = draw(beamFigureFrom(measured(0.0003), TEXTS));
    expect(off.sentence).toMatch(/^Not to scale, for the spans do not close: the left support/);
    expect(off.description).toContain('The part-spans add up to 49.0 mm more than L.');
    // Twice the root of four squares: 4 u. Within it the closure is what measuring brings.
    expect(draw(beamFigureFrom(measured(0.0123), TEXTS)).sentence).toMatch(/^To scale: /);
    expect(draw(beamFigureFrom(measured(0.0122), TEXTS)).sentence).toMatch(/^Not to scale/);
    expect(draw(beamFigureFrom({ ...measured(0.0003), s2: { ...values.s2, si: UNEQUAL.s2 - 0.02 } }, TEXTS)).description).toContain('20.0 mm less than L.');
  });

  test('a length that is a given under another name has both, on one line or above its figure', () => {
    const named = { ...sheetValues(UNEQUAL), s1: { ...sheetValues(UNEQUAL).s1, symbol: 'l_1', names: 's_1' } };
    for (const width of [360, 900]) expect(draw(beamFigureFrom(named, TEXTS), width).svg.replace(/<[^>]*>/g, '')).toMatch(/l1\u00a0=\u00a0s1/);
    expect(draw(beamFigureFrom(named, TEXTS)).description).toContain('l 1 = s 1 = 80.0 mm');
  });

  test('arrowheads of dimensions are three times as long as wide', () => {
    const heads = withClass(readSvg(draw().svg), 'dimension-head');
    expect(heads.length).toBeGreaterThanOrEqual(10);
    for (const head of heads) {
      const [tipX = 0, , x1 = 0, y1 = 0, , y2 = 0] = (head.attributes['points'] ?? '').split(/[ ,]/).map(Number);
      expect(Math.abs(tipX - x1) / Math.abs(y1 - y2)).toBeCloseTo(3, 2);
    }
  });

  test('one unit is one px, and no letter is smaller than 12 px except subscripts', () => {
    for (const width of [340, 640, 900]) {
      const root = readSvg(draw(figureOf(UNEQUAL), width).svg);
      expect(root.attributes['viewBox']).toBe(`0 0 ${width} ${root.attributes['height']}`);
      expect(root.attributes['width']).toBe(String(width));
      const sizes = all(root).filter((element) => element.name === 'text').map((element) => Number(element.attributes['font-size']));
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12);
    }
  });
});

describe('figures', () => {
  test('every value is written once beside its symbol', () => {
    const { svg } = draw(figureOf(UNEQUAL), 900);
    const texts = all(readSvg(svg)).filter((element) => element.name === 'text').map((element) => element.text.replaceAll('\u00A0', ' '));
    for (const expected of ['F1 = 300.0 N', 'F2 = 120.0 N', 's1 = 80.0 mm', 's2 = 200.0 mm', 's3 = 170.0 mm', 'L = 450.0 mm', 'xs = 200.0 mm', 'd = 6.3 mm']) {
      expect(texts.filter((text) => text === expected), expected).toHaveLength(1);
    }
  });

  test('the figures of givens can be typed over, and stand where their text stands', () => {
    const drawing = draw(figureOf(UNEQUAL), 900);
    expect(drawing.figures.map((figure) => figure.given).sort()).toEqual(['L', 'd', 's_1', 's_2', 's_3', 'x_s']);
    const texts = withClass(readSvg(drawing.svg), 'yours');
    expect(texts).toHaveLength(6);
    for (const text of texts) {
      const [y = 0] = numbersOf(text, 'y');
      const x = Number(text.attributes['x']);
      expect(drawing.figures.some((one) => x >= one.x && x <= one.x + one.width && y > one.y && y <= one.y + one.height)).toBe(true);
    }
  });

  test('on a phone no two figures of the chain run into each other', () => {
    for (const s1 of [0.01, 0.03, 0.06, 0.1, 0.2]) {
      const { figures } = draw(figureOf({ ...SYMMETRIC, s1, s2: 0.35 - s1 }), 340);
      const chain = figures.filter((figure) => ['s_1', 's_2', 's_3'].includes(figure.given));
      for (const one of chain) {
        for (const other of chain.filter((figure) => figure !== one)) {
          const apart = one.x + one.width <= other.x + 4 || other.x + other.width <= one.x + 4
            || one.y + one.height <= other.y + 4 || other.y + other.height <= one.y + 4;
          expect(apart, `${one.given} and ${other.given} at s_1 = ${s1}`).toBe(true);
        }
      }
    }
  });

  test('a span too short for its figure has a leader to it', () => {
    const { svg } = draw(figureOf({ ...SYMMETRIC, s1: 0.012, s2: 0.338 }));
    expect(withClass(readSvg(svg), 'leader').length).toBeGreaterThanOrEqual(1);
  });

  test('text from the sheet is escaped', () => {
    const values = sheetValues(UNEQUAL);
    const hostile = '</text><script>alert("1")</script>&\u0000\uD800';
    const figure = beamFigureFrom({ ...values, RA: { ...values.RA, symbol: hostile, text: hostile } }, TEXTS);
    const drawing = freeBody(figure, { width: 640, idPrefix: 'a"><b' });
    expect(all(readSvg(drawing.svg)).map((element) => element.name)).not.toContain('script');
    expect(drawing.svg).not.toContain('\u0000');
    expect(() => readSvg(shearMoment(figure, { width: 640, idPrefix: 'a"><b' }).svg)).not.toThrow();
  });
});

describe('hidden and missing', () => {
  test('hidden reactions show letters only, with arrows of one length, and no word tells them', () => {
    const drawing = draw(figureOf(UNEQUAL, ['RA', 'RB']));
    const { RA, RB } = sheetValues(UNEQUAL);
    for (const { text } of [RA, RB]) {
      expect(drawing.svg).not.toContain(text.replace(' ', '\u00A0'));
      expect(drawing.svg + drawing.description + drawing.sentence).not.toContain(text);
    }
    const lengths = arrows(drawing.svg, 'reaction').map((arrow) => arrow.length);
    expect(lengths[0]).toBe(lengths[1]);
    expect(arrows(drawing.svg, 'load').map((arrow) => arrow.length)).toEqual(arrows(draw(figureOf(UNEQUAL, ['RA', 'RB'])).svg, 'load').map((arrow) => arrow.length));
  });

  test('the load arrows do not move with a hidden reaction', () => {
    const hiddenWith = (s1: number) => arrows(draw(figureOf({ ...UNEQUAL, s1 }, ['RA', 'RB'])).svg, 'load').map((arrow) => arrow.length);
    expect(hiddenWith(0.08)).toEqual(hiddenWith(0.2));
  });

  test('what is missing is named in the drawing, which shows a schematic with letters', () => {
    const values = sheetValues(UNEQUAL);
    const figure = beamFigureFrom({ ...values, s2: { ...values.s2, si: undefined, text: '' } }, TEXTS);
    const drawing = freeBody(figure, { width: 640, idPrefix: 'one' });
    const notes = withClass(readSvg(drawing.svg), 'notes').map((note) => note.text);
    expect(notes).toEqual(['Not to scale. No value yet for s2.']);
    expect(drawing.description).toContain('No value yet for s 2.');
    expect(drawing.handles).toEqual([]);
    expect(withClass(readSvg(drawing.svg), 'force')).toHaveLength(4);
  });

  test('an empty sheet still gives the shaft, its supports and every letter', () => {
    const root = readSvg(freeBody(beamFigureFrom({}, TEXTS), { width: 340, idPrefix: 'one' }).svg);
    expect(withClass(root, 'support')).toHaveLength(2);
    expect(withClass(root, 'notes')[0]?.text.replace(/\s+/g, ' ')).toContain('No value yet for L, s1, s2, s3, F1, F2, RA, RB.');
  });

  test('a span of zero is told', () => {
    const { svg } = draw(figureOf({ ...UNEQUAL, L: 0 }));
    expect(withClass(readSvg(svg), 'notes')[0]?.text).toMatch(/^Not to scale/);
  });
});

describe('words', () => {
  test('text alternative and sentence say the values', () => {
    const drawing = draw(figureOf(SYMMETRIC));
    expect(drawing.sentence).toBe('To scale: the left support carries 200.0 N, the right support carries 200.0 N.');
    expect(drawing.description).toBe('A rotating shaft on two supports, pin on the left and roller on the right. '
      + 'Loads: F 1 = 200.0 N downwards 100.0 mm from the left support; F 2 = 200.0 N downwards 350.0 mm from the left support. '
      + 'Reactions: R A = 200.0 N on the left, R B = 200.0 N on the right. Lengths: s 1 = 100.0 mm, s 2 = 250.0 mm, s 3 = 100.0 mm, L = 450.0 mm. '
      + 'The section is at x s = 225.0 mm, diameter d = 6.3 mm.');
    const root = readSvg(drawing.svg);
    const [title, desc] = root.children;
    expect(root.attributes['aria-labelledby']).toBe(`${title?.attributes['id']} ${desc?.attributes['id']}`);
    expect(desc?.text).toBe(drawing.description);
  });

  test('a support that would have to pull is told so', () => {
    const { sentence } = draw(figureOf({ ...UNEQUAL, s2: 0.45, s3: -0.08, F1: 0 }));
    expect(sentence).toBe('To scale: the left support holds the shaft down (-21.3 N), the right support carries 141.3 N.');
    expect(mm(0.1)).toBe('100.0 mm');
  });
});
