import type { KeyOf, KnownKind } from './parts.ts';
import type { SLIP } from './measured.ts';

/**
 * What of this sheet's symbols may stand behind a key, for whoever looks for them there: renaming goes by it, and so do the names that are offered while somebody types.
 * `symbols`: names of symbols, with words and signs between them. `formula`: a formula or comparison. `mixed`: a symbol, a formula or a quantity, whose units are no symbols.
 * `lines`: ids of lines, which may be their symbols, with words behind. `told`: text in which `{=x}` puts a value. A group says it of what stands before its colons (`names`) and behind them.
 */
export type Holds = 'symbols' | 'formula' | 'mixed' | 'lines' | 'told' | HoldsGroup | HoldsKeys;

interface HoldsGroup {
  readonly names?: 'symbols';
  readonly values?: Holds;
}

/** Keys of their own below it, each with what it holds, in a group or in each of a list. */
interface HoldsKeys {
  readonly keys: Readonly<Record<string, Holds>>;
}

const SLIP_HOLDS: Readonly<Partial<Record<keyof typeof SLIP, Holds>>> = { formula: 'formula', note: 'told' };
const SLIPS: Holds = { values: { keys: SLIP_HOLDS } };

/** By kind and key; a key that is not here holds no symbol of this sheet. */
export const HOLDS: { readonly [K in KnownKind]: Readonly<Partial<Record<KeyOf<K>, Holds>>> } = {
  given: { symbol: 'symbols', correlated: { names: 'symbols' }, varies: 'mixed', slips: SLIPS, note: 'told' },
  choice: {
    options: { keys: { sets: { names: 'symbols', values: 'mixed' }, ranges: { names: 'symbols', values: { values: 'formula' } }, needs: 'symbols', note: 'told' } },
    note: 'told',
  },
  step: { symbol: 'symbols', formula: 'formula', valid_if: 'formula', otherwise: 'told', ranges: { values: 'formula' }, clock: 'symbols', slips: SLIPS, note: 'told' },
  check: { condition: 'formula', holds: 'told', otherwise: 'told', concerns: 'symbols', note: 'told' },
  table: { columns: { keys: { formula: 'formula', note: 'told' } }, where: 'formula', symbols: { values: 'symbols' }, note: 'told' },
  fit: { asks: { values: 'mixed' }, symbols: { values: 'symbols' }, note: 'told' },
  figure: { of: 'symbols', against: 'symbols', values: { values: 'symbols' }, givens: { values: 'symbols' }, note: 'told' },
  checklist: { items: 'told', note: 'told' },
  photo: { symbols: { values: 'symbols' }, broke_at: 'symbols', section_there: 'symbols', note: 'told' },
  question: { formula: 'formula', in: 'symbols', why: 'told', answer: 'formula', note: 'told' },
  remark: { text: 'told', note: 'told' },
  record: {
    frozen: { names: 'symbols' }, watches: { values: 'symbols' }, symbols: { values: 'symbols' }, fills: { values: 'symbols' }, row: { values: 'symbols' }, note: 'told',
  },
  aside: { label: 'told', holds: 'told', note: 'told' },
  end: { note: 'told' },
};

/** Entries of the head. */
export const HEAD_HOLDS: Readonly<Record<string, Holds>> = {
  chief_results: 'symbols', slips: 'symbols', lecture: 'lines', held: { keys: { inputs: { names: 'symbols' }, origins: { names: 'symbols' } } },
};
