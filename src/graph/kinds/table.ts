import type { Expression } from '../../core/formula/types.ts';
import type { Problem } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { ONE, parseUnit, type Unit } from '../../core/units/index.ts';
import type { CellBlock, TableCell, TableSymbol } from '../../sheet/types.ts';
import type { Form, NodeOfForm } from '../form.ts';
import { readingOf, resolveInputs, toldAt, valuesOf } from '../inputs.ts';
import type { CompileContext } from '../compiled-types.ts';
import { blockedBy, evaluateStep, openState } from '../step.ts';
import { aggregateRows, readTable, tableReads, type SheetSymbols, type TableState } from '../table/index.ts';
import type { CellState, SymbolState } from '../types.ts';

/** A table: its rows read into typed columns, with what its derived columns read of the sheet, and what it gives the sheet. */
export const tableForm: Form<TableCell> = {
  symbols: ({ symbols }) => symbols.map(({ symbol }) => symbol),
  addTo: ({ tables }, cell) => void tables.set(cell.id, cell),
  reads: tableReads,
  dimension: (cell, symbol) => unitOf(cell, symbol).dimension,
  node: tableNode,
  isHeld: ({ id }, { rows }) => rows?.has(id) === true,
};

function tableNode(block: CellBlock, cell: TableCell, context: CompileContext): NodeOfForm {
  const reads = tableReads(cell);
  const { inputs, problems: names } = resolveInputs(reads, context, block.id, 'columns');
  const fixed = context.problems.get(block.id) ?? [];
  const early = [...cell.problems, ...fixed, ...names];
  const symbols = (states: ReadonlyMap<string, SymbolState>): SheetSymbols => ({
    ...readingOf((name) => states.get(name)), dimensionOf: (name) => context.dimensions.get(name), names: [...context.names.definitions.keys()],
  });
  return {
    // A table on a loop, or whose symbol is taken, reads nobody: the runtime never sees the loop.
    inputs: fixed.length > 0 ? [] : inputs,
    signature: `table ${serialOf(block)} ${JSON.stringify([inputs, early])}`,
    compute: (states): CellState => {
      const table = readTable(cell, symbols(states));
      const given = cell.symbols.map((asked) => giveSymbol(asked, cell, table, { reads, states, trouble: early[0] }));
      const troubles = given.flatMap(({ trouble }) => trouble ?? []);
      return Object.freeze({
        cellId: block.id,
        table,
        ...(given.length === 0 ? {} : {
          results: new Map(given.map(({ symbol, state }) => [symbol, state])),
          expressions: new Map(given.flatMap(({ symbol, expression }) => (expression === undefined ? [] : [[symbol, expression] as const]))),
        }),
        reads,
        problems: toldAt(block.id, [...early, ...table.problems, ...troubles]),
        warnings: table.warnings,
      });
    },
  };
}

/** Unit of what a table gives: its column's, which a derived column therefore states unless it holds plain numbers; of a slope, that over the other's. */
function unitOf(cell: TableCell, symbol: string): Unit {
  const given = cell.symbols.find((one) => one.symbol === symbol);
  const textOf = (name: string | undefined): string => cell.columns.find(({ key }) => key === name)?.unit ?? '';
  const [own, other] = [textOf(given?.column), given?.of === 'slope' ? textOf(given.on) : ''];
  const unit = parseUnit(other === '' ? own : own === other ? '' : `${own === '' ? '1' : `(${own})`}/(${other})`);
  return unit.ok ? unit.value : ONE;
}

interface Given {
  readonly symbol: string;
  readonly state: SymbolState;
  readonly expression?: Expression;
  /** Trouble of its own, which the table has not told yet. */
  readonly trouble?: Problem;
}

interface Around {
  readonly reads: readonly string[];
  readonly states: ReadonlyMap<string, SymbolState>;
  /** What keeps the cell from being read at all. */
  readonly trouble: Problem | undefined;
}

/** A symbol as one expression over its rows, so that its uncertainty follows from what the derived columns read of the sheet. */
function giveSymbol(given: TableSymbol, cell: TableCell, table: TableState, { reads, states, trouble }: Around): Given {
  const { symbol } = given;
  const unit = unitOf(cell, symbol);
  const without = (problem: Problem): SymbolState => Object.freeze({ status: 'problem', problem: { ...problem, cell: cell.id }, unit });
  const problem = trouble ?? table.problems[0];
  if (problem !== undefined) return { symbol, state: without(problem) };
  const blocked = given.of === 'count' ? undefined : blockedBy(reads, states, unit);
  if (blocked !== undefined) return { symbol, state: blocked };
  const aggregate = aggregateRows(given, cell, table, unit);
  if (!aggregate.ok) return { symbol, state: without(aggregate.problem), trouble: aggregate.problem };
  const expression = aggregate.value;
  if (expression === undefined) return { symbol, state: openState(unit, 'a row') };
  const ready = { cellId: cell.id, formula: { text: '', expression }, unit, ranges: [], otherwise: '' };
  return { symbol, state: Object.freeze(evaluateStep(ready, valuesOf(reads, states))), expression };
}

let lastSerial = 0;

/** A number of its own for each block: the text of a long table is not put together only to be compared. */
const serialOf = remembered((_block: CellBlock) => ++lastSerial);
