/** For each place of the language's reference a small sheet that uses it, in which one key can be set, changed or left out. */
import { ASKS, FRONT_MATTER, HELD_STATES, INNER_PARTS, KINDS, type KeyEntry } from '../../src/sheet/index.ts';
import { renderSheet } from '../../src/report/index.ts';
import { contextOf } from './sheet-at.ts';

type Keys = Readonly<Record<string, unknown>>;
type Find = keyof typeof ASKS;

/** Text that is put into the cell as it is, a group of keys on one line. */
class Raw {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

const cell = (kind: string, keys: Keys): string =>
  `\`\`\`${kind}\n${Object.entries(keys).map(([key, value]) => `${key}: ${value instanceof Raw ? value.text : JSON.stringify(value)}\n`).join('')}\`\`\`\n`;

const ROWS = 'S,N,outcome,group\n420,61000,fracture,one\n420,94000,fracture,two\n380,210000,fracture,one\n380,178000,fracture,two\n340,640000,fracture,one\n340,905000,runout,two\n360,400000,fracture,one\n360,300000,fracture,two\n';
const COLUMNS = [
  { key: 'S', type: 'quantity', unit: 'MPa' }, { key: 'N', type: 'count', unit: 'cycles' },
  { key: 'outcome', type: 'option', options: 'fracture, runout', default: 'fracture' }, { key: 'group' },
];
const STEPS = ['400,fracture', '380,fracture', '360,runout', '380,runout', '400,fracture', '380,fracture', '360,runout', '380,runout', '400,fracture', '380,runout', '400,runout', '420,fracture'];

/** What the cells under test refer to. */
const AROUND = [
  cell('given', { symbol: 'd', value: '6 mm', unit: 'mm' }),
  cell('given', { symbol: 'F', value: '100 N', unit: 'N' }),
].join('\n');
const TESTED = [
  AROUND,
  cell('table', { id: 'specimens', columns: COLUMNS, rows: ROWS }),
  cell('table', { id: 'stairs', columns: COLUMNS, rows: `S,outcome,N\n${STEPS.map((row) => `${row},10000000\n`).join('')}` }),
  cell('table', { id: 'planned', columns: [{ key: 'S', type: 'quantity', unit: 'MPa' }, { key: 'count', type: 'count', unit: '1' }], rows: 'S,count\n420,3\n360,3\n300,3\n' }),
  cell('table', { id: 'owned', columns: [{ key: 'm', type: 'quantity', unit: 'kg' }], rows: 'm\n2\n1\n' }),
  cell('fit', { id: 'line', table: 'specimens' }),
].join('\n');

const CELLS: Readonly<Record<keyof typeof KINDS, Keys>> = {
  given: { symbol: 'x', value: '5 mm', unit: 'mm', instrument: 'steel rule' },
  choice: { id: 'c', chosen: 'a', options: [{ key: 'a' }] },
  step: { symbol: 'y', formula: 'd', unit: 'mm' },
  check: { id: 'k', condition: 'd > 0*unit(mm)', holds: 'yes', otherwise: 'no' },
  table: { id: 't', columns: [{ key: 'S', type: 'quantity', unit: 'MPa' }], rows: 'S\n300\n' },
  fit: { id: 'f', table: 'specimens' },
  figure: { id: 'g', drawing: 'free-body' },
  checklist: { id: 'l', items: ['look'] },
  photo: { id: 'p' },
  question: { id: 'q', label: 'In d', formula: 'd^2' },
  remark: { id: 'r', heading: 'Aim' },
  aside: { id: 'a', label: 'More', holds: 'all' },
  end: { id: 'z' },
  record: { id: 'o', counter_start: '0', started: '2026-11-20T09:00:00+01:00', readings: [{ at: '2026-11-20T10:00:00+01:00', counter: '3000' }] },
};

const FINDS: Readonly<Record<Find, Keys>> = {
  limits: { id: 'f', finds: 'limits', of: 'line', asks: { stress: '350 MPa', life: '1e6' } },
  lives: { id: 'f', finds: 'lives', table: 'specimens', asks: { stress: '420 MPa' } },
  comparison: { id: 'f', finds: 'comparison', table: 'specimens', asks: { stress: '350 MPa', life: '1e6' } },
  staircase: { id: 'f', finds: 'staircase', table: 'stairs', asks: { step: '20 MPa', life: '1e7' } },
  plan: { id: 'f', finds: 'plan', table: 'planned', of: 'line', asks: { life: '1e7', speed: '3000', stress: '350 MPa', width_B: '1', factor_N: '2' } },
  weights: { id: 'f', finds: 'weights', table: 'owned', asks: { load: '300 N', arm: '60 mm', from: '90 mm', to: '450 mm' } },
};

/** One place of the reference. */
export interface Place {
  readonly name: string;
  readonly keys: Readonly<Record<string, KeyEntry>>;
  /** The sheet with one key of the place set to that, or without it. */
  readonly sheet: (key: string, typed: string | undefined) => string;
}

function changed(keys: Keys, key: string, typed: string | undefined): Keys {
  const others = Object.fromEntries(Object.entries(keys).filter(([name]) => name !== key));
  return typed === undefined ? others : { ...others, [key]: typed.startsWith('{') ? new Raw(typed) : typed };
}

/** An inner group as one line, in which a part may stand as it is. */
const flow = (keys: Keys): Raw => new Raw(`{ ${Object.entries(keys).map(([key, value]) => `${key}: ${value instanceof Raw ? value.text : JSON.stringify(value)}`).join(', ')} }`);
const listed = (keys: Keys): Raw => new Raw(`[${flow(keys).text}]`);

const withCell = (kind: keyof typeof KINDS, more: Keys): string => `${kind === 'fit' ? TESTED : AROUND}\n${cell(kind, { ...CELLS[kind], ...more })}`;

/** A cell in which the key counts for something. */
function cellFor(kind: keyof typeof KINDS, key: string): Keys {
  if (kind === 'step' && key === 'by') return changed(CELLS.step, 'formula', undefined);
  if (kind === 'fit' && key === 'of') return FINDS.limits;
  return kind === 'fit' && key === 'table' ? FINDS.staircase : CELLS[kind];
}

const kinds = (Object.keys(KINDS) as (keyof typeof KINDS)[]).map((kind): Place => ({
  name: kind, keys: KINDS[kind].keys,
  sheet: (key, typed) => `${kind === 'fit' ? TESTED : AROUND}\n${cell(kind, changed(cellFor(kind, key), key, typed))}`,
}));

const INSIDE: readonly Place[] = [
  { name: 'option', keys: keysUnder('choice', 0), sheet: (key, typed) => withCell('choice', { options: listed(changed({ key: 'a' }, key, typed)) }) },
  { name: 'slip', keys: keysUnder('step', 0), sheet: (key, typed) => withCell('step', { slips: flow({ radius: flow(changed({ formula: 'd/2' }, key, typed)) }) }) },
  { name: 'column', keys: keysUnder('table', 0), sheet: (key, typed) => withCell('table', { columns: listed(changed(columnFor(key), key, typed)), rows: 'S\n300\n400\n' }) },
  { name: 'item', keys: keysUnder('checklist', 0), sheet: (key, typed) => withCell('checklist', { items: listed(changed({ text: 'look' }, key, typed)) }) },
  { name: 'reading', keys: keysUnder('record', 0), sheet: (key, typed) => withCell('record', { readings: listed(changed({ at: '2026-11-20T10:00:00+01:00', counter: '3000' }, key, typed)) }) },
  { name: 'pause', keys: keysUnder('record', 1), sheet: (key, typed) => withCell('record', { pauses: listed(changed({ from: '2026-11-20T09:30:00+01:00', to: '2026-11-20T09:40:00+01:00' }, key, typed)) }) },
];

/** A column for which the key has to be there. */
function columnFor(key: string): Keys {
  if (key === 'type') return { key: 'S' };
  return { key: 'S', ...(key === 'options' ? { type: 'option', options: '300, 400' } : key === 'formula' ? { type: 'derived', formula: '1' } : { type: 'quantity', unit: 'MPa' }) };
}

function keysUnder(kind: keyof typeof KINDS, place: number): Place['keys'] {
  return INNER_PARTS[kind]?.[place]?.keys ?? {};
}

const asks = (Object.keys(ASKS) as Find[]).map((find): Place => ({
  name: `asks of ${find}`, keys: ASKS[find].keys,
  sheet: (key, typed) => `${TESTED}\n${cell('fit', { ...FINDS[find], asks: flow(changed(FINDS[find]['asks'] as Keys, key, typed)) })}`,
}));

const head = (keys: Keys): string => `---\n${Object.entries(keys).map(([key, value]) => `${key}: ${value instanceof Raw ? value.text : JSON.stringify(value)}\n`).join('')}---\n${AROUND}`;

export const PLACES: readonly Place[] = [
  ...kinds, ...INSIDE, ...asks,
  { name: 'front matter', keys: FRONT_MATTER.keys, sheet: (key, typed) => `${head(changed({ title: 'A sheet' }, key, typed))}\n${cell('step', CELLS.step)}` },
  { name: 'held state', keys: HELD_STATES.keys, sheet: (key, typed) => head({ held: listed(changed({ name: 'first', inputs: { d: '7 mm' } }, key, typed)) }) },
];

/** Everything that the report of a sheet says, as text. */
export async function said(text: string): Promise<string> {
  return renderSheet(await contextOf(text)).replace(/<[^>]*>/g, '').replace(/&#39;/g, '\'').replace(/&quot;/g, '"').replace(/&gt;/g, '>').replace(/&lt;/g, '<').replace(/&amp;/g, '&').replace(/[\u2066-\u2069]/g, '');
}
