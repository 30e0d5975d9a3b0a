import { ONE, parseUnit } from '../../core/units/index.ts';
import { readHeader, rowsText, type Between, type HeaderField, type RowsText, type TableCell, type TableColumn } from '../../sheet/index.ts';
import { optionMeant } from '../table/outcome-words.ts';
import { numberReader, truthReader } from '../table/read-field.ts';
import { markEvidence, numberParts, readMark, type MarkEvidence } from './number-marks.ts';
import type { ColumnIn, RowsIn, Target, WordReading } from './types.ts';
import { readUnitIn } from './units-in.ts';

/** The lines of the text with what is known of its columns. */
interface LinesIn {
  readonly between: Between;
  /** By place; empty without a head. */
  readonly header: readonly HeaderField[];
  readonly rows: readonly (readonly string[])[];
}

const EXAMPLES = 3;
const YES_NO: readonly string[] = ['yes', 'no'];

/** What becomes of each column of the text, as far as it is known. */
export function columnsIn({ between, header, rows }: LinesIn, source: RowsIn, cell: TableCell): readonly ColumnIn[] {
  const width = Math.max(header.length, header.length > 0 ? 0 : rows.reduce((widest, { length }) => Math.max(widest, length), 0));
  const fieldsAt = Array.from({ length: width }, (_, place) => rows.map((fields) => (fields[place] ?? '').trim()).filter((field) => field !== ''));
  const text = rowsText(cell);
  const targets = targetsOf(fieldsAt, header, source, cell, text);
  const columnAt = (place: number): TableColumn | undefined => columnOf(targets[place]?.target, cell);
  const evidence = new Map<number, MarkEvidence>(fieldsAt.flatMap((fields, place) => (isNumbers(columnAt(place)) ? [[place, markEvidence(fields)]] : [])));
  return fieldsAt.map((fields, place): ColumnIn => {
    const column = columnAt(place);
    const base = { place, name: header[place]?.typed ?? '', target: 'own' as const, ...targets[place], examples: [...new Set(fields)].slice(0, EXAMPLES) };
    if (column === undefined) return base;
    const { answers } = source;
    if (isNumbers(column)) {
      const unit = readUnitIn(column, header[place]?.unit ?? '', tableUnit(column, text), fields, answers.units.get(place));
      const own = evidence.get(place) ?? { either: [] };
      const others = [...evidence].filter(([at]) => at !== place).map(([, one]) => one);
      const mark = readMark(own, answers.marks.get(place), { between, isCount: column.type === 'count', others, isUsual: isUsualIn(column, unit.unit) });
      return { ...base, unit, mark };
    }
    if (column.type !== 'option' && column.type !== 'yes-no') return base;
    return { ...base, options: column.type === 'option' ? column.options : YES_NO, words: wordsOf(fields, column, answers.words.get(place)) };
  });
}

/** What a column of its own is called: not as one that the table would take for another. */
export function ownName({ name, place }: Pick<ColumnIn, 'name' | 'place'>, { columns }: TableCell): string {
  if (name === '') return `column ${place + 1}`;
  const [head] = readHeader([name], columns);
  return head?.key === undefined && head?.ignored === undefined ? name : `${name}, as it came`;
}

export function columnOf(target: Target | undefined, { columns }: TableCell): TableColumn | undefined {
  return target === undefined || !target.startsWith('as ') ? undefined : columns.find(({ key }) => `as ${key}` === target);
}

export function isNumbers(column: TableColumn | undefined): boolean {
  return column?.type === 'quantity' || column?.type === 'count';
}

/** The unit that the table's bare numbers are in. */
export function tableUnit(column: TableColumn, { header, shown }: RowsText): string {
  const place = shown.find(({ column: one }) => one?.key === column.key)?.place;
  const inHeader = place === undefined ? '' : (header[place]?.unit ?? '');
  const unit = inHeader || column.unit;
  return unit === '' ? '1' : unit;
}

