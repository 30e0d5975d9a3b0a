import { problemSentence, type Problem } from '../core/problem/index.ts';
import type { ColumnState, TableState } from '../graph/index.ts';
import { alikeSentences, drawingProblems, heldProblems, lectureWarnings, presentFindings, slipListProblems, warningsOf, type PresentContext, type PresentedFindings, type PresentedHead, type WholeContext } from '../report/index.ts';
import { cellsOf, placeFinder } from '../sheet/index.ts';
import type { Answer, FoundEntry, LeftOutRow } from './types.ts';

/** What is wrong, what is odd, and what was left out: nothing of it may go unsaid. */

type Told = Answer['errors'][number];
type LineOf = ReturnType<typeof placeFinder>;

/** @param lineOf line of the file, for a problem that knows only its key */
function toldOf(cell: string, problem: Problem, lineOf?: LineOf): Told {
  const line = problem.line ?? lineOf?.(cell, problem)?.line;
  return {
    cell,
    ...(problem.key === undefined ? {} : { key: problem.key }),
    ...(line === undefined ? {} : { line }),
    message: problemSentence(problem),
  };
}

export function errorEntries(context: PresentContext): Answer['errors'] {
  const { document, states } = context;
  const lineOf = placeFinder(document);
  const whole = [...document.problems, ...document.frontMatter.problems, ...slipListProblems(document), ...heldProblems(context)].map((problem) => toldOf('', problem));
  const cells = document.blocks.flatMap(({ id }) => (states.cell(id)?.problems ?? []).map((problem) => toldOf(id, problem, lineOf)));
  const drawings = cellsOf(document, 'figure').flatMap((cell) => drawingProblems(cell).map((problem) => toldOf(cell.id, problem, lineOf)));
  return [...whole, ...cells, ...drawings];
}

/** Blanks and choices that results wait for; what may stay empty is none of them. */
export function openEntries({ document, states }: WholeContext): Answer['open'] {
  const waited = new Set(states.symbols.flatMap((symbol) => {
    const state = states.symbol(symbol);
    return state?.status === 'range' && states.definedBy(symbol) !== undefined ? (state.waitsFor ?? []).filter((name) => name !== symbol) : [];
  }));
  const blanks = cellsOf(document, 'given').filter(({ symbol, optional }) => optional !== true && waited.has(symbol)).map(({ symbol }) => symbol);
  return [...blanks, ...cellsOf(document, 'choice').filter(({ chosen }) => chosen === '').map(({ id }) => id)];
}

/** Of cells as a whole, and of single fields of rows that are used all the same. */
export function warningEntries(context: PresentContext): Answer['warnings'] {
  const lineOf = placeFinder(context.document);
  const head = [...context.document.frontMatter.warnings, ...lectureWarnings(context.document)].map((problem) => toldOf('', problem));
  const alike = alikeSentences(context).map((message) => ({ cell: '', message }));
  return [...head, ...alike, ...context.document.blocks.flatMap((block): readonly Told[] => {
    if (block.kind !== 'cell') return [];
    const marks = context.states.cell(block.id)?.table?.marks ?? [];
    const out = new Set(marks.flatMap(({ row, leavesOut }) => (leavesOut ? [row] : [])));
    return [
      ...warningsOf(block.cell, context).map((problem) => toldOf(block.id, problem, lineOf)),
      ...marks.filter(({ row }) => !out.has(row)).map(({ row, column, problem }) => ({
        ...toldOf(block.id, problem), row: row + 1, ...(column === undefined ? {} : { column }), message: `Row ${row + 1}${column === undefined ? '' : `, ${column}`}: ${problemSentence(problem)}`,
      })),
    ];
  })];
}

export function leftOutEntries({ document, states }: PresentContext): Answer['leftOut'] {
  return document.blocks.flatMap(({ id }) => {
    const table = states.cell(id)?.table;
    return table === undefined ? [] : leftOutOf(id, table);
  });
}

function leftOutOf(cell: string, table: TableState): readonly LeftOutRow[] {
  const rows = new Map<number, LeftOutRow['reasons'][number][]>();
  for (const { row, column, problem, leavesOut } of table.marks) {
    if (!leavesOut) continue;
    const reasons = rows.get(row) ?? [];
    rows.set(row, [...reasons, { ...(column === undefined ? {} : { column }), message: problemSentence(problem) }]);
  }
  const names = table.columns.find(({ name }) => name === 'specimen');
  return [...rows].toSorted(([a], [b]) => a - b).map(([row, reasons]) => ({ cell, row: row + 1, ...nameIn(row, names, table), reasons }));
}

function nameIn(row: number, names: ColumnState | undefined, table: TableState): { readonly specimen?: string } {
  const specimen = names === undefined ? '' : table.field(row, names).trim();
  return specimen === '' ? {} : { specimen };
}

/** What fits find that find no line. */
export function findingsEntries(context: PresentContext): Pick<Answer, 'findings'> {
  const found = cellsOf(context.document, 'fit').flatMap((cell): [string, FoundEntry][] =>
    (cell.finds === 'line' ? [] : [[cell.id, findingsEntry(cell.finds, presentFindings(cell, context))]]));
  return found.length === 0 ? {} : { findings: Object.fromEntries(found) };
}

function findingsEntry(finds: string, { label, settings, advice, sentences, tables, facts }: PresentedFindings): FoundEntry {
  return {
    finds, label, settings, ...(advice === undefined ? {} : { advice }), sentences, facts,
    tables: tables.map(({ caption, heads, rows, note }) => ({
      caption, heads: heads.map(headText), rows: rows.map(({ head, cells }) => [headText(head), ...cells]), ...(note === undefined ? {} : { note }),
    })),
  };
}

/** A symbol of a head as formulas write it. */
function headText(head: PresentedHead): string {
  return 'text' in head ? head.text : head.tex.replace(/\\(?:mathrm|text|mathit)\{([^{}]*)\}/g, '$1').replace(/_\{([^{}]*)\}/g, '_$1').replace(/\\,?|[{}]/g, '');
}
