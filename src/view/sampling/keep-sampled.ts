import { samplingRequest, type SymbolState } from '../../graph/index.ts';
import { presentSamples } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { cancelSampling } from './sampling-ui.ts';

/** A sheet that has just changed may change again with the next key. */
const PAUSE = 400;

/**
 * Sees to it that the samples of a result are those of the sheet as it stands: begins them, and after an edit ends those in hand
 * and begins anew. Called whenever the cell is sampled; does nothing where all is in order.
 */
export function keepSampled(blockId: string, symbol: string, state: SymbolState, desk: Desk): void {
  const { sampling } = desk.ui(blockId);
  const { begun, seed, digits } = sampling;
  if (begun !== undefined && begun.state === state && begun.seed === seed && begun.digits === digits) return;
  cancelSampling(sampling);
  sampling.begun = { state, seed, digits };
  sampling.hasFailed = false;
  // The first ones, and those that were just asked for, need no waiting.
  const isAsked = begun === undefined || begun.state === state;
  sampling.waiting = setTimeout(() => begin(blockId, symbol, state, desk), isAsked ? 0 : PAUSE);
}

function begin(blockId: string, symbol: string, state: SymbolState, desk: Desk): void {
  const { sampling } = desk.ui(blockId);
  // Meanwhile another edit may have been made; its results, once in the page, ask again.
  if (desk.sampler === undefined || desk.session.states().symbol(symbol) !== state) return;
  const { seed, digits } = sampling;
  const request = samplingRequest(desk.session.compiled(), desk.session.states(), symbol, { seed, digits });
  sampling.inHand = desk.sampler.sample(request, {
    progress: (progress) => desk.changeUi(blockId, (ui) => void (ui.sampling.progress = progress)),
    done: (result) => {
      desk.changeUi(blockId, (ui) => {
        ui.sampling.inHand = undefined;
        ui.sampling.progress = undefined;
        ui.sampling.sampled = { result, state };
      });
      const said = presentSamples(result, state, desk.context())?.spoken;
      if (said !== undefined) desk.announce(said);
    },
    failed: () => desk.changeUi(blockId, (ui) => {
      ui.sampling.inHand = undefined;
      ui.sampling.hasFailed = true;
    }),
  });
  desk.changeUi(blockId, () => undefined);
}