function isUsualIn(column: TableColumn, unitName: string | undefined): (number: number) => boolean {
  if (column.type === 'count') return () => true;
  const unit = parseUnit(unitName ?? column.unit);
  const { read } = numberReader(column, { unit: unit.ok ? unit.value : ONE, comma: 'ask', pointMayGroup: false });
  return (number) => {
    const reading = read(String(number));
    return !('problem' in reading) && reading.warning === undefined;
  };
}

function wordsOf(fields: readonly string[], column: TableColumn, said: ReadonlyMap<string, string> | undefined): readonly WordReading[] {
  const counts = new Map<string, number>();
  for (const field of fields) counts.set(field, (counts.get(field) ?? 0) + 1);
  return [...counts].map(([word, count]): WordReading => {
    const meaning = said?.get(word);
    if (meaning !== undefined) return { word, count, meaning, by: 'reader' };
    const known = meaningIn(column, word);
    return known === undefined ? { word, count, by: 'table' } : { word, count, meaning: known, by: 'table' };
  });
}

function meaningIn(column: TableColumn, word: string): string | undefined {
  if (column.type === 'option') return optionMeant(word, column.options);
  const read = truthReader(column)(word);
  return 'problem' in read ? undefined : read.value ? 'yes' : 'no';
}

type TargetIn = Pick<ColumnIn, 'target' | 'why'>;

/** Targets by place: as the reader said, else by the head, the place of a block, or what the fields hold. A target is given once. */
function targetsOf(fieldsAt: readonly (readonly string[])[], header: readonly HeaderField[], source: RowsIn, cell: TableCell, text: RowsText): readonly TargetIn[] {
  const said = source.answers.targets;
  const taken = new Set<string>([...said.values()].filter((target) => target.startsWith('as ')));
  const offered = text.shown.map(({ name }): Target => `as ${name}`);
  const first = source.at === undefined ? 0 : Math.max(0, text.shown.findIndex(({ name }) => name === source.at?.column));
  let next = first;
  return fieldsAt.map((fields, place): TargetIn => {
    const chosen = said.get(place);
    if (chosen !== undefined) return { target: chosen };
    const guess = header.length > 0 ? byHead(header[place], fields, text) : byPlace();
    if (guess.target.startsWith('as ') && taken.has(guess.target)) return { target: 'out', why: 'again' };
    taken.add(guess.target);
    return guess;

    function byPlace(): TargetIn {
      if (source.at !== undefined) return { target: offered[next++] ?? 'out' };
      const found = offered.findIndex((target, i) => i >= next && !taken.has(target) && suits(columnOf(target, cell), fields));
      if (found >= 0) next = found + 1;
      return { target: offered[found] ?? 'own' };
    }
  });
}

function byHead(head: HeaderField | undefined, fields: readonly string[], { shown }: RowsText): TargetIn {
  if (head?.key !== undefined) return { target: `as ${head.key}` };
  if (head?.ignored === 'derived') return { target: 'out', why: 'computed' };
  if (head?.ignored === 'again') return { target: 'out', why: 'again' };
  if (fields.length === 0) return { target: 'out', why: 'empty' };
  // A column that the table's own text has and does not understand either.
  if (head !== undefined && shown.some(({ name, column }) => column === undefined && name === head.typed)) return { target: `as ${head.typed}` };
  return { target: head === undefined || head.typed === '' ? 'out' : 'own' };
}

/** Whether the fields could belong to a column, as far as their form tells. */
function suits(column: TableColumn | undefined, fields: readonly string[]): boolean {
  const numbers = fields.filter((field) => numberParts(field) !== undefined).length;
  if (isNumbers(column)) return numbers > fields.length / 2;
  if (column?.type === 'option' || column?.type === 'yes-no') return fields.every((field) => meaningIn(column, field) !== undefined);
  return true;
}
