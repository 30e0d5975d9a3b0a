import * as v from 'valibot';
import { checkSymbolName } from '../core/formula/index.ts';
import type { BodyProblem } from './body-problem.ts';
import { ANSWER_UNIT, answerUnitSlip, HINTS, hintsSlip, TOLERANCE, toleranceSlip, TRIES, triesSlip } from './asked-rules.ts';
import { fieldsOf, present, TRUTH, truthSlip } from './fields.ts';
import type { Fields, Slip } from './fields.ts';
import { partsOfDrawing, type KeyOf, type KnownKind } from './keys.ts';
import { readQuestion } from './read-question.ts';
import { readRecordCell } from './record/read-record-cell.ts';
import { readSlips } from './slips/read-slips.ts';
import { readPhotoCell } from './photo/read-photo-cell.ts';
import { readFitCell } from './table/read-fit-cell.ts';
import { readTableCell } from './table/read-table-cell.ts';
import type { Tree } from './tree.ts';
import type { Cell, ChecklistItem, ChoiceOption, ValueElsewhere } from './types.ts';

/** A cell without what depends on its place in a document. */
export type CellFields = Cell extends infer Kind ? (Kind extends Cell ? Omit<Kind, 'id' | 'problems' | 'unknownKeys'> : never) : never;

/** What a kind's own keys say, and the keys inside lists that the sheet does not understand. */
interface OwnFields<K extends KnownKind> {
  readonly fields: Omit<Extract<CellFields, { kind: K }>, 'label' | 'note'>;
  readonly unknownInside?: readonly BodyProblem[];
}

type Readers = { readonly [K in KnownKind]: (fields: Fields<KeyOf<K>>, problems: BodyProblem[]) => OwnFields<K> };

const SYMBOL = v.pipe(v.string(), v.check((name) => checkSymbolName(name).ok));
const SPREAD = v.literal('factor');
const SCALE = v.picklist(['log', 'plain']);
const CLOCK = v.pipe(
  v.string(),
  v.transform((typed) => typed.split(',').map((name) => name.trim())),
  v.strictTuple([SYMBOL, SYMBOL]),
);

const spreadSlip: Slip = (typed) => ({
  code: 'spread-unknown',
  what: `\`spread\` takes the word factor only, not \`${typed}\`.`,
  mend: 'Write `spread: factor`, or delete the line.',
});
const scaleSlip: Slip = (typed) => ({
  code: 'scale-unknown',
  what: `\`scale\` takes the words log and plain only, not \`${typed}\`.`,
  mend: 'Write `scale: log`, or delete the line: the chart then follows its fit.',
});
const clockSlip: Slip = (typed) => ({
  code: 'clock-malformed',
  what: `\`clock\` takes two symbols, the earliest and the latest duration, not \`${typed}\`.`,
  mend: 'Write them with a comma between, such as `clock: t_lo, t_hi`.',
});

/** The symbol that a cell defines, as typed also where it is malformed, so that the reader sees what was typed. */
function readSymbol(fields: Fields<'symbol'>): string {
  const typed = fields.required('symbol');
  if (typed !== '') fields.isSymbol('symbol', typed);
  return typed;
}

function valueElsewhere(fields: Fields<'elsewhere'>): ValueElsewhere | undefined {
  const typed = fields.text('elsewhere');
  if (typed === undefined) return undefined;
  const [symbol = '', beside] = typed.split(/\s+beside\s+/u);
  const areSymbols = [symbol, beside].every((name) => name === undefined || fields.isSymbol('elsewhere', name));
  return areSymbols ? { symbol, ...(beside === undefined ? {} : { beside }) } : undefined;
}

/** Symbols under `concerns`; those that can be none are told and left out. */
function concernedGivens(fields: Fields<KeyOf<'check'>>): readonly string[] | undefined {
  return fields.text('concerns')?.split(',').map((name) => name.trim()).filter((name) => fields.isSymbol('concerns', name));
}

