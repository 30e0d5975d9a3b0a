import { standardUncertainty } from '../core/estimate/index.ts';
import type { CellBlock, TableCell } from '../sheet/types.ts';
import type { PlanContext, PlanNode } from './plan.ts';
import { resolveInputs } from './step-node.ts';
import { readTable, tableReads, type SheetSymbols } from './table/index.ts';
import type { CellState, SymbolState } from './types.ts';

/** A table: its rows read into typed columns, with what its derived columns read of the sheet. */
export function tableNode(block: CellBlock, cell: TableCell, context: PlanContext): PlanNode {
  const reads = tableReads(cell);
  const { inputs, problems: names } = resolveInputs(reads, context, block.id, 'columns');
  const early = [...cell.problems, ...(context.problems.get(block.id) ?? []), ...names];
  return {
    cellId: block.id,
    symbols: [],
    inputs,
    signature: `table ${serialOf(block)} ${JSON.stringify([inputs, early])}`,
    compute: (states): CellState => {
      const table = readTable(cell, sheetSymbols(states, context));
      return Object.freeze({
        cellId: block.id,
        table,
        reads,
        problems: [...early, ...table.problems].map((problem) => ({ ...problem, cell: block.id })),
        warnings: table.warnings,
      });
    },
  };
}

const serials = new WeakMap<CellBlock, number>();
let lastSerial = 0;

/** A number of its own for each block: the text of a long table is not put together only to be compared. */
function serialOf(block: CellBlock): number {
  const serial = serials.get(block) ?? ++lastSerial;
  serials.set(block, serial);
  return serial;
}

function sheetSymbols(states: ReadonlyMap<string, SymbolState>, context: PlanContext): SheetSymbols {
  const estimateOf = (name: string) => {
    const state = states.get(name);
    return state?.status === 'value' ? state.estimate : undefined;
  };
  return {
    dimensionOf: (name) => context.dimensions.get(name),
    value: (name) => estimateOf(name)?.value ?? Number.NaN,
    standardUncertainty: (name) => {
      const estimate = estimateOf(name);
      return estimate === undefined ? Number.NaN : standardUncertainty(estimate);
    },
    names: [...context.names.definitions.keys()],
  };
}
