import { describe, expect, it } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { fromSI, parseUnit } from '../../src/core/units/index.ts';
import { createSheetGraph, type SheetStates } from '../../src/graph/index.ts';
import { presentPhoto } from '../../src/report/index.ts';
import { parseSheet, pictureText, type SheetDocument } from '../../src/sheet/index.ts';
import { JPEG } from '../sheet/photo/small-pictures.ts';

const PICTURE = `picture: |\n${(pictureText(JPEG) ?? '').replace(/^(?=.)/gm, '  ')}`;
const SYMBOLS = 'symbols:\n  share: A_r\n  eccentricity: e_r\n  rotation: phi_r\n  area: A_s\n  final_area: A_f\n';
const SQUARE = 'outline: 0,0 20,0 20,16 0,16\n';

async function sheet(body: string): Promise<{ readonly document: SheetDocument; readonly states: SheetStates }> {
  const document = parseSheet(`\`\`\`photo\nid: p\n${body}\`\`\`\n`);
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return { document, states };
}

function valueIn(states: SheetStates, symbol: string, unit: string): number {
  const state = states.symbol(symbol);
  const read = parseUnit(unit);
  return state?.status === 'value' && read.ok ? fromSI(state.estimate.value, read.value) : Number.NaN;
}

describe('a picture gives the sheet', () => {
  it('shares, places and areas by plain geometry', async () => {
    const { states } = await sheet(`${SYMBOLS}scale: 0,0 20,0 = 10 mm\n${SQUARE}final: 10,0 20,0 20,8 10,8\norigins: 0,16\n${PICTURE}`);
    expect(valueIn(states, 'A_r', '%')).toBeCloseTo(25, 10);
    expect(valueIn(states, 'A_s', 'mm^2')).toBeCloseTo(80, 10);
    expect(valueIn(states, 'A_f', 'mm^2')).toBeCloseTo(20, 10);
    expect(valueIn(states, 'e_r', '1')).toBeCloseTo(Math.hypot(5, 4) / Math.sqrt(320 / Math.PI), 10);
    // The origin lies in the corner opposite the zone, on the line through both middles.
    expect(valueIn(states, 'phi_r', '°')).toBeCloseTo(0, 10);
    expect([states.cell('p')?.problems, states.cell('p')?.warnings]).toEqual([[], []]);
  });

  it('uncertainties of points marked to a dot, the scale’s among them', async () => {
    const { states } = await sheet(`${SYMBOLS}scale: 0,0 20,0 = 10 mm\n${SQUARE}final: 10,0 20,0 20,8 10,8\norigins: 0,16\n${PICTURE}`);
    const u = (symbol: string): number => {
      const state = states.symbol(symbol);
      return state?.status === 'value' ? standardUncertainty(state.estimate) : Number.NaN;
    };
    // Shoelace formula: u(A) = 2 u √[(w/2)² + (h/2)²], 25.61 and 12.81 square dots; the length of 20 dots to √2.
    const [section, final] = [2 * Math.hypot(10, 8), 2 * Math.hypot(5, 4)];
    expect(u('A_r') / 0.25).toBeCloseTo(Math.hypot(section / 320, final / 80), 2);
    expect(u('A_s') / 80e-6).toBeCloseTo(Math.hypot(section / 320, (2 * Math.SQRT2) / 20), 6);
    expect(u('A_f') / 20e-6).toBeCloseTo(Math.hypot(final / 80, (2 * Math.SQRT2) / 20), 6);
    expect(u('phi_r')).toBeGreaterThan(0);
  });

  it('shares by circle and ellipse, laid through the points, and says what it laid', async () => {
    const on = (x: number, y: number, a: number, b: number, n: number): string => Array.from({ length: n }, (_, i) => {
      const t = (2 * Math.PI * i) / n + 0.2;
      return `${(x + a * Math.cos(t)).toFixed(4)},${(y + b * Math.sin(t)).toFixed(4)}`;
    }).join(' ');
    const marks = `outline: ${on(12, 9, 9, 9, 4)}\noutline_shape: circle\nfinal: ${on(14, 9, 4, 2, 7)}\nfinal_shape: ellipse\n`;
    const { document, states } = await sheet(`${SYMBOLS}${marks}${PICTURE}`);
    expect(valueIn(states, 'A_r', '%')).toBeCloseTo((100 * 4 * 2) / 81, 2);
    expect(valueIn(states, 'e_r', '1')).toBeCloseTo(2 / 9, 3);
    const cell = document.blocks.flatMap((block) => (block.kind === 'cell' ? [block.cell] : [])).find(({ kind }) => kind === 'photo');
    if (cell?.kind !== 'photo') throw new Error('no picture');
    const { facts } = presentPhoto(cell, { document, states, system: 'SI' });
    expect(facts[0]).toEqual({ name: 'Borders', text: 'section: a circle through 4 points; final zone: an ellipse through 7 points' });
  });

  it('counts nothing beyond the rim, and asks where points lie far off their circle', async () => {
    const { states } = await sheet(`${SYMBOLS}outline: 0,0 24,0 24,16 0,16\nfinal: 16,8 20,4 24,8 20,12 \nfinal_shape: circle\n${PICTURE}`);
    expect(states.cell('p')?.photo?.borders.final).toMatchObject({ shape: 'circle', points: 4, isCut: false });
    const off = await sheet(`${SYMBOLS}outline: 0,0 24,0 24,16 0,16\noutline_shape: circle\nfinal: 10,8 12,6 14,8\nfinal_shape: ellipse\n${PICTURE}`);
    expect(off.states.cell('p')?.photo?.borders).toMatchObject({ outline: { shape: 'circle', points: 4 }, final: { shape: 'circle', points: 3, misfit: 0 } });
    const cut = await sheet(`${SYMBOLS}outline: 0,0 24,0 24,16 0,16\nfinal: 18,8 22,4 25,8 22,12\nfinal_shape: circle\n${PICTURE}`);
    expect(cut.states.cell('p')?.photo?.borders.final?.isCut).toBe(true);
  });

  it('nothing yet, and no error, while there is no picture, no outline or no scale', async () => {
    for (const [body, symbol] of [[SYMBOLS, 'A_r'], [SYMBOLS + PICTURE, 'A_r'], [`${SYMBOLS}${SQUARE}final: 10,0 20,0 20,8\n${PICTURE}`, 'A_s'],
      [`${SYMBOLS}${SQUARE}final: 10,0 20,0 20,8\n${PICTURE}`, 'phi_r']] as const) {
      const { states } = await sheet(body);
      expect(states.symbol(symbol)).toMatchObject({ status: 'range', word: 'open' });
      expect(states.cell('p')?.problems).toEqual([]);
    }
  });

  it.each([
    ['outline: 1,1 2,2\n', 'outline-open'],
    [`${SQUARE}final: 10,2 30,2 30,8\n`, 'zone-outside'],
    ['outline: 0,0 20,16 20,0 0,16\n', 'outline-crosses'],
    ['outline: 0,0 5,5 9,9\nfinal: 0,0 1,0 1,1\n', 'section-flat'],
    ['outline: 0,0 5,5 9,9\noutline_shape: circle\nfinal: 0,0 1,0 1,1\n', 'border-unfitted'],
  ])('a warning in words: %j', async (marks, code) => {
    const { states } = await sheet(SYMBOLS + marks + PICTURE);
    expect(states.cell('p')?.warnings.map((warning) => warning.code)).toContain(code);
  });

  it.each([['scale: 0,0 20,0 = 3 kg\n', 'scale'], ['scale: 0,0 0,0 = 3 mm\n', 'scale'], ['outline: x\n', 'outline'], ['picture: AAAA\n', 'picture']])(
    'an error in words: %j', async (line, key) => {
      const { states } = await sheet(SYMBOLS + line + (key === 'picture' ? '' : PICTURE));
      expect(states.cell('p')?.problems).toMatchObject([{ key, cell: 'p' }]);
      expect(states.symbol('A_r')?.status).toBe('problem');
    });

  it('is said in words, as far as it is marked', async () => {
    const { document, states } = await sheet(`${SYMBOLS}${SQUARE}final: 10,0 20,0 20,8 10,8\n${PICTURE}`);
    const [block] = document.blocks;
    if (block?.kind !== 'cell' || block.cell.kind !== 'photo') throw new Error('no photo');
    const photo = presentPhoto(block.cell, { document, states, system: 'SI' });
    expect(photo.alternative).toContain('Final zone: 25.0 % of the section');
    expect(photo.says.join(' ')).toMatch(/moderate nominal stress/);
    expect(photo.untold).toMatch(/never proves/);
  });
});

