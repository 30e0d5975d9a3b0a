import { drawRequest, type SheetStates, type SymbolState } from '../../graph/index.ts';
import { presentDraws, type DrawnSteps } from '../../report/index.ts';
import type { CellUi, Desk } from '../desk.ts';
import { cancelDrawing } from './draws-ui.ts';

/** A sheet that has just changed may change again with the next key. */
const PAUSE = 400;

/**
 * Sees to it that the draws of a result are those of the sheet as it stands: begins them, and after an edit ends those in hand
 * and begins anew. Called whenever the cell is drawn; does nothing where all is in order.
 */
export function keepDrawn(blockId: string, symbol: string, state: SymbolState, desk: Desk): void {
  const { draws } = desk.ui(blockId);
  const { begun, seed, digits } = draws;
  if (begun !== undefined && begun.state === state && begun.seed === seed && begun.digits === digits) return;
  cancelDrawing(draws);
  draws.begun = { state, seed, digits };
  draws.hasFailed = false;
  // The first ones, and those that were just asked for, need no waiting.
  const isAsked = begun === undefined || begun.state === state;
  draws.waiting = setTimeout(() => begin(blockId, symbol, state, desk), isAsked ? 0 : PAUSE);
}

function begin(blockId: string, symbol: string, state: SymbolState, desk: Desk): void {
  const { draws } = desk.ui(blockId);
  // Meanwhile another edit may have been made; its results, once in the page, ask again.
  if (desk.drawer === undefined || desk.session.states().symbol(symbol) !== state) return;
  const { seed, digits } = draws;
  const request = drawRequest(desk.session.plan(), desk.session.states(), symbol, { seed, digits });
  draws.inHand = desk.drawer.draw(request, {
    progress: (progress) => desk.changeUi(blockId, (ui) => void (ui.draws.progress = progress)),
    done: (result) => {
      desk.changeUi(blockId, (ui) => {
        ui.draws.inHand = undefined;
        ui.draws.progress = undefined;
        ui.draws.drawn = { result, state };
      });
      const said = presentDraws(result, state, desk.context())?.spoken;
      if (said !== undefined) desk.announce(said);
    },
    failed: () => desk.changeUi(blockId, (ui) => {
      ui.draws.inHand = undefined;
      ui.draws.hasFailed = true;
    }),
  });
  desk.changeUi(blockId, () => undefined);
}

/** What has been drawn of results as they now are, where it lies open. */
export function finishedDraws(uis: ReadonlyMap<string, CellUi>, states: SheetStates): DrawnSteps {
  return new Map([...uis].flatMap(([blockId, { open, draws: { drawn } }]) =>
    (drawn !== undefined && open.has('draws') && states.symbol(drawn.result.symbol) === drawn.state ? [[blockId, drawn.result] as const] : [])));
}
