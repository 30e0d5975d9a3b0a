/*
 * Reads and looks through a table in a process that may not make code from text, as the page may not; prints what it
 * found as JSON. Started by table-rows.test.ts.
 */
import { table } from 'arquero';
import {
  countRows, deriveColumn, filterRows, groupRows, groupsOf, joinRows, numbersOf, orderByColumn, orderRows, placesOf, readTable, rowTable, selectColumns, sliceRows, tableCsv,
  valuesOf,
} from '../../src/graph/table/index.ts';
import { tableOf, tableSheet } from '../sheet/table-texts.ts';

function refusal(attempt: () => unknown): string {
  try {
    attempt();
    return 'allowed';
  } catch (error) {
    return error instanceof Error ? error.name : 'unknown';
  }
}

const state = readTable(tableOf(tableSheet('specimen,group,S [MPa],N,outcome\nA1,K,380,41200,fracture\nA2,M,x,1,fracture\nA3,M,360,99000,failed\nA4,K,340,1e7,runout\n')));
const S = numbersOf(state.all, 'S');
const groups = valuesOf(state.all, 'group');
const rising = orderRows(state.usable, (a, b) => (S[a] ?? 0) - (S[b] ?? 0));
const grouped = groupRows(rising, 'group', (row) => String(groups[row]));
const broken = filterRows(rising, (row) => row < 3);

process.stdout.write(
  JSON.stringify({
    policy: refusal(() => table({ a: [1, 2] }).filter((row: { a: number }) => row.a > 1)),
    usable: countRows(state.usable),
    rising: [...numbersOf(rising, 'S')],
    places: [...placesOf(rising)],
    groups: groupsOf(grouped).map(({ key, rows }) => [key, Array.from(rows)]),
    ungrouped: groupsOf(state.usable).map(({ key, rows }) => [key, rows.length]),
    broken: valuesOf(broken, 'specimen'),
    sliced: valuesOf(sliceRows(grouped, 1, 3), 'specimen'),
    joined: valuesOf(joinRows(broken, [state.usable]), 'specimen'),
    derived: [...numbersOf(deriveColumn(rising, 'double', S.map((value) => 2 * value)), 'double')],
    selected: refusal(() => numbersOf(selectColumns(state.all, ['group']), 'S')),
    order: orderByColumn(state, 'S', 'falling'),
    csv: tableCsv(state),
    empty: countRows(rowTable(new Map())),
  }),
);
