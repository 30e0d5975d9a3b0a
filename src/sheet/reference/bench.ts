import { ID, LABEL, NOTE, ORIGIN, PER_SPECIMEN, TRIES, type KeyEntry, type Keys } from './types.ts';

/* Keys of what is filled in at the bench. */

export const CHECKLIST = {
  id: ID,
  label: LABEL,
  items: { means: 'What has to be looked at.', takes: 'below it, each begun with a hyphen: text, or keys of its own once it is ticked', required: true, example: '- Guard closed' },
  note: NOTE,
} satisfies Keys;

export const ITEM = {
  text: { means: 'What has to be looked at.', takes: 'text', required: true, example: 'text: Guard closed' },
  done: { means: 'When it was ticked.', takes: 'a time: `2026-11-20T09:12:00+01:00`', usual: 'open', same: '' },
} satisfies Keys;

export const QUESTION = {
  id: ID,
  label: { means: 'The question.', takes: 'text', required: true, example: 'label: Where is the stress largest?' },
  options: { means: 'What may be chosen, for a question with several answers to choose from.', takes: 'below it, a short name for each with its words', usual: 'it is answered in words, or by an expression where `formula` is there', example: 'middle: at the thinnest section' },
  right: { means: 'The right option. In a team’s file it stands sealed, as do `formula` and `why`.', takes: 'the short name of one', usual: 'none is right or wrong: whoever marks it says', wrong: { typed: 'nothing', said: '“nothing” is none of the options here.' } },
  formula: {
    means: 'The right expression. Any other that gives the same wherever the givens are moved is right too.',
    takes: 'a formula: `M*c/I`',
    usual: 'it is answered in words, or by one of the `options`',
    wrong: { typed: 'M*', said: 'Nothing stands after *.' },
  },
  in: { means: 'Symbols in which the expression may be written.', takes: 'symbols with commas between', usual: 'those of `formula`', wrong: { typed: '2d', said: '"2d" can\'t be a symbol.' } },
  why: { means: 'Shown with the right answer.', takes: 'text; `{=x}` puts the value of a symbol in', usual: 'nothing' },
  answer: { means: 'The reader’s own answer.', takes: 'the short name of an option, a formula, or text', usual: 'none yet', same: '' },
  tried: { means: 'Wrong answers of the reader’s before it.', takes: 'what the sheet writes itself: answers as typed, with semicolons between', usual: 'none' },
  told: { means: 'Whether the right answer has been shown.', takes: '`true` or `false`; the sheet writes it itself', usual: 'as the answer and the tries say', wrong: { typed: 'maybe', said: '`told` is either true or false, not `maybe`.' } },
  tries: { ...TRIES, usual: 'those of the head of the sheet' },
  note: NOTE,
} satisfies Keys;

export const REMARK = {
  id: ID,
  heading: { means: 'What it is about.', takes: 'text', required: true, example: 'heading: Aim' },
  text: { means: 'What is remarked.', takes: 'prose as between the cells', usual: 'empty', same: '' },
  hint: { means: 'What is to be written there: shown while nothing is, and never in a report.', takes: 'text', usual: 'none' },
  origin: ORIGIN,
  per_specimen: PER_SPECIMEN,
  note: NOTE,
} satisfies Keys;

export const ASIDE = {
  id: ID,
  label: { means: 'The heading of the part.', takes: 'text', required: true, example: 'label: Closure by least squares' },
  holds: {
    means: 'What the part contains; it stands there while the part is closed, so that the outcome can be told.', takes: 'text; `{=x}` puts the value of a symbol in', required: true,
    example: 'holds: The spans weighed against each other, {=L_c}.',
  },
  note: NOTE,
} satisfies Keys;

export const END = { id: ID, label: { means: 'What ends here, for those who read the text.', takes: 'text' }, note: NOTE } satisfies Keys;

const TIME = 'a time with its offset: `2026-11-20T09:12:00+01:00`';
const STAMP: KeyEntry['wrong'] = { typed: 'at noon', said: 'The time “at noon” can\'t be read.' };
const COUNT = { takes: 'the figures on the counter', wrong: { typed: '1.5', said: 'A counter of 6 digits can\'t show 1.5.' } } as const;

