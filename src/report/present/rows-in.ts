import { composed } from '../../core/problem/index.ts';
import { fromSI, ONE, parseUnit } from '../../core/units/index.ts';
import { valuesOf } from '../../core/rows/index.ts';
import type { ColumnIn, ColumnState, RowsAnswer, RowsIn, RowsInProposal, Target } from '../../graph/index.ts';
import type { TableCell } from '../../sheet/types.ts';
import { decimalText, figures, unitText } from './number.ts';
import {
  AGAIN_CHOICES, betweenChoices, countSentences, markSentence, markWords, pressWords, questionAt, targetWords, unitSentence, unitWords, wordSentence, type Choice,
} from './rows-in-words.ts';

/** Something to choose; '' is chosen while it is asked. */
export interface RowsChoice {
  readonly label: string;
  /** What is seen of the label, where what stands before it says the rest. */
  readonly seen?: string;
  readonly chosen: string;
  readonly choices: readonly Choice[];
  readonly answer: (value: string) => RowsAnswer;
}

/** A column of the text: what it holds, where it goes and how it is read. */
export interface PresentedColumnIn {
  readonly name: string;
  readonly examples: string;
  readonly target: RowsChoice;
  readonly readings: readonly { readonly sentence: string; readonly isAsked: boolean; readonly choice?: RowsChoice }[];
}

/** Rows on their way into a table, before anything is changed. */
export interface PresentedRowsIn {
  readonly title: string;
  readonly between: RowsChoice;
  readonly head: RowsChoice;
  readonly how?: RowsChoice;
  readonly again?: RowsChoice;
  readonly columns: readonly PresentedColumnIn[];
  /** What nobody but the reader can know and no column asks; the press says what is so. */
  readonly questions: readonly { readonly sentence: string; readonly presses: readonly { readonly words: string; readonly answer: RowsAnswer }[] }[];
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly more: number;
  /** What will be added, replaced and left out. */
  readonly sentences: readonly string[];
  readonly openQuestions: number;
  /** What the button does; absent where there is nothing to bring in or something is asked. */
  readonly press?: string;
}

const FIRST_ROWS = 5;

export function presentRowsIn(source: RowsIn, proposal: RowsInProposal): PresentedRowsIn {
  const { cell, counts, how, questions, columns } = proposal;
  const shown = proposal.incoming.columns.filter(({ place, column }) => place !== undefined && column?.type !== 'derived');
  const rows = Array.from({ length: Math.min(FIRST_ROWS, proposal.incoming.rowCount) }, (_, row) => shown.map((column) => fieldText(proposal, column, row)));
  const hasAgain = source.answers.again !== undefined || questions.some(({ about }) => about === 'again');
  const canReplace = counts.there > 0;
  const press = proposal.command === undefined ? undefined : pressWords(proposal);
  return {
    title: source.from === '' ? 'Rows to bring into this table' : `Rows of ${source.from}`,
    between: { label: 'Between its columns stand', chosen: proposal.between, choices: betweenChoices(), answer: (value) => ({ answer: 'between', between: value as RowsInProposal['between'] }) },
    head: {
      label: 'Its first line', chosen: proposal.hasHead ? 'head' : 'row', choices: [{ value: 'head', words: 'names the columns' }, { value: 'row', words: 'is a row like the others' }],
      answer: (value) => ({ answer: 'head', hasHead: value === 'head' }),
    },
    ...(canReplace ? { how: howChoice(source, proposal) } : {}),
    ...(hasAgain && how === 'add' ? { again: { label: 'A specimen that is there already', chosen: source.answers.again ?? '', choices: AGAIN_CHOICES, answer: (value: string): RowsAnswer => ({ answer: 'again', again: value as 'stay' }) } } : {}),
    columns: columns.map((column) => presentColumnIn(column, cell)),
    questions: questions.flatMap((question) => questionAt(question)),
    heads: shown.map(headText),
    rows,
    more: proposal.incoming.rowCount - rows.length,
    sentences: countSentences(source, proposal),
    openQuestions: questions.length,
    ...(press === undefined ? {} : { press }),
  };
}

function howChoice(source: RowsIn, { counts: { there }, hasHead, how }: RowsInProposal): RowsChoice {
  const choices = [
    ...(source.at === undefined || hasHead ? [] : [{ value: 'here', words: `go in from row ${source.at.row + 1} on, over what stands there` }]),
    { value: 'add', words: there === 1 ? 'are added to the row there' : `are added to the ${there} rows there` },
    { value: 'replace all', words: there === 1 ? 'take the place of the row there' : `take the place of all ${there} rows there` },
  ];
  return { label: 'The rows', chosen: how, choices, answer: (value) => ({ answer: 'how', how: value as 'add' }) };
}

