import { parseUnit } from '../../core/units/index.ts';
import type { ColumnIn, MarkReading, RowsAnswer, RowsIn, RowsInProposal, RowsQuestion, UnitReading, WordReading } from '../../graph/index.ts';
import { BETWEEN, type Between, type TableColumn } from '../../sheet/index.ts';
import { decimalText, unitText } from './number.ts';

/* What is said of rows on their way into a table. */

export interface Choice {
  readonly value: string;
  readonly words: string;
}

const BETWEEN_WORDS: Readonly<Record<Between, string>> = { '\t': 'tabs', ';': 'semicolons', ',': 'commas', '|': 'upright strokes', blanks: 'blanks' };

export function betweenChoices(): readonly Choice[] {
  return BETWEEN.map((value) => ({ value, words: BETWEEN_WORDS[value] }));
}

export const AGAIN_CHOICES: readonly Choice[] = [
  { value: '', words: 'choose' },
  { value: 'stay', words: 'stays as it is in the table' },
  { value: 'replace', words: 'is replaced by what comes in' },
  { value: 'add', words: 'gets a row more' },
];

export function targetWords(why: NonNullable<ColumnIn['why']>): string {
  return { computed: 'The table computes it anew.', again: 'Another column goes there already.', empty: 'It holds nothing.' }[why];
}

export function unitWords(unit: string): string {
  const powers: Readonly<Record<string, string>> = { e3: 'thousand cycles', e6: 'million cycles' };
  if (/^e\d$/.test(unit)) return powers[unit] ?? `10^${unit.slice(1)} cycles`;
  const read = parseUnit(unit);
  return read.ok ? unitText(read.value) || '1' : unit;
}

export function unitSentence({ unit = '', typed, by }: UnitReading, column: TableColumn): string {
  const own = unitWords(column.unit);
  switch (by) {
    case 'head': return `The head says ${unitWords(unit)}.`;
    case 'table': return `No unit is stated: read in ${unitWords(unit)}, as the table does.`;
    case 'fields': return 'Each field states its unit.';
    case 'reader': return '';
    case 'unknown': return `“${typed}” is no unit that is known here. Which unit are the numbers in?`;
    case 'other dimension': return `“${typed}” is no unit of ${column.label}. Which unit are the numbers in?`;
    case 'not stated': return `No unit is stated, and the numbers would be unusual for ${column.label} in ${own}. Which unit are they in?`;
  }
}

/** What a number with a doubtful mark would be. */
function readAs(field: string, mark: 'point' | 'comma'): string {
  const plain = mark === 'point' ? field.replaceAll(',', '') : field.replaceAll('.', '').replace(',', '.');
  return /^\d+(?:\.\d+)?$/.test(plain) ? decimalText(plain, 0) : field;
}

export function markSentence({ mark = 'point', by, ambiguous, conflict }: MarkReading): string {
  const said = ambiguous === undefined ? '' : ` ${ambiguous} is read as ${readAs(ambiguous, mark)}.`;
  const name = mark === 'point' ? 'point' : 'comma';
  switch (by) {
    case 'plain':
    case 'reader': return said.trim();
    case 'column': return `Its own numbers show a decimal ${name}.${said}`;
    case 'text': return `The numbers of other columns show a decimal ${name}.${said}`;
    case 'range': return `Only with a decimal ${name} are its numbers usual here.${said}`;
    case 'between': return `Where commas stand between columns, a point is the decimal mark.${said}`;
    case 'open': return `${ambiguous ?? ''} can be ${readAs(ambiguous ?? '', 'point')} or ${readAs(ambiguous ?? '', 'comma')}. Which is it, in the whole column?`;
    case 'conflict': return `“${conflict?.[0] ?? ''}” asks for a decimal point and “${conflict?.[1] ?? ''}” for a decimal comma. Which is it, in the whole column? Rows that do not fit are left out.`;
  }
}

export function markWords({ ambiguous }: MarkReading): readonly Choice[] {
  const such = (mark: 'point' | 'comma'): string => (ambiguous === undefined ? '' : `: ${ambiguous} is ${readAs(ambiguous, mark)}`);
  return [{ value: 'point', words: `a decimal point${such('point')}` }, { value: 'comma', words: `a decimal comma${such('comma')}` }];
}

export function wordSentence(words: readonly WordReading[]): string {
  const told = words.filter(({ word, meaning, by }) => by === 'table' && meaning !== undefined && meaning !== word);
  return told.length === 0 ? '' : `${told.slice(0, 8).map(({ word, meaning }) => `${word} is read as ${meaning}`).join(', ')}.`;
}

type Asked = readonly { readonly sentence: string; readonly presses: readonly { readonly words: string; readonly answer: RowsAnswer }[] }[];

