import { symbolInWords } from '../../core/formula/index.ts';
import { areNumbersChanged, cellsOf, headFromExample, isOfExample, isTakenOver, type Origin } from '../../sheet/index.ts';
import type { GivenCell, SheetDocument } from '../../sheet/types.ts';

/** What a value that is not the reader's own is called, in small letters beside it. */
export const ORIGIN_WORDS: Readonly<Record<Origin, string>> = { assumed: 'assumed', example: 'invented', set: 'set for this team' };

/** A changed number is the reader's own by its mark, and this says that it was not. */
export const NUMBERS_CHANGED = 'Numbers that were set for this team have been changed.';

/** Where one comes from, as the head of the sheet lists it. */
type Source = Origin | 'yours' | 'taken';

export interface OriginPlace {
  readonly cellId: string;
  readonly words: string;
}

/** Where what stands in the sheet comes from. */
interface PresentedOrigins {
  /** Filled blanks by where their values come from, in the order of the sheet. */
  readonly values: Readonly<Record<Source, readonly OriginPlace[]>>;
  /** Choices, tables, lines, remarks and records of the example. */
  readonly others: readonly OriginPlace[];
  /** Whether entries of the title block are the example's. */
  readonly isHeadInvented: boolean;
  /** The whole of it, counted; '' where no blank is filled. */
  readonly sentence: string;
  /** Said as long as anything is the example's, and where numbers that were set for a team have been changed. */
  readonly warning: string;
}

export function presentOrigins(document: SheetDocument): PresentedOrigins {
  const filled = cellsOf(document, 'given').filter(({ value, readings }) => (readings ?? value ?? '').trim() !== '');
  const of = (source: Source): readonly OriginPlace[] => filled.filter((given) => sourceOf(given) === source).map((given) => ({ cellId: given.id, words: symbolInWords(given.symbol) }));
  const values = { yours: of('yours'), assumed: of('assumed'), taken: of('taken'), set: of('set'), example: of('example') };
  const remarks = cellsOf(document, 'remark').map((remark) => ({ ...remark, label: remark.heading }));
  const others = [...cellsOf(document, 'choice'), ...cellsOf(document, 'table'), ...cellsOf(document, 'fit'), ...cellsOf(document, 'record'), ...remarks]
    .filter(isOfExample).map(({ id, label = id }) => ({ cellId: id, words: label }));
  const isHeadInvented = headFromExample(document.frontMatter.entries).length > 0;
  const isInvented = values.example.length + others.length > 0 || isHeadInvented;
  return {
    values, others, isHeadInvented,
    sentence: counted(filled.length, values),
    warning: [isInvented ? warned(values) : '', areNumbersChanged(document) ? NUMBERS_CHANGED : ''].filter((part) => part !== '').join(' '),
  };
}

function sourceOf(given: GivenCell): Source {
  return given.origin ?? (isTakenOver(given) ? 'taken' : 'yours');
}

const PARTS: readonly (readonly [Source, string])[] = [['yours', 'yours'], ['assumed', 'assumed'], ['taken', 'from other sheets'], ['set', 'set for this team'], ['example', 'invented for the example']];

function counted(all: number, values: PresentedOrigins['values']): string {
  if (all === 0) return '';
  const parts = PARTS.filter(([source]) => values[source].length > 0).map(([source, words]) => [values[source].length, words] as const);
  const [only] = parts;
  if (parts.length === 1 && only !== undefined) return all === 1 ? `The one value is ${only[1]}.` : `${all === 2 ? 'Both' : `All ${all}`} values are ${only[1]}.`;
  const said = parts.map(([count, words], i) => `${count} ${i > 0 ? '' : count === 1 ? 'is ' : 'are '}${words}`);
  return `Of ${all} values ${said.slice(0, -1).join(', ')} and ${said.at(-1) ?? ''}.`;
}

function warned({ yours, taken, set, example }: PresentedOrigins['values']): string {
  if (example.length === 0) return 'Something of the invented example still stands in it.';
  return yours.length + taken.length + set.length === 0 ? 'None was measured, and all results are invented.' : 'Whatever rests on an invented value is no result of a test.';
}
