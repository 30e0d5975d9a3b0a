import { ok, type Problem, type Result } from '../../core/problem/index.ts';
import { applyEdit, type EditCommand } from '../edit.ts';
import { entering } from '../enter-text.ts';
import type { HeldState } from '../held-types.ts';
import type { CellBlock, GivenCell, SheetDocument } from '../types.ts';

/** What a sheet's blanks and choices say at present, as `enterText` would take it: what is held. */
export function inputsOf(document: SheetDocument): ReadonlyMap<string, string> {
  const inputs = new Map<string, string>();
  for (const block of document.blocks) {
    if (block.kind !== 'cell') continue;
    const { cell } = block;
    const [target, text] = cell.kind === 'given' ? [cell.symbol, givenText(cell)] : cell.kind === 'choice' ? [cell.id, cell.chosen] : ['', ''];
    if (target !== '' && !inputs.has(target)) inputs.set(target, text);
  }
  return inputs;
}

function givenText({ value, readings }: GivenCell): string {
  return readings === undefined ? (value ?? '') : `[${readings}]`;
}

export interface SheetWithInputs {
  readonly document: SheetDocument;
  /** Inputs that this sheet can't take (any more). They stay in the held state. */
  readonly problems: readonly Problem[];
}

/** The document with held inputs in its blanks and choices; what is not held stays as it is. */
export function withInputs(document: SheetDocument, inputs: ReadonlyMap<string, string>): SheetWithInputs {
  const { commands, problems } = entries(document, inputs);
  let result = document;
  const refused: Problem[] = [...problems];
  for (const command of commands) {
    const next = applyEdit(result, command);
    if (next.ok) result = next.value;
    else refused.push(next.problem);
  }
  return { document: result, problems: refused };
}

/** One undoable step that puts the held inputs back. */
export function goBackTo(document: SheetDocument, { inputs }: HeldState): EditCommand {
  return { do: 'together', commands: entries(document, inputs).commands };
}

interface Entries {
  readonly commands: readonly EditCommand[];
  readonly problems: readonly Problem[];
}

/** The edits that make the difference: what stands there already is not written anew. */
function entries(document: SheetDocument, inputs: ReadonlyMap<string, string>): Entries {
  const present = inputsOf(document);
  const wanted = [...inputs].filter(([target, text]) => present.get(target) !== text);
  const read: readonly Result<EditCommand>[] = wanted.map(([target, text]) => emptied(document, target, text) ?? entering(document, target, text));
  return {
    commands: read.flatMap((one) => (one.ok ? [one.value] : [])),
    problems: read.flatMap((one) => (one.ok ? [] : [one.problem])),
  };
}

/** An empty blank has no key at all. */
function emptied(document: SheetDocument, target: string, text: string): Result<EditCommand> | undefined {
  if (text !== '') return undefined;
  const block = document.blocks.find((one): one is CellBlock => one.kind === 'cell' && one.cell.kind === 'given' && one.cell.symbol === target);
  return block === undefined ? undefined : ok({ do: 'set keys', cellId: block.id, values: new Map([['readings', undefined], ['value', undefined]]) });
}
