import type { Problem } from '../../core/problem/index.ts';
import { groupsBehind } from '../../sheet/index.ts';
import type { CellBlock, ChoiceCell, SheetDocument } from '../../sheet/types.ts';
import type { Form, NamesInMaking, NodeOfForm } from '../form.ts';
import { isMissing } from '../fit/line-awaited.ts';
import { optionInForce } from '../option-in-force.ts';
import type { CompileContext } from '../compiled-types.ts';
import { showingNode, unknownSymbol } from '../showing-node.ts';

/** A choice has no value; its option sets values and formulas of others. */
export const choiceForm: Form<ChoiceCell> = {
  symbols: () => [],
  addTo: addChosen,
  node: choiceNode,
  isHeld: () => true,
  atStart: ({ id, chosen }) => [`choice ${id}`, chosen],
};

function addChosen(names: NamesInMaking, cell: ChoiceCell, document: SheetDocument): void {
  const option = optionInForce(cell, document)?.option;
  if (option === undefined) {
    names.otherKeys.set(cell.id, { label: `“${cell.label ?? cell.id}”`, typed: cell.chosen, groups: groupsBehind(document, cell.id) });
    return;
  }
  names.chosen.set(cell.id, option);
  if (isMissing(option, document)) return;
  for (const [symbol, text] of option.sets) names.fillings.set(symbol, { text, choice: cell, option });
}

function choiceNode(block: CellBlock, cell: ChoiceCell, context: CompileContext): NodeOfForm {
  const { chosen, otherKeys, definitions } = context.names;
  const option = chosen.get(cell.id);
  const groups = otherKeys.get(cell.id)?.groups ?? [];
  const unset = [...(option?.sets.keys() ?? [])].filter((symbol) => !definitions.has(symbol));
  return showingNode(block, context, { problems: [
    ...cell.problems,
    ...(option === undefined && cell.chosen !== '' && !groups.includes(cell.chosen) ? [optionUnknown(cell, groups)] : []),
    ...unset.map((symbol) => unknownSymbol(symbol, 'what this option sets')),
  ] });
}

function optionUnknown({ chosen, options }: ChoiceCell, groups: readonly string[]): Problem {
  const keys = [...new Set([...options.map(({ key }) => key), ...groups])];
  return {
    code: 'option-unknown',
    what: `“${chosen}” is none of the options here${groups.length > 0 ? ', and no group of the table' : ''}.`,
    mend: `Choose one of: ${keys.join(', ')}.`,
    key: 'chosen',
  };
}
