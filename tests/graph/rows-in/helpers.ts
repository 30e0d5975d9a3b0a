import { answered, proposeRowsIn, rowsIn } from '../../../src/graph/rows-in/index.ts';
import type { RowsAnswer, RowsIn, RowsInProposal } from '../../../src/graph/rows-in/index.ts';
import { numbersOf, valuesOf } from '../../../src/core/rows/index.ts';
import { readTable } from '../../../src/graph/table/index.ts';
import { applyEdit, type SheetDocument } from '../../../src/sheet/index.ts';
import { COLUMNS, tableOf, tableSheet } from '../../sheet/table-texts.ts';

export const THERE = 'specimen,group,S [MPa],N,outcome\nK01,steel K,460,81493,fracture\nK02,steel K,420,110549,fracture\nK03,steel K,300,10000000,runout\n';
/** The columns of the sheets' own table: an outcome that is not said is a fracture. */
export const LINE_COLUMNS = COLUMNS.replace('    options: fracture, runout, suspended, invalid\n', '    options: fracture, runout, suspended, invalid\n    default: fracture\n');

export function proposalOf(text: string, said: readonly RowsAnswer[] = [], { rows = THERE, at }: { rows?: string; at?: RowsIn['at'] } = {}): RowsInProposal {
  const document = tableSheet(rows, LINE_COLUMNS);
  return proposeRowsIn(said.reduce(answered, rowsIn(text, at === undefined ? {} : { at })), tableOf(document));
}

/** What the table reads after the proposal was carried out: by row, what the named columns hold. */
export function after(proposal: RowsInProposal, rows = THERE): Record<string, readonly unknown[]> {
  const document: SheetDocument = tableSheet(rows, LINE_COLUMNS);
  if (proposal.command === undefined) throw new Error(`asked: ${proposal.questions.map((question) => JSON.stringify(question)).join(', ')}`);
  const edited = applyEdit(document, proposal.command);
  if (!edited.ok) throw new Error(`${edited.problem.code}: ${edited.problem.what}`);
  const state = readTable(tableOf(edited.value));
  const has = (name: string): boolean => state.columns.some((column) => column.name === name);
  return {
    specimen: has('specimen') ? [...valuesOf(state.all, 'specimen')] : [],
    S: has('S') ? [...numbersOf(state.all, 'S')].map((pascals) => Number((pascals / 1e6).toPrecision(9))) : [],
    N: has('N') ? [...numbersOf(state.all, 'N')] : [],
    outcome: has('outcome') ? [...valuesOf(state.all, 'outcome')] : [],
    leftOut: [state.leftOut],
  };
}
