/** Charts as presented: what they read of the sheet, what they withhold, and what is said where there is none. */
import { describe, expect, test } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { presentFigure, renderSheet, type WholeContext } from '../../src/report/index.ts';
import { applyEdit, parseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { cellOf, contextOf, fenced, given, step } from './sheet-at.ts';

const read = (name: string): string => shipped(name);
const BENDING = read('rotating-bending');
const CLASS = read('sn-line');
const ALTERNATING = read('alternating-bending');

function chartOf(context: WholeContext, id: string, width = 700) {
  const figure = presentFigure(cellOf(context, 'figure', id), context);
  const chart = figure.chart?.({ width, idPrefix: 'x' });
  if (chart === undefined) throw new Error(figure.instead ?? 'no chart');
  return chart;
}

const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ');

describe('the S-N chart of the rotating-bending sheet', () => {
  test('has the estimated line with its knee and limit, and the specimen at its life', async () => {
    const context = await contextOf(BENDING);
    const { svg, sentence, points } = chartOf(context, 's-n');
    expect(plain(sentence)).toMatch(/^The line is estimated from the tensile strength, drawn from 1000 to 10⁶ cycles\./);
    expect(plain(svg)).toContain('endurance limit');
    const life = context.states.symbol('N_f');
    expect(life?.status).toBe('value');
    expect(plain(points[0]?.tell() ?? '')).toMatch(/^This specimen: 371\.8 MPa, median life 121 000 cycles, 95 % of such specimens between 15 500 and 945 000 cycles\.$/);
  });

  test('a supplied line has neither knee nor limit', async () => {
    const supplied = BENDING.replace('id: line\nlabel: Line used for the life\nchosen: estimated', 'id: line\nlabel: Line used for the life\nchosen: supplied');
    const { svg, sentence } = chartOf(await contextOf(supplied), 's-n');
    expect(sentence).toMatch(/^The line is supplied by you\./);
    expect(svg).not.toContain('endurance limit');
  });

  test('below the limit the specimen has a stress and no life', async () => {
    const light = BENDING.replace('value: 310 N', 'value: 150 N');
    const { svg, sentence } = chartOf(await contextOf(light), 's-n');
    expect(svg).toContain('this specimen, below the limit, where the line gives no life');
    expect(sentence).toContain('below the limit, where the line gives no life.');
  });

  test('what the reader still has to work out is not given away', async () => {
    const asked = BENDING.replace('own_working: false', 'own_working: true');
    const context = await contextOf(asked);
    const { svg, sentence, points, description } = chartOf(context, 's-n');
    expect(points).toEqual([]);
    expect(sentence).toBe('The line and your specimen appear here once you have worked them out.');
    for (const text of [svg, description]) expect(text).not.toMatch(/371\.8|142.?000|314\.8/);
    expect(renderSheet(context)).not.toMatch(/371\.8/);
    expect(chartOf({ ...context, reveal: true }, 's-n').points.length).toBe(1);
  });

  test('follows the unit system of the reader', async () => {
    const { svg } = chartOf(await contextOf(BENDING, 'US customary'), 's-n');
    expect(plain(svg)).toContain('/ ksi');
    expect(plain(svg)).not.toContain('MPa');
  });
});

describe('the S-N chart of a class', () => {
  test('shows the stress where a specimen broke, from the column that machine sheets hand on', async () => {
    const handed = CLASS.replace('specimen,group,S [MPa],N,outcome\n', 'specimen,group,S [MPa],N,outcome,S_break [MPa]\n').replace('K06,steel K,380,561088,fracture', 'K06,steel K,380,561088,fracture,352')
      .replaceAll(/^( {2}[KM]\d\d,steel .,\d+,\d+,\w+)$/gm, '$1,');
    const context = await contextOf(handed);
    expect(context.states.cell('specimens')?.problems).toEqual([]);
    const { points } = chartOf(context, 's-n');
    const told = points.map((point) => plain(point.tell())).filter((one) => one.includes('where it broke'));
    expect(told.map((one) => one.slice(0, 80))).toEqual(['K06 (steel K): 380 MPa, broke at 561 088 cycles, under 352 MPa where it broke. A']);
    // The line is fitted to the stress that was set, as before.
    const line = async (text: string): Promise<unknown> => (await contextOf(text)).states.cell('line')?.fit?.fit.parameters;
    expect(await line(handed)).toEqual(await line(CLASS));
  });
});

describe('the charts of the alternating-bending sheet', () => {
  test('the specimen stands on the line at its equivalent stress, and in the constant-life diagram at amplitude and mean', async () => {
    const context = await contextOf(ALTERNATING);
    expect(plain(chartOf(context, 's-n').points[0]?.tell() ?? '')).toMatch(/^This specimen: 431\.4 MPa, median life 18 400 cycles/);
    const diagram = chartOf(context, 'constant-life');
    expect(plain(diagram.sentence)).toMatch(/^This specimen: an amplitude of 419\.6 MPa, with a mean stress of 17\.24 MPa\. By Goodman it has the life of 431\.4 MPa fully reversed, 18 400 cycles by the line/);
    expect(plain(diagram.svg)).toContain('18 400 cycles by Goodman');
    const walker = await contextOf(ALTERNATING.replace('chosen: goodman', 'chosen: walker'));
    expect(plain(chartOf(walker, 'constant-life').svg)).toContain('cycles by Walker');
    expect(plain(chartOf(await contextOf(ALTERNATING, 'US customary'), 'constant-life').svg)).toContain('/ ksi');
  });

  test('both keep to themselves what the reader still has to work out', async () => {
    const context = await contextOf(ALTERNATING.replace('own_working: false', 'own_working: true'));
    for (const id of ['s-n', 'constant-life']) {
      const { svg, sentence, points } = chartOf(context, id);
      expect(points).toEqual([]);
      expect(`${svg.replace(/<[^>]*>/g, ' ')}${sentence}`).not.toMatch(/431\.4|419\.6|17\.24|24.?800|315/);
      expect(svg).not.toMatch(/median-line|limit-line|current/);
    }
  });
});

describe('charts of a fit', () => {
  test('the class’s chart has every test that counts, the residual plots one point a fracture', async () => {
    const context = await contextOf(CLASS);
    const fit = context.states.cell('line')?.fit;
    const chart = chartOf(context, 's-n');
    expect(chart.points.length).toBe(24);
    expect(plain(chart.sentence)).toContain('19 specimens broke between 52 073 and 6 892 692 cycles; 5 runouts are marked by arrows.');
    expect(chartOf(context, 'residuals').points.length).toBe(fit?.fit.failures);
    expect(chartOf(context, 'normal-scores').points.length).toBe(fit?.fit.failures);
    expect(renderSheet(context).match(/class="drawing chart"/g)?.length).toBe(6);
  });

  test('one group alone is drawn where the fit is of one group', async () => {
    const alone = CLASS.replace('label: Specimens used\nchosen: all', 'label: Specimens used\nchosen: steel K');
    const chart = chartOf(await contextOf(alone), 's-n');
    expect(chart.points.length).toBe(12);
    expect(chart.svg).not.toContain('steel M');
  });

  test('after an edit of a row the chart is another, and the figure is among what has changed', async () => {
    const document = parseSheet(CLASS);
    const graph = createSheetGraph(document);
    const before = { document, states: await graph.settled(), system: 'SI' as const };
    const changed: ReadonlySet<string>[] = [];
    graph.subscribe((ids) => changed.push(ids));
    const edited = applyEdit(document, { do: 'set table cell', cellId: 'specimens', row: 0, column: 'N', text: '30000' });
    if (!edited.ok) throw new Error(edited.problem.what);
    graph.update(edited.value);
    const after = { document: edited.value, states: await graph.settled(), system: 'SI' as const };
    graph.dispose();
    expect(changed.some((ids) => ids.has('s-n') && ids.has('residuals'))).toBe(true);
    expect(chartOf(after, 's-n').svg).not.toBe(chartOf(before, 's-n').svg);
    expect(plain(chartOf(after, 's-n').sentence)).toContain('between 30 000 and');
  });

  test('without a line the points stand alone; residual plots say why there are none', async () => {
    const flat = CLASS.replace(/^ {2}[KM]\d\d.*\n/gm, '').replace('rows: |\n  specimen,group,S [MPa],N,outcome\n', 'rows: |\n  specimen,group,S [MPa],N,outcome\n  K01,steel K,460,81493,fracture\n');
    const context = await contextOf(flat);
    expect(context.states.cell('line')?.fit).toBeUndefined();
    expect(chartOf(context, 's-n').points.length).toBe(1);
    expect(presentFigure(cellOf(context, 'figure', 'residuals'), context).instead).toBe('This chart appears once its fit has a line.');
    const likely = await contextOf(CLASS.replace('label: Method\nchosen: least-squares', 'label: Method\nchosen: maximum-likelihood'));
    expect(presentFigure(cellOf(likely, 'figure', 'residuals'), likely).instead).toMatch(/^Residuals are drawn for least squares/);
    expect(renderSheet(likely)).toContain('Residuals are drawn for least squares');
  });

  test('a fit that is not there is told at the figure, with those that are', async () => {
    const context = await contextOf(CLASS.replace('id: s-n\nlabel: S-N chart\ndrawing: s-n\nfit: line', 'id: s-n\nlabel: S-N chart\ndrawing: s-n\nfit: lime'));
    const { problems } = presentFigure(cellOf(context, 'figure', 's-n'), context);
    expect(problems.map(({ code }) => code)).toEqual(['figure-fit']);
    expect(problems[0]?.mend).toContain('line');
    expect(chartOf(context, 's-n').points).toEqual([]);
  });

  test('share and confidence of the design curve may be the sheet’s', async () => {
    const named = CLASS.replace('drawing: s-n\nfit: line', 'drawing: s-n\nfit: line\nscale: plain\nvalues:\n  share: P_x\n  confidence: C_x')
      + `\n${given('P_x', '0.99', '1')}\n${given('C_x', '0.9', '1')}`;
    const context = await contextOf(named);
    expect(plain(chartOf(context, 's-n').sentence)).toContain('At least 99 % of specimens outlast the design curve, with 90 % confidence.');
    expect(chartOf(context, 's-n').description).toContain('life on a logarithmic scale');
  });
});

describe('other charts', () => {
  test('an unknown drawing names those that are known', async () => {
    const context = await contextOf(fenced('figure', 'id: odd', 'drawing: pie') + step('a', '1', '1'));
    expect(presentFigure(cellOf(context, 'figure', 'odd'), context).problems[0]?.mend).toBe('Choose one of: free-body, shear-moment, loading-lever, plane-bending, stress-along, stress-along-axis, s-n, constant-life, residuals, normal-scores, staircase, sweep, budget.');
  });

  test('a staircase is drawn from what its fit has found', async () => {
    const context = await contextOf(read('staircase'));
    const findings = context.states.cell('staircase')?.findings;
    if (findings?.form !== 'staircase') throw new Error('no staircase');
    const chart = chartOf(context, 'stairs');
    expect(chart.points.length).toBe(findings.levels.filter((level) => level > 0).length);
    expect(plain(chart.sentence)).toContain('The median strength is');
    expect(plain(chart.sentence)).toContain('The next specimen is for');
  });
});
