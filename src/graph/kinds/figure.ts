import type { Problem } from '../../core/problem/index.ts';
import type { CellBlock, FigureCell } from '../../sheet/types.ts';
import type { Form, NodeOfForm } from '../form.ts';
import { drawnOfFit } from './fit.ts';
import type { CompileContext } from '../compiled-types.ts';
import { showingNode, unknownSymbol } from '../showing-node.ts';

/** A drawing has no value and shows those of others. */
export const figureForm: Form<FigureCell> = {
  symbols: () => [],
  node: figureNode,
};

function figureNode(block: CellBlock, cell: FigureCell, context: CompileContext): NodeOfForm {
  const { names } = context;
  const [named, against] = [drawnSymbols(cell), sweptSymbols(cell)];
  const roles = [
    ...[...cell.values].map(([role, symbol]) => [symbol, `the value for ${role}`] as const),
    ...named.map((symbol) => [symbol, 'what is drawn'] as const), ...against.map((symbol) => [symbol, 'what it is drawn against'] as const),
  ];
  const chosen = cell.by === undefined ? undefined : names.chosen.get(cell.by);
  const fit = cell.fit === undefined ? undefined : names.fits.get(cell.fit);
  return showingNode(block, context, {
    reads: [...new Set(roles.map(([symbol]) => symbol))],
    problems: [
      ...cell.problems,
      ...roles.filter(([symbol]) => !names.definitions.has(symbol)).map(([symbol, role]) => unknownSymbol(symbol, role)),
      ...(cell.by !== undefined && chosen === undefined ? [notChosen(cell.by)] : []),
      ...(cell.fit !== undefined && fit === undefined ? [unknownFit(cell.fit, [...names.fits.keys()])] : []),
    ],
    drawn: fit === undefined ? [] : drawnOfFit(fit, names),
    form: chosen?.key,
  });
}

/** The symbols that a figure names under `of`. */
export function drawnSymbols({ of = '' }: FigureCell): readonly string[] {
  return listed(of);
}

/** The givens that a sweep names under `against`. */
export function sweptSymbols({ against = '' }: FigureCell): readonly string[] {
  return listed(against);
}

function listed(text: string): readonly string[] {
  return text.split(/[,;]/).map((symbol) => symbol.trim()).filter((symbol) => symbol !== '');
}

function notChosen(by: string): Problem {
  return {
    code: 'figure-choice',
    what: `The drawing takes its form from a choice “${by}”, and none is made there.`,
    mend: 'Add the choice, or choose one of its options.',
    key: 'by',
  };
}

function unknownFit(named: string, fits: readonly string[]): Problem {
  return {
    code: 'figure-fit',
    what: `There is no fit called ${named} in this sheet.`,
    mend: fits.length === 0 ? 'Add a fit, or take the line `fit:` out.' : `Name one of: ${fits.slice(0, 12).join(', ')}.`,
    key: 'fit',
  };
}
