/** The kinds of cell that this version reads. */
export type KnownKind =
  | 'given'
  | 'choice'
  | 'step'
  | 'check'
  | 'table'
  | 'fit'
  | 'figure'
  | 'checklist'
  | 'photo'
  | 'remark'
  | 'record';

/**
 * The keys of each kind in the order in which a new one is put into a cell. Values are text unless said otherwise:
 *
 * - given: `trial` a value to look at in place of what was measured; `optional` true or false; `correlated` mapping of symbol
 *   to coefficient; `slips` as those of a step.
 * - choice: `options` list of { key, label, sets (mapping of symbol to quantity or formula), ranges (mapping of a
 *   step's symbol to such a mapping as its `ranges`), source, note, missing }.
 * - step: `asked` true or false; `ranges` mapping of range word to condition; `spread` the word factor; `clock` two
 *   symbols, `t_lo, t_hi`; `slips` mapping of a short name to { label, formula, note, source }.
 * - table: `symbols` mapping of `sum`, `mean`, `min` or `max` and a column's key, or of `count`, to the symbol that it defines;
 *   `columns` list of { key, label, type (one of `COLUMN_TYPES`), unit, options (words with commas between), formula,
 *   default (text of an empty field), optional (true or false), possible, plausible, note }; `where` the condition that a
 *   row has to meet to be counted; `rows` lines of delimited text with a header.
 * - fit: `finds` one of `FINDS_WORDS`; `of` the id of the fit whose line is asked; `asks` mapping of what is asked by its name
 *   to a symbol, a quantity, a word, or `by ID`; `method`, `life`, `model`, `stress` and `group` a fixed word, or `by ID` with the id of the choice that says it;
 *   `symbols` mapping of parameter to symbol; `snapshot` mapping of what was stored of a line from another sheet.
 * - figure: `by` id of the choice whose option says which form of the drawing it is; `fit` the id of the fit that a chart draws;
 *   `scale` log or plain, the axis of stress; `of` symbols with commas between, whose values are drawn; `against` the given that moves, or two,
 *   `from` and `to` between which quantities, as many; `values` mapping of role to symbol; `givens` mapping of role to the given that a drag changes.
 * - record: `readings` list of { at, counter, speed, note, rolled_over (the two readings, `999200 to 50`) }; `pauses` list of { from, to, why }; `frozen` mapping of symbol, or
 *   `choice ID`, to text; `watches`, `symbols` and `fills` mappings of role to symbol.
 * - photo: `symbols` mapping of what is read from the marks to symbol; `picture` lines of base64.
 * - checklist: `items` list of text or of { text, done (time) }.
 */
/** What a record says in one text each, in the order of the form. */
export const RECORD_TEXTS: readonly string[] = [
  'load_verified', 'room_temperature', 'criterion', 'crack_length', 'counter_start', 'counter_multiplier', 'counter_digits',
  'open_at_start', 'started', 'ended', 'counter_end', 'counter_end_rolled_over', 'loading_cycles', 'specimen_temperature', 'outcome', 'why', 'place', 'broke_in', 'suggests',
];
/** Symbols of the prediction that a record asks for, and that it hands on as they were at the start. */
const PREDICTED: readonly string[] = ['life', 'low', 'high', 'log_life', 'u', 's', 'stress'];
export const RECORD_WATCHES: readonly string[] = ['speed', ...PREDICTED];
export const RECORD_SYMBOLS: readonly string[] = ['cycles', 'hours', ...PREDICTED];
export const RECORD_FILLS: readonly string[] = ['cycles', 'place'];

export const KEYS: Readonly<Record<KnownKind, readonly string[]>> = {
  given: [
    'id',
    'symbol',
    'label',
    'value',
    'readings',
    'trial',
    'unit',
    'instrument',
    'resolution',
    'limit',
    'distribution',
    'range_label',
    'plausible',
    'possible',
    'optional',
    'together',
    'correlated',
    'slips',
    'note',
  ],
  choice: ['id', 'label', 'chosen', 'options', 'note'],
  step: [
    'id',
    'symbol',
    'label',
    'formula',
    'by',
    'unit',
    'asked',
    'answer',
    'valid_if',
    'otherwise',
    'ranges',
    'spread',
    'clock',
    'slips',
    'note',
  ],
  check: ['id', 'label', 'condition', 'holds', 'otherwise', 'note'],
  table: ['id', 'label', 'note', 'symbols', 'columns', 'where', 'rows'],
  fit: ['id', 'label', 'finds', 'of', 'table', 'method', 'life', 'model', 'stress', 'group', 'asks', 'symbols', 'snapshot', 'note'],
  figure: ['id', 'label', 'drawing', 'by', 'fit', 'scale', 'of', 'against', 'from', 'to', 'values', 'givens', 'note'],
  checklist: ['id', 'label', 'items', 'note'],
  photo: ['id', 'label', 'scale', 'outline', 'final', 'origins', 'symbols', 'note', 'picture'],
  remark: ['id', 'heading', 'text', 'note'],
  record: ['id', 'label', ...RECORD_TEXTS, 'readings', 'pauses', 'frozen', 'watches', 'symbols', 'fills', 'note'],
};

