import { INSTRUMENT_CLASSES } from '../../core/estimate/index.ts';
import { UNIT_NAMES } from '../../core/units/index.ts';
import type { Block } from '../../sheet/index.ts';
import type { SheetSession } from '../session.ts';
import type { Offer, SheetNames } from './offers.ts';

const INSTRUMENTS: readonly Offer[] = INSTRUMENT_CLASSES.map(({ name, note = '' }) => ({ text: name, detail: note }));
const UNITS: readonly Offer[] = UNIT_NAMES.map((text) => ({ text, detail: '' }));

/** The names that the sheet has while something is typed in it; not those of the block itself, which would offer its own symbol to its formula. */
export function sheetNames(session: SheetSession, own: Block): SheetNames {
  const { blocks } = session.document();
  const states = session.states();
  const labels = new Map(blocks.flatMap((block) => (block.kind === 'cell' && block.cell.label !== undefined ? [[block.id, block.cell.label] as const] : [])));
  return {
    symbols: states.symbols.filter((symbol) => states.definedBy(symbol) !== own.id).map((symbol) => ({ text: symbol, detail: labels.get(states.definedBy(symbol) ?? '') ?? '' })),
    instruments: INSTRUMENTS,
    units: UNITS,
    ids: (kind) => blocks.flatMap((block) => (block.kind === 'cell' && block.cellKind === kind && block !== own ? [{ text: block.id, detail: labels.get(block.id) ?? '' }] : [])),
  };
}
