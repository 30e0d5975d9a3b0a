/**
 * One key of the sheet's language as its help and `LANGUAGE.md` describe it, and as the readers know it. Code stands between backticks.
 */
export interface KeyEntry {
  /** What it says, in a sentence that a student understands. */
  readonly means: string;
  /** Unit or form of what stands behind it. */
  readonly takes: string;
  /** Has to be there: always, or in the case that the words name. */
  readonly required?: true | string;
  /** What counts where the key is absent; nothing does where this is left out. */
  readonly usual?: string;
  /** The text that says the same as no key at all, where there is one. */
  readonly same?: string;
  /** A line that may stand below a key of lines, or the line itself; shown where a key is missing or of the wrong shape, too. */
  readonly example?: string;
  /** A value that is none, and what is said of it. */
  readonly wrong?: { readonly typed: string; readonly said: string };
}

/** The keys of one place in the order in which a new one is written. */
export type Keys = Readonly<Record<string, KeyEntry>>;

/** One table of the reference. */
export interface Part {
  /** What it is for, in one or two sentences. */
  readonly says: string;
  readonly keys: Keys;
}

/** What stands inside a key of a cell, or below it by names of its own. */
export interface InnerPart extends Part {
  readonly title: string;
}

export const ID = {
  means: 'Names the cell for others that refer to it.',
  takes: 'letters, digits, hyphens, points and underscores; unique in the sheet',
  usual: 'the cell’s symbol, else a name made of its kind and place',
  wrong: { typed: 'a b', said: '`a b` can\'t be the id of a cell.' },
} satisfies KeyEntry;
export const LABEL = { means: 'What the reader calls it.', takes: 'text' } satisfies KeyEntry;
export const NOTE = { means: 'A remark below the line.', takes: 'text; `{=x}` puts the value of a symbol in' } satisfies KeyEntry;
export const SYMBOL = {
  means: 'The symbol that formulas know it by.',
  takes: 'letters and digits, a letter first, subscripts behind an underscore: `sigma_a`',
  required: true,
  wrong: { typed: '2d', said: '"2d" can\'t be a symbol.' },
} satisfies KeyEntry;
export const ORIGIN = {
  means: 'Where what stands in it comes from, where it is not the reader’s own. It goes when something else is entered.',
  takes: '`assumed`, which holds until somebody has looked, `example`, invented for the example of the sheet, or `set`, given to the team that has this file',
  usual: 'it is the reader’s own',
  wrong: { typed: 'assumd', said: '`origin` takes the words assumed, example and set only, not `assumd`. Did you mean `origin: assumed`?' },
} satisfies KeyEntry;
export const PER_SPECIMEN = {
  means: 'Whether it belongs to one specimen, so that a sheet for the next specimen has it empty.',
  takes: '`true` or `false`',
  usual: 'false: it is kept, as what belongs to machine and set-up',
  same: 'false',
  wrong: { typed: 'maybe', said: '`per_specimen` is either true or false, not `maybe`.' },
} satisfies KeyEntry;
export const TOLERANCE = {
  means: 'How far an own result may be off and be right. Few digits make it no wider, and zero is right only where the result is zero.',
  takes: '`1 %` of the result, `3 figures` (the same when rounded so), `2 u` (standard uncertainties of the result) or `factor 1.2`',
  wrong: { typed: 'near', said: '“near” is no tolerance.' },
} satisfies KeyEntry;
export const TRIES = {
  means: 'Wrong entries before the sheet’s result shows. What can’t be read or has too few digits is none.',
  takes: 'a whole number from 1 to 99',
  wrong: { typed: 'many', said: '“many” is no number of tries.' },
} satisfies KeyEntry;
export const ANSWER_UNIT = {
  means: 'Whether an own result has to be typed with its unit.',
  takes: '`required` or `optional`',
  wrong: { typed: 'maybe', said: '`answer_unit` is required or optional, not `maybe`.' },
} satisfies KeyEntry;
export const HINTS = {
  means: 'What is told of where a wrong result comes from.',
  takes: '`all` that can be found, the slips `listed` in the sheet in their own words, or `none`',
  wrong: { typed: 'maybe', said: '`hints` is all or listed or none, not `maybe`.' },
} satisfies KeyEntry;
export const SLIPS = {
  means: 'Common mistakes that can be switched on here to show what each does.',
  takes: 'below it, the short name of each with keys of its own',
  wrong: { typed: '{ a b: { formula: "1" } }', said: 'A slip can’t be called `a b`.' },
} satisfies KeyEntry;
