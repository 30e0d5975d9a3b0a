/*
 * Reads and looks through a table in a process that may not make code from text, as the page may not; prints what it
 * found as JSON. Started by table-rows.test.ts.
 */
import { table } from 'arquero';
import { fitLeastSquares, fitMaximumLikelihood } from '../../src/core/fatigue/index.ts';
import {
  countRows, deriveColumn, filterRows, groupNumbers, groupRows, numbersOf, orderRows, placesOf, rollUp, rowsWith, rowTable, valuesOf,
} from '../../src/core/rows/index.ts';
import { orderByColumn, readTable, tableCsv } from '../../src/graph/table/index.ts';
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
const rising = orderRows(state.usable, (a, b) => (S[a] ?? 0) - (S[b] ?? 0));
const grouped = groupRows(rising, ['group']);
const summary = rollUp(grouped, 'S');
const alone = (name: string): readonly unknown[] => valuesOf(summary, name);
/** Two at each of two stresses, one of them unbroken. */
const specimens = { stressMpa: [400, 400, 350, 350, 300], cycles: [1e5, 1.3e5, 4e5, 5e5, 2e6], outcomes: ['fracture', 'fracture', 'fracture', 'fracture', 'runout'] as const };
const broken = filterRows(rising, (row) => row < 3);

process.stdout.write(
  JSON.stringify({
    policy: refusal(() => table({ a: [1, 2] }).filter((row: { a: number }) => row.a > 1)),
    usable: countRows(state.usable),
    rising: [...numbersOf(rising, 'S')],
    places: [...placesOf(rising)],
    groups: ['group', 'first', 'count', 'mean', 'squares'].map(alone),
    numbers: [...groupNumbers(grouped)],
    ungrouped: [...numbersOf(rollUp(state.usable), 'count')],
    kept: valuesOf(rowsWith(rising, 'group', 'K'), 'specimen'),
    broken: valuesOf(broken, 'specimen'),
    derived: [...numbersOf(deriveColumn(rising, 'double', S.map((value) => 2 * value)), 'double')],
    gone: refusal(() => numbersOf(state.all, 'T')),
    fits: [fitLeastSquares(specimens), fitMaximumLikelihood(specimens)].map(({ ok }) => ok),
    order: orderByColumn(state, 'S', 'falling'),
    csv: tableCsv(state),
    empty: countRows(rowTable(new Map())),
  }),
);
