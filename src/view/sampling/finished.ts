import type { SheetStates } from '../../graph/index.ts';
import type { SampledSteps } from '../../report/index.ts';
import type { CellUi } from '../desk.ts';

/** What has been sampled of results as they now are, where it lies open. */
export function finishedSamples(uis: ReadonlyMap<string, CellUi>, states: SheetStates): SampledSteps {
  return new Map([...uis].flatMap(([blockId, { open, sampling: { sampled } }]) =>
    (sampled !== undefined && open.has('draws') && states.symbol(sampled.result.symbol) === sampled.state ? [[blockId, sampled.result] as const] : [])));
}
