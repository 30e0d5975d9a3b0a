import { runningTime } from '../../core/fatigue/index.ts';
import { fromInput, type Component, type Input } from '../../core/estimate/index.ts';
import type { Expression } from '../../core/formula/types.ts';
import type { Problem } from '../../core/problem/index.ts';
import { ONE, type Dimension, type Unit } from '../../core/units/index.ts';
import type { CellBlock, RecordCell } from '../../sheet/types.ts';
import { nameOf, type Form, type NamesInMaking, type NodeOfForm } from '../form.ts';
import { parseRemembered } from '../formulas.ts';
import { definedInputs, toldAt } from '../inputs.ts';
import type { CompileContext } from '../compiled-types.ts';
import { recordFillings } from '../record/fillings.ts';
import { readRecord } from '../record/read-record.ts';
import type { RecordState } from '../record/types.ts';
import { CYCLES, HOURS } from '../record/units.ts';
import { openState } from '../step.ts';
import type { CellState, SymbolState } from '../types.ts';

/** Standard uncertainty of a time between two stamps to the second, s: u² = a²/6 with half width a = 1 s (JCGM 100, 4.3.9). */
const BETWEEN_STAMPS = 1 / Math.sqrt(6);

/**
 * A test record: before the start it hands on what is predicted now, from then on what was predicted at the start; after the
 * end it gives the cycles and the running time.
 */
export const recordForm: Form<RecordCell> = {
  symbols: ({ symbols }) => [...symbols.values()],
  addTo: addFillings,
  reads: recordReads,
  dimension: (cell, symbol, _names, known) => recordDimension(cell, symbol, known),
  node: recordNode,
};

function addFillings({ fillings }: NamesInMaking, cell: RecordCell): void {
  const option = { key: cell.id, label: cell.label ?? 'the test record' };
  for (const [symbol, text] of recordFillings(cell)) fillings.set(symbol, { text, choice: cell, option });
}

function recordNode(block: CellBlock, cell: RecordCell, context: CompileContext): NodeOfForm {
  const { definitions } = context.names;
  const record = readRecord(cell);
  const reads = [...cell.watches.values()];
  const inRow = [...cell.row.values()].filter((name) => !name.startsWith('choice '));
  const unknown = [...reads, ...cell.fills.values(), ...inRow].filter((symbol) => !definitions.has(symbol)).map(unknownSymbol);
  const problems = toldAt(block.id, [...cell.problems, ...(context.problems.get(block.id) ?? []), ...unknown, ...record.problems]);
  const warnings = toldAt(block.id, record.warnings);
  const inputs = definedInputs(reads, context);
  return {
    inputs,
    signature: JSON.stringify(['record', block.body, inputs, problems]),
    compute: (symbols): CellState => {
      const expressions = new Map<string, Expression>();
      const results = new Map([...cell.symbols].map(([role, symbol]): [string, SymbolState] => {
        if (role === 'cycles' || role === 'hours') return [symbol, Object.freeze(observed(role, symbol, record, problems[0]))];
        const watched = cell.watches.get(role) ?? '';
        const formula = cell.frozen.size > 0 ? undefined : parseRemembered(watched);
        if (formula?.ok === true) expressions.set(symbol, formula.value);
        return [symbol, formula === undefined ? frozen(role, symbol, record) : (symbols.get(watched) ?? openState(ONE, watched))];
      }));
      return Object.freeze({ cellId: block.id, record, results, expressions, reads, problems, warnings });
    },
  };
}

/** Symbols of the prediction that a symbol of a record hands on. */
function recordReads(cell: RecordCell, symbol: string): readonly string[] {
  const role = nameOf(cell, symbol);
  const watched = role === undefined || cell.frozen.size > 0 ? undefined : cell.watches.get(role);
  return watched === undefined ? [] : [watched];
}

/** Dimension of a symbol that a record defines. */
function recordDimension(cell: RecordCell, symbol: string, known: ReadonlyMap<string, Dimension>): Dimension | undefined {
  const role = nameOf(cell, symbol);
  if (role === 'cycles') return CYCLES.dimension;
  if (role === 'hours') return HOURS.dimension;
  const kept = readRecord(cell).predicted.get(role ?? '');
  return cell.frozen.size > 0 ? kept?.unit.dimension : known.get(cell.watches.get(role ?? '') ?? '');
}

function observed(role: 'cycles' | 'hours', symbol: string, record: RecordState, trouble: Problem | undefined): SymbolState {
  const unit = role === 'cycles' ? CYCLES : HOURS;
  if (trouble !== undefined) return { status: 'problem', problem: trouble, unit };
  const { started, ended, pauses, counted } = record;
  if (started === undefined || ended === undefined) return openState(unit, 'the test record');
  if (role === 'hours') {
    return measured(symbol, runningTime(started, ended, pauses) / 1000, BETWEEN_STAMPS, 'stamps to the second', unit);
  }
  if (counted === undefined) return openState(unit, 'the counter in the test record');
  return measured(symbol, counted.cycles, counted.standardUncertainty, 'two readings of the counter', unit);
}

function measured(id: string, value: number, standardUncertainty: number, source: string, unit: Unit): SymbolState {
  const component: Component = { kind: 'B', source, distribution: 'triangular', standardUncertainty, degreesOfFreedom: Infinity };
  return { status: 'value', estimate: fromInput(Object.freeze({ id, value, components: [component] })), unit };
}

/** What was predicted at the start, an input of its own from then on. */
function frozen(role: string, symbol: string, { predicted }: RecordState): SymbolState {
  const kept = predicted.get(role);
  if (kept === undefined) return openState(ONE, 'a prediction at the start');
  const { value, standardUncertainty, unit } = kept;
  const components: readonly Component[] = standardUncertainty === 0
    ? [] : [{ kind: 'B', source: 'predicted at the start', distribution: 'normal', standardUncertainty, degreesOfFreedom: Infinity }];
  const input: Input = Object.freeze({ id: symbol, value, components });
  return Object.freeze({ status: 'value', estimate: fromInput(input), unit });
}

function unknownSymbol(symbol: string): Problem {
  return {
    code: 'record-symbol-unknown',
    what: `No cell has the symbol ${symbol}, which the record names.`,
    mend: `Add a given or a step for ${symbol}, or name another symbol.`,
  };
}
