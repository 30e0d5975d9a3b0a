import { ASIDE, CHECKLIST, END, ITEM, PAUSE, QUESTION, READING, RECORD, REMARK } from './bench.ts';
import { HEAD, HELD_STATE } from './head.ts';
import { CHECK, CHOICE, GIVEN, OPTION, SLIP, STEP } from './measured.ts';
import { DRAWING_PARTS, FIGURE, PHOTO } from './pictures.ts';
import { COLUMN, COMPARISON, FIT, LIMITS, LIVES, PLAN, STAIRCASE, TABLE, WEIGHTS } from './tables.ts';
import type { InnerPart, Part } from './types.ts';

/**
 * The one description of the sheet's language: every kind of cell, every key of each. The readers know keys, their order and lines to show
 * from here; the help in the page and `LANGUAGE.md` are made of it, and a test reads sheets by it.
 */
export const KINDS = {
  given: { says: 'A measured or stated quantity.', keys: GIVEN },
  choice: { says: 'One of several options, each of which sets values or formulas elsewhere.', keys: CHOICE },
  step: { says: 'A step of the derivation: a symbol and how it is worked out.', keys: STEP },
  check: { says: 'A condition, with a sentence for each way it may turn out.', keys: CHECK },
  table: { says: 'Rows of typed columns: specimens, stages, materials.', keys: TABLE },
  fit: { says: 'A line through specimens, or what follows from a line or from specimens.', keys: FIT },
  figure: { says: 'A drawing to scale or a chart, made of values of the sheet.', keys: FIGURE },
  checklist: { says: 'A list to tick. It is a reminder and no interlock.', keys: CHECKLIST },
  photo: { says: 'A photograph of a fracture surface, with what was marked in it.', keys: PHOTO },
  question: { says: 'A question whose answer is no number of the sheet: one of several options, an expression, or words for whoever marks it.', keys: QUESTION },
  remark: { says: 'A paragraph with a heading, such as aim or method.', keys: REMARK },
  record: { says: 'The record of one test, from its start to its outcome.', keys: RECORD },
  aside: { says: 'Begins a part on demand: all that follows, up to the next `end`, is closed until it is asked for. It computes as ever.', keys: ASIDE },
  end: { says: 'Ends a part on demand. It needs no key.', keys: END },
} satisfies Readonly<Record<string, Part>>;

/** What stands inside a key, by the word that unknown keys there are told with. */
export const INSIDE = {
  option: { title: 'Below `options`, for each option', says: '', keys: OPTION },
  slip: { title: 'Below `slips`, for each slip', says: '', keys: SLIP },
  column: { title: 'Below `columns`, for each column', says: '', keys: COLUMN },
  item: { title: 'Below `items`, for an item that was ticked', says: '', keys: ITEM },
  reading: { title: 'Below `readings`, for each reading', says: 'An entry that has neither time nor figures counts for nothing.', keys: READING },
  pause: { title: 'Below `pauses`, for each pause', says: '', keys: PAUSE },
} satisfies Readonly<Record<string, InnerPart>>;

/** What can be asked, and what is given, by what a fit finds. */
export const ASKS = {
  limits: {
    title: 'Below `asks` of a fit that finds limits',
    says: 'At least one of stress and life. Its `symbols` may name, of lives at the stress, the median `N_50` and the life `N_share` that the share exceeds, with their uncertainty; limits of the median '
      + '(`N_50_low`, `N_50_high`), of the whole median line (`N_band_low`, `N_band_high`), of the next specimen (`N_next`, `N_next_high`), of the first of several `N_first`, the design value `N_design`, the interval of the share '
      + '(`N_interval_low`, `N_interval_high`) and `N_two_s`; of strengths at the life the same with S: `S_50`, `S_share`, `S_50_low`, `S_50_high`, `S_band_low`, `S_band_high`, `S_next`, `S_next_high`, `S_first`, `S_design` and `S_two_s`.',
    keys: LIMITS,
  },
  lives: {
    title: 'Below `asks` of a fit that finds lives',
    says: 'Lives of specimens at one stress, with no line. Its `symbols` may name `N_50` and `N_share` with their uncertainty, their limits `N_50_low`, `N_50_high`, `N_share_low` and `N_share_high`, `N_next`, `N_next_high`, `N_first`, `N_design`, `N_interval_low`, `N_interval_high`, `n` and `failures`.',
    keys: LIVES,
  },
  comparison: {
    title: 'Below `asks` of a fit that finds a comparison',
    says: 'Its `symbols` may name `N_ratio`, `S_ratio`, `p_common` and `p_parallel`.',
    keys: COMPARISON,
  },
  staircase: {
    title: 'Below `asks` of a fit that finds a staircase',
    says: 'Its `symbols` may name `S_50`, `s_S`, `S_design` and `S_test`.',
    keys: STAIRCASE,
  },
  plan: {
    title: 'Below `asks` of a fit that finds a plan',
    says: 'The table’s columns `S` and `count` say the planned levels. Its `symbols` may name `n`, `replication`, `width_B`, `factor_N` and `t`.',
    keys: PLAN,
  },
  weights: {
    title: 'Below `asks` of a fit that finds weights',
    says: 'Which weights of a table, and where on a lever, for a wanted load. The table’s columns are `m` (mass, or weight as a force), `u_m` (its standard uncertainty), `n` (how many are alike) and `name`; all but `m` may be left out. Its `symbols` may name `mass` (in the unit of `m`) and `place`.',
    keys: WEIGHTS,
  },
} satisfies Readonly<Record<string, InnerPart>>;

export const FRONT_MATTER: Part = { says: 'What holds for the sheet as a whole. Entries of other names are kept and shown in the form at the head.', keys: HEAD };
export const HELD_STATES: InnerPart = { title: 'Below `held`, for each held state', says: '', keys: HELD_STATE };

/** The kinds of cell that this version reads. */
export type KnownKind = keyof typeof KINDS;
export type PlaceInside = keyof typeof INSIDE;
/** The keys of a kind, or of what stands inside one. */
export type KeyOf<K extends KnownKind | PlaceInside> = Extract<keyof (typeof KINDS & typeof INSIDE)[K]['keys'], string>;

/** What belongs inside the keys of a kind. */
export const INNER_PARTS: Readonly<Partial<Record<KnownKind, readonly InnerPart[]>>> = {
  given: [INSIDE.slip],
  choice: [INSIDE.option],
  step: [INSIDE.slip],
  table: [INSIDE.column],
  fit: Object.values(ASKS),
  figure: DRAWING_PARTS,
  checklist: [INSIDE.item],
  record: [INSIDE.reading, INSIDE.pause],
};
