import type { Problem } from '../../core/problem/index.ts';
import { ONE } from '../../core/units/index.ts';
import type { RowsText } from '../../sheet/index.ts';
import { numberReader, optionReader, truthReader } from './read-field.ts';
import type { FieldReader } from './read-field.ts';
import type { RowValues } from './rows.ts';
import type { CellMark, ColumnState } from './types.ts';

/** What is told of the rows while their columns are read one by one. */
export class Ledger {
  readonly marks: CellMark[] = [];
  blankCount = 0;
  readonly #out: Uint8Array;
  readonly #blank: Uint8Array;
  readonly #echoes = new Map<string, { readonly first: string; count: number }>();

  constructor(rows: number) {
    this.#out = new Uint8Array(rows);
    this.#blank = new Uint8Array(rows);
  }

  mark(row: number, column: string | undefined, problem: Problem, leavesOut: boolean): void {
    this.marks.push({ row, ...(column === undefined ? {} : { column }), problem, leavesOut });
    if (leavesOut) this.#out[row] = 1;
  }

  /** A row of empty fields: says nothing, so nothing is missing in it. */
  blank(row: number): void {
    this.#blank[row] = 1;
    this.blankCount++;
  }

  isBlank(row: number): boolean {
    return this.#blank[row] === 1;
  }

  isOut(row: number): boolean {
    return this.#out[row] === 1 || this.isBlank(row);
  }

  echo(label: string, echo: () => string, kind: string): void {
    const known = this.#echoes.get(`${label}\n${kind}`);
    if (known === undefined) this.#echoes.set(`${label}\n${kind}`, { first: `${label}: ${echo()}`, count: 1 });
    else known.count++;
  }

  echoes(): readonly string[] {
    return [...this.#echoes.values()].map(({ first, count }) => (count === 1 ? first : `${first}, and ${count - 1} more like it`));
  }
}

/** The values of one column for all rows, with what is wrong in its fields put into the ledger. */
export function fillColumn(
  state: ColumnState,
  text: RowsText,
  decimalComma: boolean,
  ledger: Ledger,
  told: Problem[],
  isLost: boolean,
): RowValues {
  const { column } = state;
  const length = text.count;
  const texts = Array.from({ length }, () => '');
  switch (column?.type) {
    case 'quantity':
    case 'count': {
      const comma = decimalComma ? 'decimal' : 'ask';
      const reader = numberReader(column, { unit: state.unit ?? ONE, comma, pointMayGroup: text.delimited.separator !== ',' });
      told.push(...reader.problems.map((problem) => ({ ...problem, key: 'columns' })));
      return filled(new Float64Array(length).fill(NaN), reader.read, () => 'number');
    }
    case 'option':
      return filled(texts, optionReader(column), (typed) => typed.toLowerCase());
    case 'yes-no':
      return filled(Array.from({ length }, () => true), truthReader(column), () => '');
    default:
      return filled(texts, (typed) => ({ value: typed }), () => '');
  }

  function filled<T, C extends { [row: number]: T }>(values: C, read: FieldReader<T>, kindOf: (typed: string) => string): C {
    const { place } = state;
    if (isLost) return values;
    const records = text.delimited.records;
    for (let row = 0; row < length; row++) {
      if (ledger.isBlank(row)) continue;
      const typed = (place === undefined ? '' : records[row + 1]?.fields[place] ?? '').trim() || (column?.default ?? '');
      const reading = read(typed);
      if ('problem' in reading) ledger.mark(row, state.name, reading.problem, true);
      else {
        values[row] = reading.value;
        if (reading.warning !== undefined) ledger.mark(row, state.name, reading.warning, false);
        if (reading.echo !== undefined) ledger.echo(column?.label ?? '', reading.echo, kindOf(typed));
      }
    }
    return values;
  }
}
