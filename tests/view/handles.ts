/** The handles of a sheet's drawings as the page has them, without a page. */
import { CHART_NAMES, presentFigure } from '../../src/report/index.ts';
import type { Handle } from '../../src/figures/drawings/index.ts';
import { canMove } from '../../src/view/figures/reach.ts';
import { benchDesk, type BenchDesk } from '../bench-desk.ts';

export interface Bench extends BenchDesk {
  /** Those that are shown, with the drawing they are in. */
  handles(): readonly { readonly figure: string; readonly handle: Handle }[];
  /** The text of a given's own keys, as they stand in the document. */
  written(symbol: string): { readonly value: string | undefined; readonly readings: string | undefined; readonly trial: string | undefined };
}

export async function benchWith(text: string): Promise<Bench> {
  const bench = await benchDesk(text);
  const { desk, context } = bench;
  return {
    ...bench,
    handles: () => context().document.blocks.flatMap((block) => {
      // A chart is drawn at a width by other means and has no handles.
      if (block.kind !== 'cell' || block.cell.kind !== 'figure' || CHART_NAMES.includes(block.cell.drawing)) return [];
      const handles = presentFigure(block.cell, context()).draw?.({ width: 640, idPrefix: 'x' }).handles ?? [];
      return handles.filter((handle) => canMove(handle, desk)).map((handle) => ({ figure: block.id, handle }));
    }),
    written: (symbol) => {
      for (const block of context().document.blocks) {
        if (block.kind === 'cell' && block.cell.kind === 'given' && block.cell.symbol === symbol) {
          return { value: block.cell.value, readings: block.cell.readings, trial: block.cell.trial };
        }
      }
      throw new Error(`no given ${symbol}`);
    },
  };
}
