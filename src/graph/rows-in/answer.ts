import { cleanText } from '../../sheet/index.ts';
import type { RowsAnswer, RowsIn, RowsInAnswers } from './types.ts';

const NOTHING_SAID: RowsInAnswers = {
  targets: new Map(), units: new Map(), marks: new Map(), words: new Map(), without: new Set(), orderIsRight: false, longAreLeftOut: false,
};

/** Rows that were pasted, opened from a file or sent, with nothing said of them yet. */
export function rowsIn(text: string, { from = '', at }: { from?: string; at?: RowsIn['at'] } = {}): RowsIn {
  const lines = cleanText(text).replace(/^\s*\n|\s+$/g, '');
  return { text: lines, from, answers: NOTHING_SAID, ...(at === undefined ? {} : { at }) };
}

/** The rows with one more thing said of them. With other columns, what was said of the columns falls. */
export function answered(rows: RowsIn, said: RowsAnswer): RowsIn {
  const { answers } = rows;
  switch (said.answer) {
    case 'between': return { ...rows, answers: { ...NOTHING_SAID, between: said.between } };
    case 'head': return { ...rows, answers: { ...NOTHING_SAID, ...(answers.between === undefined ? {} : { between: answers.between }), hasHead: said.hasHead } };
    case 'target': return { ...rows, answers: withTarget(answers, said.place, said.target) };
    case 'unit': return { ...rows, answers: { ...answers, units: withEntry(answers.units, said.place, said.unit) } };
    case 'mark': return { ...rows, answers: { ...answers, marks: withEntry(answers.marks, said.place, said.mark) } };
    case 'word': {
      const words = withEntry(answers.words.get(said.place) ?? new Map<string, string>(), said.word, said.meaning);
      return { ...rows, answers: { ...answers, words: withEntry(answers.words, said.place, words) } };
    }
    case 'without': return { ...rows, answers: { ...answers, without: new Set([...answers.without, said.column]) } };
    case 'order is right': return { ...rows, answers: { ...answers, orderIsRight: true } };
    case 'long are left out': return { ...rows, answers: { ...answers, longAreLeftOut: true } };
    case 'how': return { ...rows, answers: { ...answers, how: said.how } };
    case 'again': return { ...rows, answers: { ...answers, again: said.again } };
  }
}

/** A column of the table is filled from one column of the text: the one that was named last. */
function withTarget(answers: RowsInAnswers, place: number, target: RowsInAnswers['targets'] extends ReadonlyMap<number, infer T> ? T : never): RowsInAnswers {
  const others = [...answers.targets].filter(([, known]) => known !== target || !target.startsWith('as '));
  const kept = <T>(map: ReadonlyMap<number, T>): ReadonlyMap<number, T> => new Map([...map].filter(([at]) => at !== place));
  const without = new Set([...answers.without].filter((column) => target !== `as ${column}`));
  return {
    ...answers, without, targets: new Map([...others, [place, target]]), units: kept(answers.units), marks: kept(answers.marks), words: kept(answers.words),
  };
}

function withEntry<K, T>(map: ReadonlyMap<K, T>, key: K, value: T): ReadonlyMap<K, T> {
  return new Map([...map, [key, value]]);
}