/** What a record says in one text each, in the order of the form. */
export const RECORD_FORM = {
  load_verified: { means: 'Day on which the load was verified.', takes: 'a day: `2026-11-20`' },
  finish: { means: 'How the surface of the test section was finished.', takes: 'text: `polished along the axis, 600 paper`' },
  roughness: { means: 'Roughness of the test section, and in which direction it was measured.', takes: 'text: `Ra 0.2 µm along the axis`' },
  hardness: { means: 'Hardness of the specimen or its batch.', takes: 'text: `190 HV 10`' },
  room_temperature: { means: 'Temperature of the room.', takes: 'text: `21 °C`' },
  humidity: { means: 'Humidity of the room, or the medium that the specimen runs in.', takes: 'text: `45 %`' },
  temperature_limit: { means: 'Specimen temperature at which the test is stopped.', takes: 'text: `50 °C`' },
  run_in: { means: 'What had to be steady, and for how long, before readings count.', takes: 'text: `load and speed steady for 10 min`' },
  criterion: { means: 'What counts as failure.', takes: '`separation`, `load drop`, `crack`, or words of your own' },
  crack_length: { means: 'Length of the crack that counts as failure.', takes: 'text: `1 mm`' },
  counter_start: { means: 'Reading of the counter at the start.', ...COUNT },
  counter_multiplier: { means: 'Cycles for each unit of the counter.', takes: 'a number above 0', usual: '1', wrong: { typed: '0', said: 'The multiplier of the counter must be above 0.' } },
  counter_digits: { means: 'How many digits the counter has.', takes: 'a whole number from 1 to 12', usual: '6', wrong: { typed: '13', said: 'The counter has a whole number of digits from 1 to 12.' } },
  open_at_start: { means: 'How many items of checklists were open at the start.', takes: 'text that the sheet writes: `2 of 14`' },
  started: { means: 'When the test was started.', takes: TIME, usual: 'not started yet', wrong: STAMP },
  ended: { means: 'When it ended.', takes: TIME, usual: 'it runs', wrong: STAMP },
  counter_end: { means: 'Reading of the counter at the end.', ...COUNT },
  counter_end_rolled_over: { means: 'That the counter went past its last number before the end, seen by somebody.', takes: 'the two readings: `999200 to 50`, or `999200 to 50, 3 times`', usual: 'it did not' },
  loading_cycles: { means: 'How many of the cycles ran while the load was brought on.', takes: 'a number of cycles', usual: 'none said', wrong: { typed: 'few', said: '“few” does not begin with a number.' } },
  specimen_temperature: { means: 'Highest temperature of the specimen.', takes: 'text: `35 °C`' },
  outcome: { means: 'How the test ended.', takes: '`fracture`, `runout`, `suspended` or `invalid`', usual: 'open', wrong: { typed: 'broken', said: '“broken” is no outcome of a test.' } },
  why: { means: 'Why it was suspended or is invalid.', takes: 'text' },
  place: { means: 'Where it broke, from the thinnest section.', takes: 'a quantity: `2 mm`' },
  broke_in: { means: 'In which part it broke.', takes: '`test section`, `fillet`, `grip` or `collet edge`' },
  unattended: { means: 'The checklist that comes into view when somebody leaves the machine running alone.', takes: 'the id of a checklist', usual: 'none: it is not left alone' },
  suggests: { means: 'The check whose sentence is offered as words for the discussion.', takes: 'the id of a check' },
} satisfies Keys;

export const RECORD = {
  id: ID,
  label: LABEL,
  ...RECORD_FORM,
  origin: { ...ORIGIN, means: 'Where multiplier and digits of the counter come from, where they are not the reader’s own.' },
  readings: { means: 'Readings of the counter while the test runs.', takes: 'below it, each begun with a hyphen, with keys of its own', usual: 'none yet' },
  pauses: { means: 'When the machine stood still.', takes: 'below it, each begun with a hyphen, with keys of its own', usual: 'it did not' },
  frozen: {
    means: 'What was predicted and typed in at the start, as it was then.',
    takes: 'below it, symbols, or `choice` and an id, with text that the sheet writes',
    usual: 'nothing before the start',
    example: 'N_f: 310000 cycles',
  },
  watches: {
    means: 'Which predictions the record keeps at the start.',
    takes: 'below it, `speed`, `life`, `low`, `high`, `log_life`, `breaks` (the share that breaks at all), `u`, `s` or `stress`, each with a symbol',
    example: 'life: N_f',
    wrong: { typed: '{ colour: N_f }', said: '`colour` is nothing that a record asks for.' },
  },
  symbols: {
    means: 'What the record gives the sheet by a symbol.',
    takes: 'below it, `cycles`, `hours`, or a prediction as `watches` names it, each with a symbol',
    example: 'cycles: N_run',
    wrong: { typed: '{ colour: N_x }', said: '`colour` is nothing that a record gives.' },
  },
  fills: {
    means: 'Which givens the record fills in after a fracture, as long as nothing is typed there.',
    takes: 'below it, `cycles` or `place`, each with the symbol of a given',
    example: 'cycles: N_obs',
    wrong: { typed: '{ colour: N_x }', said: '`colour` is nothing that a record gives.' },
  },
  row: {
    means: 'What the row of the finished specimen carries besides name, team, machine, stress with its uncertainty, cycles, outcome, day, place and note.',
    takes: 'below it, the name of a column with a symbol, or with `choice` and an id for the option that is chosen; `S` in place of the predicted stress. Values are those at the start; `S_break` is the stress where it broke, as it stands after the test',
    usual: 'nothing more',
    example: 'd: d',
    wrong: { typed: '{ d: 2d }', said: '"2d" can\'t be a symbol.' },
  },
  note: NOTE,
} satisfies Keys;

export const READING = {
  at: { means: 'When it was read.', takes: TIME, wrong: STAMP },
  counter: { means: 'What the counter showed.', ...COUNT },
  speed: { means: 'Speed of the machine then.', takes: 'a quantity, without a unit in rev/min', wrong: { typed: '-1', said: 'A speed of -1 can\'t be noted while the machine runs.' } },
  note: { means: 'A remark on it.', takes: 'text' },
  left: { means: 'That the machine was left running alone from then on, and how many items of its checklist were open.', takes: 'text that the sheet writes: `2 of 6`', usual: 'somebody is there' },
  back: { means: 'That somebody was with it again.', takes: '`yes`', usual: 'nobody came' },
  rolled_over: { means: 'That the counter went past its last number before this reading.', takes: 'the two readings: `999200 to 50`, or `999200 to 50, 3 times`', usual: 'it did not' },
} satisfies Keys;

export const PAUSE = {
  from: { means: 'When the machine was stopped.', takes: TIME, wrong: STAMP },
  to: { means: 'When it went on.', takes: TIME, usual: 'it stands still', wrong: STAMP },
  why: { means: 'Why.', takes: 'text' },
} satisfies Keys;
