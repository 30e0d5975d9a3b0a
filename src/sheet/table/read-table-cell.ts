import * as v from 'valibot';
import { checkSymbolName } from '../../core/formula/index.ts';
import type { BodyProblem } from '../body-problem.ts';
import { fieldsOf, present, TRUTH, truthSlip } from '../fields.ts';
import type { Fields, Slip } from '../fields.ts';
import type { KeyOf } from '../keys.ts';
import type { ColumnType, TableCell, TableColumn, TableSymbol } from '../types.ts';

export const COLUMN_TYPES: readonly ColumnType[] = ['text', 'quantity', 'count', 'option', 'yes-no', 'derived'];

const TYPE = v.picklist(COLUMN_TYPES);

const typeSlip: Slip = (typed) => ({
  code: 'column-type-unknown',
  what: `\`${typed}\` is no type of column.`,
  mend: `Write one of: ${COLUMN_TYPES.join(', ')}. It is read as text until then.`,
});

/** What a table's own keys say, and the keys inside its columns that the sheet does not understand. */
interface TableReading {
  readonly fields: Pick<TableCell, 'kind' | 'columns' | 'symbols' | 'where' | 'rows'>;
  readonly unknownInside: readonly BodyProblem[];
}

/** A column without a usable key is told and left out; units, ranges and formulas are read by the graph. */
export function readTableCell(fields: Fields<KeyOf<'table'>>, problems: BodyProblem[]): TableReading {
  if (fields.isEmpty('columns')) {
    const mend = 'Add lines such as `- key: S`, each indented below `columns:`.';
    fields.missing('columns', mend);
  }
  const unknownInside: BodyProblem[] = [];
  const columns: TableColumn[] = [];
  for (const [i, item] of (fields.list('columns') ?? []).entries()) {
    if (item.kind !== 'group') {
      const mend = 'Begin it with `- key: ` and a short name; write its other keys below.';
      fields.wrongItem('columns', `Column ${i + 1} is no group of keys.`, mend);
      continue;
    }
    const inner = fieldsOf(item, 'column', problems, 'columns');
    unknownInside.push(...inner.unknown(`column ${i + 1}`));
    const column = readColumn(inner, columns);
    if (column !== undefined) columns.push(column);
  }
  return {
    fields: { kind: 'table', columns, symbols: readSymbols(fields, columns), rows: fields.text('rows') ?? '', ...present({ where: fields.text('where'), optional: fields.formed('optional', TRUTH, truthSlip('optional')) }) },
    unknownInside,
  };
}

function readColumn(inner: Fields<KeyOf<'column'>>, earlier: readonly TableColumn[]): TableColumn | undefined {
  const key = inner.required('key');
  if (key === '') return undefined;
  const checked = checkSymbolName(key);
  if (!checked.ok) {
    inner.tell('column-key-malformed', 'key', checked.problem.what, checked.problem.mend);
    return undefined;
  }
  if (earlier.some((column) => column.key === key)) {
    const mend = 'Give one of them another key; the first one counts.';
    inner.tell('column-twice', 'key', `Two columns have the key \`${key}\`.`, mend);
    return undefined;
  }
  const type = inner.formed('type', TYPE, typeSlip) ?? 'text';
  return {
    key,
    label: inner.text('label') ?? key,
    type,
    unit: (type === 'quantity' ? inner.required('unit') : inner.text('unit')) ?? '',
    options: type === 'option' ? wordsOf(inner.required('options')) : [],
    formula: type === 'derived' ? inner.required('formula') : '',
    optional: inner.formed('optional', TRUTH, truthSlip('optional')) ?? false,
    ...present({
      default: inner.text('default'),
      possible: inner.text('possible'),
      plausible: inner.text('plausible'),
      note: inner.text('note'),
    }),
  };
}

const AGGREGATE = /^(?:(sum|mean|min|max)\s+(\S+)|(slope|intercept|scatter)\s+(\S+)\s+on\s+(\S+)|count)$/;

/** What a table defines in the sheet; an entry that can't be read, or whose column holds no numbers, is told and left out. */
function readSymbols(fields: Fields<'symbols'>, columns: readonly TableColumn[]): readonly TableSymbol[] {
  const symbols: TableSymbol[] = [];
  for (const [typed, symbol] of fields.mapping('symbols') ?? []) {
    if (!fields.isSymbol('symbols', symbol)) continue;
    const found = AGGREGATE.exec(typed);
    const of = found?.[1] ?? found?.[3];
    const column = found?.[2] ?? found?.[4] ?? '';
    const on = found?.[5] ?? '';
    const typeOf = (name: string): ColumnType | undefined => columns.find(({ key }) => key === name)?.type;
    const isTyped = (name: string): boolean => ['quantity', 'count'].includes(typeOf(name) ?? '');
    const isNumbers = isTyped(column) || typeOf(column) === 'derived';
    if (found === null) {
      const mend = 'Write sum, mean, min or max and the key of a column, such as `sum D_i: D_M`; or `slope y on x: b`, or `count: n_b`.';
      fields.tell('table-symbol-unknown', 'symbols', `\`${typed}\` is nothing that a table can give.`, mend);
    } else if (of !== undefined && !isNumbers) {
      const mend = 'Name a column of quantities, of counts, or a derived one.';
      fields.tell('table-symbol-column', 'symbols', `There is no column of numbers with the key \`${column}\`.`, mend);
    } else if (on !== '' && !isTyped(on)) {
      const mend = 'Name a column of quantities or counts that are typed.';
      fields.tell('table-symbol-on', 'symbols', `A line can’t be on \`${on}\`: no column of typed numbers has that key.`, mend);
    } else symbols.push({ symbol, of: (of ?? 'count') as TableSymbol['of'], column, on });
  }
  return symbols;
}

function wordsOf(typed: string): readonly string[] {
  const words = typed.split(',').map((word) => word.trim()).filter((word) => word !== '');
  return [...new Set(words)];
}
