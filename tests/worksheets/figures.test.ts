import { describe, expect, it } from 'vitest';
import { presentFigure, type PresentContext } from '../../src/report/index.ts';
import { enterText, parseSheet } from '../../src/sheet/index.ts';
import { contextOfDocument } from '../report/sheet-at.ts';
import { sheetText } from './solved.ts';

async function contextWith(target: string, text: string): Promise<PresentContext> {
  const entered = enterText(parseSheet(sheetText), target, text);
  if (!entered.ok) throw new Error(entered.problem.what);
  return contextOfDocument(entered.value);
}

function drawn(context: PresentContext, id: string) {
  const block = context.document.blocks.find((one) => one.id === id);
  if (block?.kind !== 'cell' || block.cell.kind !== 'figure') throw new Error(`no figure ${id}`);
  const drawing = presentFigure(block.cell, context).draw?.({ width: 700, idPrefix: 't' });
  if (drawing === undefined) throw new Error('not drawn');
  return drawing;
}

describe('the drawings of the rotating-bending sheet', () => {
  it.each(['measured', 'adjusted'])('move the measured spans, with the spans %s', async (spans) => {
    const { handles } = drawn(await contextWith('spans', spans), 'free-body');
    expect(handles.map(({ name }) => name).sort()).toEqual(
      ['left load point', 'left support', 'right load point', 'right support', 'section'],
    );
    const load = handles.find(({ name }) => name === 'left load point');
    expect(load?.moves).toEqual([{ symbol: 's_1', sign: 1 }, { symbol: 's_2', sign: -1 }]);
  });

  it('write a small shear with the places of a large one', async () => {
    const { svg } = drawn(await contextWith('L', '401.25 mm'), 'shear-moment');
    expect(svg).toContain('153.');
    expect(svg).not.toMatch(/[\u2212-]0\.\d{3,}/);
  });
});
