import { didYouMean } from '../../core/problem/index.ts';
import type { BodyProblem } from '../body-problem.ts';
import { anyFieldsOf } from '../fields.ts';
import type { Fields } from '../fields.ts';
import { RECORD_FILLS, RECORD_SYMBOLS, RECORD_TEXTS, RECORD_WATCHES, type KeyOf } from '../keys.ts';
import type { RecordCell } from '../types.ts';

interface RecordFields {
  readonly unknownInside: readonly BodyProblem[];
  readonly fields: Pick<RecordCell, 'kind' | 'texts' | 'readings' | 'pauses' | 'frozen' | 'watches' | 'symbols' | 'fills' | 'row'>;
}

/** In a row, the option that a choice stands at. */
const CHOSEN = /^choice \S+$/;

/** Every entry of a list is kept, so that the n-th on the page is the n-th in the text; times and numbers are read by the graph. */
export function readRecordCell(fields: Fields<KeyOf<'record'>>, problems: BodyProblem[]): RecordFields {
  const texts = new Map<string, string>();
  for (const key of RECORD_TEXTS) {
    const text = fields.text(key);
    if (text !== undefined) texts.set(key, text);
  }
  const unknownInside: BodyProblem[] = [];
  return {
    unknownInside,
    fields: {
      kind: 'record',
      texts,
      readings: listOf('readings', fields, problems, unknownInside),
      pauses: listOf('pauses', fields, problems, unknownInside),
      frozen: fields.mapping('frozen') ?? new Map(),
      watches: roles('watches', RECORD_WATCHES, fields),
      symbols: roles('symbols', RECORD_SYMBOLS, fields),
      fills: roles('fills', RECORD_FILLS, fields),
      row: new Map([...(fields.mapping('row') ?? [])].filter(([, name]) => CHOSEN.test(name) || fields.isSymbol('row', name))),
    },
  };
}

function listOf(key: 'readings' | 'pauses', fields: Fields<'readings' | 'pauses'>, problems: BodyProblem[], unknownInside: BodyProblem[]): readonly ReadonlyMap<string, string>[] {
  return (fields.list(key) ?? []).map((item, i) => {
    if (item.kind !== 'group') {
      const first = key === 'readings' ? '- at: ' : '- from: ';
      fields.wrongItem(key, `Entry ${i + 1} of \`${key}\` is no group of keys.`, `Begin it with \`${first}\` and a time; write its other keys below.`);
      return new Map();
    }
    const word = key === 'readings' ? 'reading' : 'pause';
    // Unknown ones stay with the entry, too: it is written back whole.
    const inner = anyFieldsOf(item, word, problems, key);
    unknownInside.push(...inner.unknown(`${word} ${i + 1}`));
    return new Map([...item.entries.keys()].map((name) => [name, inner.text(name) ?? '']));
  });
}

function roles(key: 'watches' | 'symbols' | 'fills', known: readonly string[], fields: Fields<'watches' | 'symbols' | 'fills'>): ReadonlyMap<string, string> {
  return new Map([...(fields.mapping(key) ?? [])].filter(([role, symbol]) => {
    if (!known.includes(role)) {
      fields.tell('record-role', key, `\`${role}\` is nothing that a record ${key === 'watches' ? 'asks for' : 'gives'}.`, `${didYouMean(role, known)}It knows: ${known.join(', ')}.`);
      return false;
    }
    return fields.isSymbol(key, symbol);
  }));
}
