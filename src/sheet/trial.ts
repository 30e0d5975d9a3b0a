import type { EditCommand } from './edit.ts';
import type { GivenCell } from './types.ts';

/** Begins no symbol: symbols have no blanks in them. */
const TRIAL = 'trial ';

/** Name of a given's trial value among the inputs of a sheet: `trial s_1`. */
export function trialOf(symbol: string): string {
  return TRIAL + symbol;
}

/** The symbol whose trial value an input is; undefined for any other input. */
export function symbolOfTrial(target: string): string | undefined {
  return target.startsWith(TRIAL) ? target.slice(TRIAL.length) : undefined;
}

/** The text of a given's trial value; undefined where none stands. */
export function trialText({ trial }: GivenCell): string | undefined {
  return trial === undefined || trial.trim() === '' ? undefined : trial.trim();
}

/** Puts a trial value beside what was measured, or takes it away; what was measured stays byte for byte. */
export function setTrial(cellId: string, text: string | undefined): EditCommand {
  return { do: 'set key', cellId, key: 'trial', value: text };
}

/** Every trial value taken away, in one step. */
export function putBack(cells: readonly GivenCell[]): EditCommand {
  return { do: 'together', commands: cells.map(({ id }) => setTrial(id, undefined)) };
}