function presentColumnIn(column: ColumnIn, cell: TableCell): PresentedColumnIn {
  const { place, name, target, examples, unit, mark, words = [], options = [], why } = column;
  const called = name === '' ? `column ${place + 1}` : name;
  const into = cell.columns.find(({ key }) => target === `as ${key}`);
  const targets = targetChoices(cell, target);
  const ask: Choice = { value: '', words: 'choose' };
  return {
    name: called,
    examples: examples.join(' · '),
    target: { label: `${called} goes into`, seen: 'goes into', chosen: target, choices: targets, answer: (value) => ({ answer: 'target', place, target: value as Target }) },
    readings: [
      ...(why === undefined ? [] : [{ sentence: targetWords(why), isAsked: false }]),
      ...(unit === undefined || into === undefined || (unit.choices.length < 2 && unit.unit !== undefined) ? [] : [{
        sentence: unitSentence(unit, into), isAsked: unit.unit === undefined,
        choice: { label: `Unit of ${called}`, seen: 'in', chosen: unit.unit ?? '', choices: [...(unit.unit === undefined ? [ask] : []), ...[...new Set([...(unit.unit === undefined ? [] : [unit.unit]), ...unit.choices])].map((value) => ({ value, words: unitWords(value) }))],
          answer: (value: string): RowsAnswer => ({ answer: 'unit', place, unit: value }) },
      }]),
      ...(mark === undefined || mark.by === 'plain' ? [] : [{
        sentence: markSentence(mark), isAsked: mark.mark === undefined,
        choice: { label: `Numbers of ${called} have`, seen: 'with', chosen: mark.mark ?? '', choices: [...(mark.mark === undefined ? [ask] : []), ...markWords(mark)], answer: (value: string): RowsAnswer => ({ answer: 'mark', place, mark: value as 'point' }) },
      }]),
      ...wordReadings(words, options, place, ask),
    ],
  };
}

/** Words that the table does not know are asked one by one, for the whole column; the others are told in one sentence. */
function wordReadings(words: NonNullable<ColumnIn['words']>, options: readonly string[], place: number, ask: Choice): PresentedColumnIn['readings'] {
  const told = wordSentence(words);
  const mostAsked = 12;
  return [
    ...(told === '' ? [] : [{ sentence: told, isAsked: false }]),
    ...words.filter(({ by, meaning }) => by === 'reader' || meaning === undefined).slice(0, mostAsked).map(({ word, count, meaning }) => ({
      sentence: `“${word}” stands in ${count} ${count === 1 ? 'row' : 'rows'}.`, isAsked: meaning === undefined,
      choice: {
        label: `“${word}” means`, chosen: meaning ?? '', choices: [...(meaning === undefined ? [ask] : []), ...options.map((value) => ({ value, words: value }))],
        answer: (value: string): RowsAnswer => ({ answer: 'word', place, word, meaning: value }),
      },
    })),
  ];
}

function targetChoices(cell: TableCell, target: Target): readonly Choice[] {
  const own = cell.columns.filter(({ type }) => type !== 'derived').map(({ key, label }): Choice => ({ value: `as ${key}`, words: label.toLowerCase() === key.toLowerCase() ? label : composed`${label} (${key})` }));
  const other = target.startsWith('as ') && !own.some(({ value }) => value === target) ? [{ value: target, words: target.slice(3) }] : [];
  return [...own, ...other, { value: 'own', words: 'a column of its own' }, { value: 'out', words: 'nothing: leave it out' }];
}

function headText({ typed, column }: ColumnState): string {
  const unit = column === undefined || (column.type !== 'quantity' && column.type !== 'count') ? undefined : parseUnit(column.unit);
  const label = column?.label ?? typed;
  return unit === undefined || !unit.ok || unit.value.name === '1' ? label : composed`${label} / ${unitText(unit.value)}`;
}

/** A field as the table will read it, in the table's own unit; as it came where that is still asked or can't be read. */
function fieldText({ incoming, columns }: RowsInProposal, state: ColumnState, row: number): string {
  const { column, name, typed } = state;
  const source = columns.find(({ target }) => target === `as ${typed}`);
  const text = incoming.field(row, state).trim();
  const isOpen = source !== undefined && ((source.unit !== undefined && source.unit.unit === undefined) || (source.mark !== undefined && source.mark.mark === undefined));
  const isWrong = incoming.marks.some((mark) => mark.row === row && mark.column === name && mark.leavesOut);
  if (isOpen || isWrong) return `${text} ?`;
  const value = valuesOf(incoming.all, name)[row];
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'number') return column?.type === 'option' ? String(value) : text;
  const unit = parseUnit(column?.unit ?? '');
  return Number.isNaN(value) ? '' : numberWords(fromSI(value, unit.ok ? unit.value : ONE));
}

/** A number as it is read, seven figures at most and without powers of ten where a table has none. */
function numberWords(value: number): string {
  const plain = String(Number(value.toPrecision(Math.abs(value) < 1e6 ? 7 : 15)));
  return plain.includes('e') ? figures(value, 7) : decimalText(plain, 0);
}