/** A picture of a section of 320 square dots with a final zone of so many dots across. */
const half = (id: string, across: number, more = ''): string =>
  `\`\`\`photo\nid: ${id}\nlabel: half ${id}\n${more}${SQUARE}final: 10,0 ${10 + across},0 ${10 + across},8 10,8\n${PICTURE}\`\`\`\n`;

async function sheetOf(text: string): Promise<{ readonly states: SheetStates; readonly photo: (id: string) => ReturnType<typeof presentPhoto> }> {
  const document = parseSheet(text);
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  const photo = (id: string): ReturnType<typeof presentPhoto> => {
    const block = document.blocks.find((one) => one.id === id);
    if (block?.kind !== 'cell' || block.cell.kind !== 'photo') throw new Error('no photo');
    return presentPhoto(block.cell, { document, states, system: 'SI' });
  };
  return { states, photo };
}

const factOf = ({ facts }: ReturnType<typeof presentPhoto>, wanted: string): string | undefined => facts.find(({ name }) => name === wanted)?.text;
const codes = (states: SheetStates, id: string): readonly string[] => [...(states.cell(id)?.problems ?? []), ...(states.cell(id)?.warnings ?? [])].map(({ code }) => code);

describe('both halves of a fracture', () => {
  it('agree within twice the uncertainty of their difference, or are told not to', async () => {
    // Shares 80/320 and 76/320; u of each by the shoelace formula as above, so that they lie 0.0125/√(u₁² + u₂²) apart.
    const [one, two] = [2 * Math.hypot(10, 8) / 320, 2 * Math.hypot(5, 4) / 80];
    const other = Math.hypot(one, (2 * Math.hypot(4.75, 4)) / 76) * (76 / 320);
    const apart = 0.0125 / Math.hypot(0.25 * Math.hypot(one, two), other);
    const { states, photo } = await sheetOf(half('a', 10) + half('b', 9.5, 'half_of: a\n'));
    expect(states.cell('b')?.photo?.half?.agreement?.apart).toBeCloseTo(apart, 2);
    expect(factOf(photo('b'), 'Both halves')).toBe(`23.8 % here and 25.0 % on “half a”; they agree: ${apart.toFixed(2)} times the uncertainty of their difference apart, within 2`);
    expect([codes(states, 'b'), photo('b').other?.label]).toEqual([[], 'half a']);
    expect([states.cell('a')?.photo?.half, photo('a').other]).toEqual([undefined, undefined]);

    const far = await sheetOf(half('a', 10) + half('b', 3, 'half_of: a\n'));
    expect(codes(far.states, 'b')).toEqual(['halves-differ']);
    expect(factOf(far.photo('b'), 'Both halves')).toContain('they do not agree');
  });

  it('wait for each other', async () => {
    const empty = '```photo\nid: a\n```\n';
    expect(factOf((await sheetOf(empty + half('b', 9, 'half_of: a\n'))).photo('b'), 'Both halves')).toBe('there is no picture there yet');
    const unmarked = `\`\`\`photo\nid: a\n${PICTURE}\`\`\`\n`;
    expect(factOf((await sheetOf(unmarked + half('b', 9, 'half_of: a\n'))).photo('b'), 'Both halves')).toBe('are compared once section and final zone are outlined there');
  });

  it.each(['nobody', 'b'])('a picture that is none, or this one, is no other half: %s', async (name) => {
    expect(codes((await sheetOf(half('a', 10) + half('b', 10, `half_of: ${name}\n`))).states, 'b')).toEqual(['half-unknown']);
  });
});