/** Questions that belong to no column's line. */
export function questionAt(question: RowsQuestion): Asked {
  switch (question.about) {
    case 'order': return [{ sentence: 'No line names the columns. Are they in the order that is shown?', presses: [{ words: 'they are in this order', answer: { answer: 'order is right' } }] }];
    case 'missing': {
      const { label, column, standsFor } = question;
      const sentence = standsFor === '' ? `No column goes into ${label}. Choose one, or the rows can’t be used until it is filled in.` : `No column goes into ${label}. Choose one, or each row counts as ${standsFor}.`;
      return [{ sentence, presses: [{ words: standsFor === '' ? `bring them in without ${label}` : `count each as ${standsFor}`, answer: { answer: 'without', column } }] }];
    }
    case 'long': return [{
      sentence: `${lines(question.count)} with more fields than columns are named: line ${question.first} has ${question.fields}, and ${question.columns} are named. Choose what stands between the columns, or leave ${question.count === 1 ? 'it' : 'them'} out.`,
      presses: [{ words: question.count === 1 ? 'leave this line out' : 'leave these lines out', answer: { answer: 'long are left out' } }],
    }];
    case 'again': return [{ sentence: `${question.count === 1 ? `The specimen ${question.first} is` : `${question.count} specimens, ${question.first} first, are`} there already with other values. Choose below what becomes of ${question.count === 1 ? 'it' : 'them'}.`, presses: [] }];
    default: return [];
  }
}

const rows = (count: number): string => `${decimalText(String(count), 0)} ${count === 1 ? 'row' : 'rows'}`;
const lines = (count: number): string => (count === 1 ? '1 line comes' : `${count} lines come`);

/** Some numbers of rows, counted from 1. */
function numbersOf(places: readonly number[]): string {
  const most = 8;
  const first = places.slice(0, most).map((row) => row + 1).join(', ');
  return `${places.length === 1 ? 'row' : 'rows'} ${first}${places.length > most ? ` and ${places.length - most} more` : ''}`;
}

export function pressWords({ how, counts: { there, added, replaced } }: RowsInProposal): string {
  if (how === 'replace all' && there > 0) return `replace all ${rows(there)} by ${decimalText(String(added), 0)}`;
  if (replaced.length === 0) return `add ${rows(added)}`;
  return added === 0 ? `replace ${rows(replaced.length)}` : `replace ${rows(replaced.length)} and add ${decimalText(String(added), 0)}`;
}

/** What will be added, replaced and left out, and how. */
export function countSentences(source: RowsIn, { how, counts, columns, command, questions }: RowsInProposal): readonly string[] {
  const { there, read, added, replaced, same, stay, long, unfit, above, marked } = counts;
  const own = columns.filter(({ target }) => target === 'own').map(({ name, place }) => name || `column ${place + 1}`);
  const out = columns.filter(({ target, why }) => target === 'out' && why !== 'empty').map(({ name, place }) => name || `column ${place + 1}`);
  const all = how === 'replace all' && there > 0;
  return [
    `${rows(read)} read.`,
    ...(all ? [`All ${rows(there)} there give way, and ${rows(added)} ${added === 1 ? 'comes' : 'come'} in their place.`] : added === 0 ? [] : [`${rows(added)} ${added === 1 ? 'is' : 'are'} added${there > 0 ? ` to the ${decimalText(String(there), 0)} there` : ''}.`]),
    ...(replaced.length === 0 || all ? [] : [`What stands in ${numbersOf(replaced)} of the table is replaced.`]),
    ...(same === 0 ? [] : [`${rows(same)} left out: just so in the table already, or twice in the text.`]),
    ...(stay === 0 ? [] : [`${rows(stay)} left out: these specimens stay as they are.`]),
    ...(long === 0 || !source.answers.longAreLeftOut ? [] : [`${long === 1 ? '1 line is' : `${long} lines are`} left out: more fields than columns are named.`]),
    ...(unfit.length === 0 ? [] : [`Left out: ${unfit.slice(0, 5).map(({ line, text }) => `line ${line}, where “${text}” does not fit how its column is read`).join('; ')}${unfit.length > 5 ? `; and ${unfit.length - 5} more` : ''}.`]),
    ...(above.length === 0 ? [] : [`Left out above the head: “${above.slice(0, 3).join('”, “')}”${above.length > 3 ? ` and ${above.length - 3} more lines` : ''}.`]),
    ...(own.length === 0 ? [] : [`${own.length === 1 ? 'A column' : 'Columns'} of ${own.length === 1 ? 'its' : 'their'} own: ${own.join(', ')}.`]),
    ...(out.length === 0 ? [] : [`${out.length === 1 ? 'Column' : 'Columns'} left out: ${out.join(', ')}.`]),
    ...(marked === 0 ? [] : [`${rows(marked)} ${marked === 1 ? 'goes' : 'go'} in with a field that can’t be read, and will be marked and not used.`]),
    ...(command === undefined && questions.length === 0 ? ['There is nothing to bring in.'] : []),
  ];
}
