/** What a part-span that is half as long again as it should be says, where it is typed and where it is used. */
import { expect, it } from 'vitest';
import { presentFigure, presentGiven, renderSheet, type WholeContext } from '../../src/report/index.ts';
import { cellOf, contextOf } from '../report/sheet-at.ts';
import { sheetText } from './solved.ts';

const SHEET = sheetText;
const READINGS = '199.5, 199.5, 200.0, 199.5 mm';
const withSpan = async (readings: string): Promise<WholeContext> => {
  expect(SHEET).toContain(READINGS);
  return contextOf(SHEET.replace(READINGS, readings));
};
const warnings = (context: WholeContext, symbol: string): readonly string[] => presentGiven(cellOf(context, 'given', symbol), context).warnings.map(({ what, mend }) => `${what} ${mend}`.replace(/[\u2066-\u2069]/g, ''));

it('is said at the four blanks, not ticked off, and not called to scale', async () => {
  const context = await withSpan('249.0, 249.0, 249.5, 249.0 mm');
  for (const symbol of ['L', 's_1', 's_2', 's_3']) {
    expect(warnings(context, symbol)).toEqual([expect.stringMatching(/^The closure −49\.13\smm is more than twice its standard uncertainty\. One of the four spans is wrong; measure again\.$/)]);
  }
  expect(warnings(context, 'd')).toEqual([]);
  expect(context.states.cell('weights-known')?.check?.holds).toBe(false);
  expect(presentFigure(cellOf(context, 'figure', 'free-body'), context).draw?.({ width: 640, idPrefix: 'a' }).sentence).toMatch(/^Not to scale, for the spans do not close/);
  expect(renderSheet(context)).not.toMatch(/\?\.<\/li>/);
});

it('is not said of spans that close', async () => {
  const context = await withSpan(READINGS);
  for (const symbol of ['L', 's_1', 's_2', 's_3']) expect(warnings(context, symbol)).toEqual([]);
  expect(context.states.cell('weights-known')?.check?.holds).toBe(true);
  const drawing = presentFigure(cellOf(context, 'figure', 'free-body'), context).draw?.({ width: 640, idPrefix: 'a' });
  expect(drawing?.sentence).toMatch(/^To scale/);
  expect(drawing?.description).toContain('l 1 = s 1 = 101.25 mm');
});

it('words in place of a life answer to their colon, and stand in brackets inside a sentence', async () => {
  const context = await contextOf(SHEET.replace('value: 310 N', 'value: 900 N').replace('{=P_e}.', '{=P_e}. It lasts {=N_f}.'));
  const prose = renderSheet(context).replace(/<[^>]*>/g, '').replace(/[\u2066-\u2069]/g, '');
  expect(prose).toContain('Predicted life: below 10³ cycles: outside this line. Time to fracture: below 10³ cycles');
  expect(prose).toContain('It lasts (below 10³ cycles: outside this line).');
});

it('concerns givens alone', async () => {
  const context = await contextOf(SHEET.replace('concerns: L, s_1, s_2, s_3', 'concerns: L, W'));
  expect(context.states.cell('closes')?.problems.map(({ what }) => what)).toEqual(['No given has the symbol W, so nothing can be said at its blank.']);
});