describe('a picture and where the specimen broke', () => {
  const placed = (place: string, area: string, scale = 'scale: 0,0 20,0 = 10 mm\n'): string =>
    `\`\`\`given\nsymbol: x_f\nunit: mm\npossible: any\noptional: true\n${place === '' ? '' : `value: ${place}\n`}\`\`\`\n\`\`\`given\nsymbol: A_x\nvalue: ${area}\nunit: mm^2\n\`\`\`\n${half('p', 10, `${scale}broke_at: x_f\nsection_there: A_x\n`)}`;

  it('agree where the section in the picture is the specimen’s there, and are told where it is not', async () => {
    // 320 square dots at half a millimetre are 80 mm²; u as above, of outline and scale.
    const u = 80 * Math.hypot((2 * Math.hypot(10, 8)) / 320, (2 * Math.SQRT2) / 20);
    const { states, photo } = await sheetOf(placed('1 mm', '85 mm^2'));
    expect(states.cell('p')?.photo?.place?.agreement?.apart).toBeCloseTo(5 / u, 3);
    expect([codes(states, 'p'), photo('p').place?.cellId]).toEqual([[], 'x_f']);
    expect(photo('p').place?.sentence.replace(/[\u2066-\u2069]/g, '').replaceAll('\u00a0', ' ')).toMatch(/^It broke at 1\.?0* mm, where the section is 85\.?0* mm²; in the picture it is 80\.0 mm²\. They agree: 0\.\d+ times/);
    const off = await sheetOf(placed('1 mm', '160 mm^2'));
    expect(codes(off.states, 'p')).toEqual(['section-elsewhere']);
    expect(off.photo('p').place?.sentence).toContain('They do not agree');
  });

  it('says what is missing: the place, or the scale', async () => {
    expect((await sheetOf(placed('', '85 mm^2'))).photo('p').place?.sentence).toBe('Where it broke is not written down yet.');
    expect((await sheetOf(placed('1 mm', '85 mm^2', ''))).photo('p').place?.sentence).toContain('With the scale the section in the picture is held against that.');
  });

  it('takes an area for the section, and names that there are', async () => {
    const text = placed('1 mm', '85 mm^2');
    expect(codes((await sheetOf(text.replace('section_there: A_x', 'section_there: x_f'))).states, 'p')).toEqual(['section-no-area']);
    expect(codes((await sheetOf(text.replace('broke_at: x_f', 'broke_at: x_9'))).states, 'p')).toEqual(['role-symbol-unknown']);
  });
});