export const CELL_READERS: Readers = {
  given: (fields) => {
    const { slips, unknownInside } = readSlips(fields);
    return {
      fields: {
        kind: 'given',
        symbol: readSymbol(fields),
        unit: fields.text('unit') ?? '',
        ...present({
          value: fields.text('value'),
          readings: fields.text('readings'),
          trial: fields.text('trial'),
          instrument: fields.text('instrument'),
          resolution: fields.text('resolution'),
          limit: fields.text('limit'),
          distribution: fields.text('distribution'),
          inexactness: fields.text('inexactness'),
          degreesOfFreedom: fields.text('degrees_of_freedom'),
          rangeLabel: fields.text('range_label'),
          plausible: fields.text('plausible'),
          possible: fields.text('possible'),
          optional: fields.formed('optional', TRUTH, truthSlip('optional')),
          together: fields.text('together'),
          correlated: fields.mapping('correlated'),
          elsewhere: valueElsewhere(fields),
          taken: fields.mapping('taken'),
          varies: fields.text('varies'),
          slips,
        }),
      },
      unknownInside,
    };
  },
  step: (fields) => {
    const { slips, unknownInside } = readSlips(fields);
    const by = fields.text('by');
    if (by === undefined && fields.isEmpty('formula')) {
      const mend = 'Add a line such as `formula: F_1 + F_2`, or `by: ` with the id of the choice that sets the formula.';
      fields.missing('formula', mend);
    }
    return {
      fields: {
        kind: 'step',
        symbol: readSymbol(fields),
        ...present({
          formula: fields.text('formula'),
          by,
          unit: fields.text('unit'),
          asked: fields.formed('asked', TRUTH, truthSlip('asked')),
          answer: fields.text('answer'),
          tried: fields.text('tried'),
          isTold: fields.formed('told', TRUTH, truthSlip('told')),
          tolerance: fields.formed('tolerance', TOLERANCE, toleranceSlip),
          tries: fields.formed('tries', TRIES, triesSlip),
          answerUnit: fields.formed('answer_unit', ANSWER_UNIT, answerUnitSlip),
          hints: fields.formed('hints', HINTS, hintsSlip),
          validIf: fields.text('valid_if'),
          otherwise: fields.text('otherwise'),
          ranges: fields.mapping('ranges'),
          spread: fields.formed('spread', SPREAD, spreadSlip),
          clock: fields.formed('clock', CLOCK, clockSlip),
          wanted: fields.text('wanted'),
          slips,
        }),
      },
      unknownInside,
    };
  },
  check: (fields) => ({
    fields: {
      kind: 'check',
      condition: fields.required('condition'),
      holds: fields.required('holds'),
      otherwise: fields.required('otherwise'),
      ...present({ concerns: concernedGivens(fields), wanted: fields.formed('wanted', TRUTH, truthSlip('wanted')) }),
    },
  }),
  figure: (fields) => ({
    unknownInside: unknownParts(fields),
    fields: {
      kind: 'figure',
      drawing: fields.required('drawing'),
      values: fields.mapping('values') ?? new Map(),
      ...present({
        by: fields.text('by'),
        fit: fields.text('fit'),
        scale: fields.formed('scale', SCALE, scaleSlip),
        of: fields.text('of'),
        against: fields.text('against'),
        from: fields.text('from'),
        to: fields.text('to'),
        givens: fields.mapping('givens'),
      }),
    },
  }),
  remark: (fields) => ({
    fields: { kind: 'remark', heading: fields.required('heading'), text: fields.text('text') ?? '', ...present({ hint: fields.text('hint') }) },
  }),
  question: readQuestion,
  aside: (fields) => {
    fields.required('label');
    return { fields: { kind: 'aside', holds: fields.required('holds') } };
  },
  end: () => ({ fields: { kind: 'end' } }),
  choice: readChoice,
  table: readTableCell,
  fit: readFitCell,
  photo: readPhotoCell,
  record: readRecordCell,
  checklist: readChecklist,
};

/** Names under `values` and `givens` that are no part of the drawing; a chart that reads no values has none. */
function unknownParts(fields: Fields<KeyOf<'figure'>>): readonly BodyProblem[] {
  const known = partsOfDrawing(fields.text('drawing') ?? '');
  return known === undefined ? [] : (['values', 'givens'] as const).flatMap((key) => fields.unknownBelow([key], known, key));
}

function readChoice(fields: Fields<KeyOf<'choice'>>, problems: BodyProblem[]): OwnFields<'choice'> {
  const unknownInside: BodyProblem[] = [];
  const options: ChoiceOption[] = [];
  const mend = 'Add lines such as `- key: measured`, each indented below `options:`.';
  for (const [i, item] of listOf(fields, 'options', mend).entries()) {
    if (item.kind !== 'group') {
      const how = 'Begin it with `- key: ` and a short name; write its other keys below.';
      fields.wrongItem('options', `Option ${i + 1} is no group of keys.`, how);
      continue;
    }
    const inner = fieldsOf(item, 'option', problems, 'options');
    unknownInside.push(...inner.unknown(`option ${i + 1}`));
    const key = inner.required('key');
    if (key === '') continue;
    if (options.some((option) => option.key === key)) {
      const how = 'Give one of them another key; the first one counts.';
      inner.tell('option-twice', 'key', `Two options have the key \`${key}\`.`, how);
      continue;
    }
    options.push({
      key,
      label: inner.text('label') ?? key,
      sets: inner.mapping('sets') ?? new Map(),
      ...present({
        ranges: inner.mappings('ranges'),
        source: inner.text('source'),
        note: inner.text('note'),
        missing: inner.text('missing'),
        needs: namesIn(inner.text('needs')),
        meanwhile: inner.text('meanwhile'),
        own: namesIn(inner.text('own')),
        material: inner.mapping('material'),
      }),
    });
  }
  return { fields: { kind: 'choice', chosen: fields.text('chosen') ?? '', options }, unknownInside };
}

function namesIn(list: string | undefined): readonly string[] | undefined {
  return list?.split(',').map((name) => name.trim()).filter((name) => name !== '');
}

/** Every item of the list becomes one item, so that the n-th on the page is the n-th in the text. */
function readChecklist(fields: Fields<KeyOf<'checklist'>>, problems: BodyProblem[]): OwnFields<'checklist'> {
  const unknownInside: BodyProblem[] = [];
  const mend = 'Add lines such as `- Guard closed`, each indented below `items:`.';
  const items = listOf(fields, 'items', mend).map((item, i): ChecklistItem => {
    if (item.kind === 'text') return { text: item.text };
    if (item.kind === 'list') {
      fields.wrongItem('items', `Item ${i + 1} is a list of its own.`, 'Write one text for each item.');
      return { text: '' };
    }
    const inner = fieldsOf(item, 'item', problems, 'items');
    unknownInside.push(...inner.unknown(`item ${i + 1}`));
    return { text: inner.required('text'), ...present({ done: inner.text('done') }) };
  });
  return { fields: { kind: 'checklist', items }, unknownInside };
}

function listOf<K extends string>(fields: Fields<K>, key: K, mend: string): readonly Tree[] {
  if (fields.isEmpty(key)) fields.missing(key, mend);
  return fields.list(key) ?? [];
}
