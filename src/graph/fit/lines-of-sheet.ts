import { problemSentence } from '../../core/problem/index.ts';
import { cellsOf, type FitCell, type SheetDocument } from '../../sheet/index.ts';
import { fingerprintOfRows } from './fingerprint.ts';
import { snapshotTexts, type LineSource } from './line-snapshot.ts';
import { restingOnExample } from '../invented.ts';
import { createSheetGraph } from '../sheet-graph.ts';
import { rightStates } from '../slips/with-slips.ts';
import type { SheetStates } from '../types.ts';

/** A line that another sheet can take: fitted to a table of this one. */
export interface LineToTake {
  readonly fitId: string;
  /** What the fit is called in its sheet. */
  readonly label: string;
  /** Entries of the snapshot; absent where the sheet has no such line at the moment. */
  readonly snapshot?: ReadonlyMap<string, string>;
  /** Why there is none. */
  readonly trouble?: string;
}

/**
 * The lines fitted in a sheet, worked out from its text.
 * @param title of the sheet, to be told where the line came from
 * @param date day on which they are taken: `2026-11-20`
 */
export async function linesOfSheet(document: SheetDocument, title: string, date: string): Promise<readonly LineToTake[]> {
  const fits = cellsOf(document, 'fit').filter(isOwnLine);
  if (fits.length === 0) return [];
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const right = rightStates(document, states);
  const isInvented = restingOnExample(document, states);
  const lines = fits.map((cell) => (states.cell(cell.id) === right.cell(cell.id) ? lineToTake(cell, states, { title, date, isInvented: isInvented(cell.id) }) : slippedLine(cell)));
  graph.dispose();
  return lines;
}

function slippedLine(cell: FitCell): LineToTake {
  return { fitId: cell.id, label: cell.label ?? cell.id, trouble: 'A slip is switched on in that sheet and moves this line. Switch it off there first.' };
}

function isOwnLine({ finds, table, snapshot }: FitCell): boolean {
  return finds === 'line' && table !== '' && snapshot === undefined;
}

function lineToTake(cell: FitCell, states: SheetStates, from: Pick<LineSource, 'title' | 'date' | 'isInvented'>): LineToTake {
  const state = states.cell(cell.id);
  const table = states.cell(cell.table)?.table;
  const named = { fitId: cell.id, label: cell.label ?? cell.id };
  if (state?.fit === undefined || table === undefined) {
    const [problem] = state?.problems ?? [];
    return { ...named, trouble: problem === undefined ? 'It has no line at the moment: rows or blanks that it needs are empty.' : problemSentence(problem) };
  }
  const group = state.fit.group;
  const source = { ...from, fitId: cell.id, group, fingerprint: fingerprintOfRows(table, state.fit.rows) };
  return { ...named, snapshot: snapshotTexts(state.fit.fit, source) };
}
