/** The handles of a sheet's drawings as the page has them, without a page. */
import { presentFigure, unitSystemOf, type WholeContext } from '../../src/report/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import type { Handle } from '../../src/figures/drawings/index.ts';
import type { Desk } from '../../src/view/desk.ts';
import { canMove } from '../../src/view/figures/reach.ts';
import { createSession } from '../../src/view/session.ts';

export interface Bench {
  readonly desk: Desk;
  context(): WholeContext;
  /** Those that are shown, with the drawing they are in. */
  handles(): readonly { readonly figure: string; readonly handle: Handle }[];
  /** The text of a given's own keys, as they stand in the document. */
  written(symbol: string): { readonly value: string | undefined; readonly readings: string | undefined; readonly trial: string | undefined };
  /** What was announced. */
  readonly said: readonly string[];
  settled(): Promise<void>;
  dispose(): void;
}

export async function benchWith(text: string): Promise<Bench> {
  const session = createSession(parseSheet(text), { now: () => new Date(0) });
  const said: string[] = [];
  let computed: Promise<void>;
  const next = (): Promise<void> => new Promise((resolve) => {
    const stop = session.subscribe(() => {
      stop();
      resolve();
    });
  });
  computed = next();
  const context = (): WholeContext => ({ document: session.document(), states: session.states(), system: unitSystemOf(session.document()) });
  const desk = {
    context,
    apply: (command) => {
      const after = next();
      const { ok } = session.apply(command);
      if (ok) computed = after;
      return ok;
    },
    settle: () => session.settle(),
    announce: (sentence) => void said.push(sentence),
    changeUi: () => undefined,
    session,
  } satisfies Partial<Desk> as unknown as Desk;
  await computed;
  return {
    desk,
    said,
    context,
    handles: () => context().document.blocks.flatMap((block) => {
      if (block.kind !== 'cell' || block.cell.kind !== 'figure') return [];
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
    settled: () => computed,
    dispose: () => session.dispose(),
  };
}
