import { ANSWER_UNIT, HINTS, TOLERANCE, TRIES, type Keys } from './types.ts';

/* Keys of the front matter, which stands between two lines of `---` at the head of a sheet. */

/** The form at the head of the page. */
export const TITLE_FORM = {
  course: { means: 'The course.', takes: 'text' },
  team: { means: 'The team.', takes: 'text' },
  operators: { means: 'Who stood at the machine.', takes: 'text' },
  date: { means: 'Day of the test.', takes: 'text' },
  machine: { means: 'The machine.', takes: 'text' },
  specimen: { means: 'The specimen.', takes: 'text' },
  batch: { means: 'Batch of the material.', takes: 'text' },
  variant: { means: 'Which numbers the team that has this file was given.', takes: 'the seed of its numbers and a sum over them, which the sheet writes: `4F1C-22A0-9B1C`' },
} satisfies Keys;

/** Entries that steer the sheet and are no part of that form. */
export const SWITCHES = {
  title: { means: 'Name of the sheet.', takes: 'text', usual: 'Untitled sheet', same: 'Untitled sheet' },
  units: { means: 'Units that results are shown in.', takes: '`SI` or `US customary`', usual: 'SI', same: 'SI', wrong: { typed: 'metric', said: '`units` is SI or US customary, not `metric`.' } },
  own_working: { means: 'Whether the reader is asked for every step that does not say `asked: false`.', takes: '`true` or `false`', usual: 'false', same: 'false', wrong: { typed: 'maybe', said: '`own_working` is true or false, not `maybe`.' } },
  tolerance: { ...TOLERANCE, usual: 'the standard uncertainty of each result, at least 0.5 % and at most 2 %; for a life that is shown with a factor that factor, at least 1.05 and at most 1.2' },
  tries: { ...TRIES, usual: '3', same: '3' },
  answer_unit: { ...ANSWER_UNIT, usual: 'optional', same: 'optional' },
  hints: { ...HINTS, usual: 'all', same: 'all' },
  feedback: { means: 'When own results are judged.', takes: '`at once`, or `at the end`, when the reader hands in', usual: 'at once', same: 'at once', wrong: { typed: 'never', said: '`feedback` is at once or at the end, not `never`.' } },
  handed_in: { means: 'When the reader handed in.', takes: 'a time; the sheet writes it itself', usual: 'not yet' },
  slips: { means: 'The slips that are switched on.', takes: 'symbol, point and short name of each, with commas between: `I.radius`', usual: 'none', same: '' },
  own_texts: { means: 'Whether the own text of each cell stands below it, as in a sheet about writing sheets.', takes: '`shown` or `hidden`', usual: 'hidden', same: 'hidden', wrong: { typed: 'maybe', said: '`own_texts` is shown or hidden, not `maybe`.' } },
  chief_results: { means: 'The results that the sheet is made for.', takes: 'symbols with commas between', usual: 'the steps that no other one reads' },
  lecture: {
    means: 'What the lecture view passes over, which lines it tells with one press, and where it asks the class which way a result goes.',
    takes: 'ids of cells and headings of sections, `at once`, `left out` or `predicts`, a symbol and a percentage behind each, semicolons between: `l_1 at once; Safety left out; N_f predicts d -1 %`',
    usual: 'all is told, line by line',
    same: '',
    wrong: { typed: 'safety', said: '“safety” does not say what a lecture is to do with each of these.' },
  },
  held: { means: 'States that were held to compare with.', takes: 'below it, each begun with a hyphen, with keys of its own', usual: 'none', wrong: { typed: 'first', said: '`held` is no list of held states.' } },
  held_reference: { means: 'The held state that the sheet is compared with.', takes: 'the name of one', usual: 'none', same: '' },
  from_example: { means: 'Entries of the form that come from the example of the sheet.', takes: 'their names with commas between; each goes when something else is entered there', usual: 'none' },
  class_seed: { means: 'What the numbers of all teams of a class come from; taken out of a team’s file.', takes: 'a word or a number; the same one gives the same numbers', usual: 'none yet' },
  id: { means: 'Kept as it stands, and not shown in the form.', takes: 'text' },
  format: { means: 'Kept as it stands, and not shown in the form.', takes: 'text' },
} satisfies Keys;

export const HEAD = { ...SWITCHES, ...TITLE_FORM } satisfies Keys;

export const HELD_STATE = {
  name: { means: 'What it is called.', takes: 'text, unique in the sheet, 60 letters at most', required: true, example: 'name: first try' },
  at: { means: 'When it was held.', takes: 'a time: `2026-11-20T09:12:00+01:00`', usual: 'not known' },
  inputs: {
    means: 'What was put in.',
    takes: 'below it, each symbol of a given, or the id of a choice, with its text',
    usual: 'nothing: the state is the sheet itself',
    example: 'd: 6.31 mm',
    wrong: { typed: 'seven', said: 'The inputs of the held state “first” can’t be read.' },
  },
  rows: {
    means: 'The rows that tables had.',
    takes: 'below it, the id of each table with delimited text, 10000 characters at most',
    usual: 'every table keeps its rows',
    wrong: { typed: 'seven', said: 'Not all rows of tables in the held state “first” can be read.' },
  },
  origins: {
    means: 'Which entries were not the reader’s own.',
    takes: 'below it, the symbol or the id of each with `assumed`, `example` or `set`',
    usual: 'not known: what is brought back is the reader’s own',
    wrong: { typed: 'seven', said: 'Not all origins in the held state “first” can be read.' },
  },
} satisfies Keys;
