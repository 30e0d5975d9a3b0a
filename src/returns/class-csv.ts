import { fromSI, intervalFromSI, numberText, type Unit } from '../core/units/index.ts';
import { writeOutgoing } from '../sheet/index.ts';
import { askedIn, pointsOf, type Marking } from './marks.ts';
import type { ReturnedSheet } from './types.ts';
import { VERDICT_WORDS } from './words.ts';

/** A column of the class's table. */
interface Column {
  readonly head: string;
  readonly field: (sheet: ReturnedSheet) => string;
}

/** Everything gathered as one table: a line for each sheet, quantities as plain numbers in the unit of their head. */
export function classCsv(sheets: readonly ReturnedSheet[], marking: Marking): string {
  const asked = askedIn(sheets);
  const points = new Map(sheets.map((sheet) => [sheet, pointsOf(sheet, marking, asked)]));
  const columns: readonly Column[] = [
    { head: 'Team', field: ({ head }) => head.team },
    { head: 'Files', field: ({ files }) => files.join('; ') },
    { head: 'Operators', field: ({ head }) => head.operators },
    { head: 'Machine', field: ({ head }) => head.machine },
    { head: 'Specimen', field: ({ head }) => head.specimen },
    { head: 'Date', field: ({ head }) => head.date },
    ...enteredIn(sheets).flatMap(({ symbol, unit }) => valueColumns(symbol, unit)),
    ...asked.flatMap(({ symbol }) => answerColumns(symbol, (sheet) => points.get(sheet)?.bySymbol.get(symbol))),
    { head: 'Points', field: (sheet) => pointsText(points.get(sheet)?.total) },
    { head: 'Points out of', field: (sheet) => pointsText(points.get(sheet)?.outOf) },
    ...checksIn(sheets).map(({ id, label }): Column => ({ head: label, field: ({ checks }) => holdsWord(checks.find((check) => check.id === id)?.holds) })),
    { head: 'Outcome', field: ({ tests }) => tests.map(({ outcome }) => outcome).filter((word) => word !== '').join('; ') },
    { head: 'N [cycles]', field: ({ tests }) => tests.flatMap(({ row }) => row?.get('N')?.text ?? []).join('; ') },
  ];
  const lines = [columns.map(({ head }) => head), ...sheets.map((sheet) => columns.map(({ field }) => field(sheet)))];
  return lines.map((line) => `${writeOutgoing(line, ',')}\r\n`).join('');
}

/** A quantity that somebody entered, in the unit in which it came first. */
export interface EnteredQuantity {
  readonly symbol: string;
  readonly label: string;
  readonly unit: Unit | undefined;
}

/** What was entered in at least one of the sheets, in their order. */
export function enteredIn(sheets: readonly ReturnedSheet[]): readonly EnteredQuantity[] {
  const entered = new Map<string, EnteredQuantity>();
  for (const { values } of sheets) {
    for (const { symbol, label, unit } of values) if (entered.get(symbol)?.unit === undefined) entered.set(symbol, { symbol, label, unit });
  }
  return [...entered.values()];
}

/** Checks of the sheets, each once. */
export function checksIn(sheets: readonly ReturnedSheet[]): readonly { readonly id: string; readonly label: string }[] {
  return [...new Map(sheets.flatMap(({ checks }) => checks.map(({ id, label }) => [id, { id, label }] as const))).values()];
}

function valueColumns(symbol: string, unit: Unit | undefined): readonly Column[] {
  const named = unit === undefined || unit.name === '1' ? '' : ` [${unit.name}]`;
  const found = ({ values }: ReturnedSheet) => values.find((value) => value.symbol === symbol);
  return [
    { head: `${symbol} as typed`, field: (sheet) => found(sheet)?.typed ?? '' },
    { head: `${symbol}${named}`, field: (sheet) => number(found(sheet)?.value, unit, fromSI) },
    { head: `u(${symbol})${named}`, field: (sheet) => (found(sheet)?.value === undefined ? '' : number(found(sheet)?.standardUncertainty, unit, intervalFromSI)) },
  ];
}

/** Six figures: no instrument of a class has more. */
function number(value: number | undefined, unit: Unit | undefined, inUnit: (value: number, unit: Unit) => number): string {
  return value === undefined || unit === undefined ? '' : numberText(Number(inUnit(value, unit).toPrecision(6)));
}

function answerColumns(symbol: string, pointsFor: (sheet: ReturnedSheet) => number | undefined): readonly Column[] {
  const found = ({ answers }: ReturnedSheet) => answers.find((answer) => answer.symbol === symbol);
  return [
    { head: `${symbol} answered`, field: (sheet) => found(sheet)?.typed ?? '' },
    { head: `${symbol} tried before`, field: (sheet) => found(sheet)?.earlier.join('; ') ?? '' },
    { head: `${symbol} is`, field: (sheet) => VERDICT_WORDS[found(sheet)?.verdict ?? 'open'] },
    { head: `${symbol} comes of`, field: (sheet) => found(sheet)?.comesOf.join('; ') ?? '' },
    { head: `${symbol} points`, field: (sheet) => pointsText(pointsFor(sheet)) },
  ];
}

function holdsWord(holds: boolean | undefined): string {
  return holds === undefined ? '' : holds ? 'holds' : 'does not hold';
}

/** Thirds and the like are cut where nobody looks. */
export function pointsText(points = 0): string {
  return numberText(Number(points.toFixed(2)));
}
