import { fail, nearNames, ok, type Problem, type Result } from '../core/problem/index.ts';
import { cellIn } from './cells-of.ts';
import { applyEdit, type EditCommand } from './edit.ts';
import { groupsBehind } from './table/groups.ts';
import { setTrial, trialOf } from './trial.ts';
import type { ChoiceCell, SheetDocument } from './types.ts';

/**
 * The document with `text` entered where the sheet's blank or choice for `target` is: a given's symbol or a choice's id.
 * Nothing entered at a choice takes it back. A list in square brackets becomes the given's repeated readings; anything else becomes its one value and drops them. What
 * is entered counts: a trial value goes. `trial SYMBOL` is the trial value itself, '' takes it away.
 * Problems: `enter-unknown`, `enter-derived`, `enter-option`.
 */
export function enterText(document: SheetDocument, target: string, text: string): Result<SheetDocument> {
  const command = entering(document, target, text);
  return command.ok ? applyEdit(document, command.value) : command;
}

/** What entering it does, as an edit. */
export function entering(document: SheetDocument, target: string, text: string): Result<EditCommand> {
  for (const block of document.blocks) {
    const given = cellIn(block, 'given');
    if (given?.symbol === target) return ok(enteringGiven(block.id, text));
    if (given !== undefined && target === trialOf(given.symbol)) return ok(setTrial(block.id, text.trim() === '' ? undefined : text));
    if (cellIn(block, 'step')?.symbol === target) return fail(derivedProblem(target));
    const choice = cellIn(block, 'choice');
    if (choice?.id === target) return choosing(document, choice, text);
  }
  return fail(unknownProblem(document, target));
}

function choosing(document: SheetDocument, { id, options }: ChoiceCell, text: string): Result<EditCommand> {
  const keys = [...new Set([...options.map(({ key }) => key), ...groupsBehind(document, id)])];
  if (text.trim() === '') return ok({ do: 'set key', cellId: id, key: 'chosen', value: undefined });
  return keys.includes(text) ? ok({ do: 'set key', cellId: id, key: 'chosen', value: text }) : fail(optionProblem(id, text, keys));
}

/** What a given's blank does with a text: one undo step that sets the value or the readings, and drops the other and the trial value. */
function enteringGiven(cellId: string, text: string): EditCommand {
  const list = /^\[([^[\]]*)\](.*)$/s.exec(text.trim());
  const [, readings = '', unit = ''] = list ?? [];
  const values = new Map(
    list === null
      ? [['readings', undefined], ['value', text], ['trial', undefined]]
      : [['value', undefined], ['readings', `${readings.trim()}${unit}`], ['trial', undefined]],
  );
  return { do: 'set keys', cellId, values };
}

function derivedProblem(symbol: string): Problem {
  return {
    code: 'enter-derived',
    what: `${symbol} is derived by the sheet and can't be set.`,
    mend: 'Set one of the givens it comes from.',
  };
}

function optionProblem(target: string, text: string, keys: readonly string[]): Problem {
  return {
    code: 'enter-option',
    what: `“${text}” is none of the options of ${target}.`,
    mend: `Choose one of: ${keys.join(', ')}.`,
  };
}

function unknownProblem(document: SheetDocument, target: string): Problem {
  const known = document.blocks.flatMap((block) => cellIn(block, 'given')?.symbol ?? cellIn(block, 'choice')?.id ?? []);
  const near = nearNames(target, known);
  return {
    code: 'enter-unknown',
    what: `No given or choice of this sheet is called ${target}.`,
    mend: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `There are: ${known.join(', ')}.`,
  };
}