export const OPTION_KEYS: readonly string[] = ['key', 'label', 'sets', 'ranges', 'source', 'note', 'missing'];
export const READING_KEYS: readonly string[] = ['at', 'counter', 'speed', 'note', 'rolled_over'];
export const PAUSE_KEYS: readonly string[] = ['from', 'to', 'why'];
export const SLIP_KEYS: readonly string[] = ['label', 'formula', 'note', 'source'];
export const ITEM_KEYS: readonly string[] = ['text', 'done'];
export const COLUMN_KEYS: readonly string[] = [
  'key',
  'label',
  'type',
  'unit',
  'options',
  'formula',
  'default',
  'optional',
  'possible',
  'plausible',
  'note',
];

/** Whether a fence with this info string is a cell of a kind that the sheet reads, and no program text in the prose. */
export function isKnownKind(kind: string): kind is KnownKind {
  return Object.hasOwn(KEYS, kind);
}

/** Known keys of a kind; none for a kind that is not known. */
export function keysOf(kind: string): readonly string[] {
  return isKnownKind(kind) ? KEYS[kind] : [];
}

const INNER_KEYS: Readonly<Record<string, readonly string[]>> = {
  option: OPTION_KEYS, item: ITEM_KEYS, column: COLUMN_KEYS, reading: READING_KEYS, pause: PAUSE_KEYS, slip: SLIP_KEYS,
};

/** Known keys of a kind, or of what stands inside it under that name: `option`, `column`. */
export function keysInside(kind: string, place?: string): readonly string[] {
  return place === undefined ? keysOf(kind) : (INNER_KEYS[place] ?? []);
}

/** Lines shown where a key is missing or of the wrong shape, by owner and key. */
export const LINE_EXAMPLES: Readonly<Record<string, string>> = {
  'given.symbol': 'symbol: d_1',
  'given.value': 'value: 6.31 mm',
  'given.readings': 'readings: 101.2, 101.4 mm',
  'given.trial': 'trial: 105 mm',
  'given.instrument': 'instrument: steel rule, 0.5 mm',
  'given.correlated': 'F: 0.5',
  'step.symbol': 'symbol: R_A',
  'step.ranges': 'below limit: S < S_e',
  'step.clock': 'clock: t_lo, t_hi',
  'slip.formula': 'formula: pi*(d/2)^4/64',
  'choice.chosen': 'chosen: measured',
  'check.condition': 'condition: sigma_a <= S_y',
  'check.holds': 'holds: The stress stays below yield.',
  'check.otherwise': 'otherwise: Lower the load.',
  'table.rows': 'rows: |',
  'table.symbols': 'sum D_i: D_M',
  'column.key': 'key: S',
  'column.unit': 'unit: MPa',
  'column.options': 'options: fracture, runout',
  'column.formula': 'formula: log10(S/unit(MPa))',
  'fit.table': 'table: specimens',
  'fit.symbols': 'A: A_1',
  'fit.snapshot': 'A: 23.1',
  'figure.drawing': 'drawing: free-body',
  'figure.fit': 'fit: line',
  'figure.scale': 'scale: log',
  'figure.of': 'of: N_f',
  'figure.against': 'against: d',
  'figure.from': 'from: 6 mm',
  'figure.to': 'to: 9 mm',
  'figure.values': 'span: L',
  'record.watches': 'life: N_f',
  'record.symbols': 'cycles: N_run',
  'record.fills': 'cycles: N_obs',
  'record.frozen': 'N_f: 310000 cycles',
  'photo.symbols': 'share: A_r',
  'remark.heading': 'heading: Aim',
  'option.key': 'key: measured',
  'option.ranges': 'N_f:',
  'option.sets': 'S_ut: 630 MPa',
  'item.text': 'text: Guard closed',
};
