import { factList as factsSaid, smallTable as tableSaid, type PresentedFit, type PresentedSmallTable } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { part, type Part } from '../parts.ts';
import { changeMarks } from './shift.ts';

export function smallTable(table: PresentedSmallTable, desk: Desk): Part {
  return part(tableSaid(table, (symbol) => ({ hand: changeMarks(symbol, desk) })));
}

/** Pairs of words; nothing where there are none. */
export function factList(facts: PresentedFit['facts']): Part {
  return part(factsSaid(facts));
}
