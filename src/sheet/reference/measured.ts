import { ANSWER_UNIT, HINTS, ID, LABEL, NOTE, ORIGIN, PER_SPECIMEN, SLIPS, SYMBOL, TOLERANCE, TRIES, type Keys } from './types.ts';

/* Keys of the lines that a derivation consists of. */

const POSSIBLE_TAKES = '`> 0`, `>= 0`, `0 .. 1`, `2 mm .. 20 mm` or `any`; numbers without a unit in that of the line';

export const GIVEN = {
  id: ID,
  symbol: { ...SYMBOL, example: 'symbol: d_1' },
  label: LABEL,
  value: {
    means: 'The value as measured or stated once.',
    takes: 'a quantity: `6.31 mm`, `1/4 in`, `6.31 ± 0.02 mm`; without a unit in that of `unit`',
    usual: 'empty: what reads it waits',
    same: '',
    example: 'value: 6.31 mm',
    wrong: { typed: '7 kg', said: '7 kg is a mass; this blank takes a length.' },
  },
  readings: {
    means: 'Repeated readings of the same quantity; their mean counts, and they count before `value`.',
    takes: 'quantities with commas between; the last unit holds for those without one',
    example: 'readings: 101.2, 101.4 mm',
    wrong: { typed: '101.2, 7 kg', said: '101.2 kg is a mass; this blank takes a length.' },
  },
  trial: {
    means: 'A value to look at in place of what was measured, which stays as it was.',
    takes: 'as `value`',
    usual: 'none: what was measured counts',
    same: '',
    example: 'trial: 105 mm',
    wrong: { typed: '7 kg', said: 'Trial value: 7 kg is a mass; this blank takes a length.' },
  },
  unit: {
    means: 'Unit of a bare number and of the result.',
    takes: 'a unit: `mm`, `N`, `MPa`, `rev/min`, `"1"` for a number',
    usual: 'the unit written in `value` or `readings`',
    wrong: { typed: 'mn', said: '“mn” can be read in more than one way: a small m is milli and a large M is mega.' },
  },
  origin: ORIGIN,
  instrument: {
    means: 'What it was read with; says the resolution, and how far the instrument itself may be off.',
    takes: 'a class of instrument, with resolution, `±` limit or a share where this one differs',
    usual: 'none: the uncertainty is what the value or the scatter of the readings says',
    example: 'instrument: steel rule, 0.5 mm',
    wrong: { typed: 'crystal ball', said: 'The sheet knows no instrument “crystal ball”.' },
  },
  resolution: {
    means: 'Smallest step of this instrument, in place of that of its class.',
    takes: 'a quantity in the unit of the line',
    usual: 'that of the class of instrument',
    wrong: { typed: '-1 mm', said: 'The resolution “-1 mm” is less than nothing.' },
  },
  limit: {
    means: 'How far this instrument may be off, in place of what its class says.',
    takes: 'a quantity in the unit of the line, or a share of the reading: `1 %`',
    usual: 'that of the class of instrument',
    wrong: { typed: '-1 mm', said: 'The limit of error “-1 mm” is less than nothing.' },
  },
  distribution: {
    means: 'How the limit spreads the values within it.',
    takes: '`rectangular`, `triangular`, `normal`, `arcsine`, `curvilinear trapezoid` or `t`',
    usual: 'that of the class of instrument',
    wrong: { typed: 'square', said: 'The sheet knows no distribution “square”.' },
  },
  inexactness: {
    means: 'How well the limit itself is known, as a share of it: its degrees of freedom are half of one over the square of that (JCGM 100, G.4.2), and the sides of a curvilinear trapezoid lean by it (JCGM 101, 6.4.3).',
    takes: 'a share above 0 and below 100 %: `25 %`',
    usual: 'the limit is exactly known; 25 % for a curvilinear trapezoid and for t',
    wrong: { typed: '120 %', said: 'A limit can’t be off by “120 %” of itself.' },
  },
  degrees_of_freedom: {
    means: 'Degrees of freedom of the limit, as a certificate may state them.',
    takes: 'a number of 1 or more',
    usual: 'those of `inexactness`; without it 8 for t, else without end',
    wrong: { typed: '0', said: '“0” can’t be degrees of freedom of a limit.' },
  },
  range_label: { means: 'What the largest less the smallest reading is called here, such as ovality.', takes: 'text', usual: 'the range is not shown' },
  plausible: {
    means: 'Range outside which the sheet asks whether that was meant.',
    takes: POSSIBLE_TAKES,
    usual: 'any value',
    same: 'any',
    wrong: { typed: 'small', said: '“small” is no range of values.' },
  },
  possible: {
    means: 'Range outside which the value is refused.',
    takes: POSSIBLE_TAKES,
    usual: 'greater than 0',
    same: '> 0',
    wrong: { typed: 'small', said: '“small” is no range of values.' },
  },
  optional: {
    means: 'Whether it may stay empty, as what is known only after the test.',
    takes: '`true` or `false`',
    usual: 'false: an empty blank is asked for',
    same: 'false',
    wrong: { typed: 'maybe', said: '`optional` is either true or false, not `maybe`.' },
  },
  per_specimen: PER_SPECIMEN,
  together: {
    means: 'Name of the group of quantities that were read at the same time, whose readings therefore vary together.',
    takes: 'a word; all of the group have as many readings',
    usual: 'read on its own',
  },
  correlated: {
    means: 'How strongly it varies with other quantities, where that is known.',
    takes: 'below it, each symbol with a coefficient from −1 to 1',
    usual: 'not at all',
    example: 'F: 0.5',
    wrong: { typed: '{ F: "2" }', said: 'The correlation coefficient of x with F can\'t be 2.' },
  },
  elsewhere: {
    means: 'Symbol of another sheet whose value, worked out or typed there, can be taken over here; after `beside` a symbol that this sheet has to have, too, where the first alone could be another quantity.',
    takes: 'a symbol, or two with `beside` between',
    usual: 'nothing is offered',
    example: 'elsewhere: K_t',
    wrong: { typed: '2d', said: '"2d" can\'t be a symbol.' },
  },
  taken: {
    means: 'What was taken over from another sheet, as it was there.',
    takes: 'lines that the sheet writes itself when a value is taken over',
    usual: 'nothing',
    example: 'from: The specimen',
  },
  varies: {
    means: 'Numbers of which each team of a class gets one in its own file, from a seed; taken out of that file.',
    takes: 'a range with its step: `100 mm .. 140 mm step 1 mm`; numbers to choose from: `100 N or 120 N or 150 N`; or what follows from other givens, with a spread or without: `s_1 + s_2 + s_3 ± 0.5 mm step 0.5 mm`',
    usual: 'the same in every file',
    example: 'varies: 100 mm .. 140 mm step 1 mm',
    wrong: { typed: '1 mm .. 2 mm', said: 'What varies has no step.' },
  },
  slips: SLIPS,
  note: NOTE,
} satisfies Keys;

export const CHOICE = {
  id: ID,
  label: LABEL,
  chosen: { means: 'The option that counts.', takes: 'the `key` of an option', usual: 'nothing is chosen yet: what the choice sets waits', example: 'chosen: measured', wrong: { typed: 'nothing', said: '“nothing” is none of the options here.' } },
  origin: ORIGIN,
  per_specimen: PER_SPECIMEN,
  options: {
    means: 'What can be chosen, and what each choice sets.',
    takes: 'below it, each begun with a hyphen, with keys of its own',
    required: true,
    example: '- key: measured',
  },
  note: NOTE,
} satisfies Keys;

export const OPTION = {
  key: { means: 'Short name of the option.', takes: 'text, unique in the choice', required: true, example: 'key: measured' },
  label: { means: 'The option in words.', takes: 'text', usual: 'its key' },
  sets: {
    means: 'What it puts into the sheet: values of givens, formulas of steps.',
    takes: 'below it, each symbol with a quantity or a formula',
    example: 'S_ut: 630 MPa',
  },
  ranges: {
    means: 'Where the formulas that it sets have no value.',
    takes: 'below it, the symbol of each step, and below that what its `ranges` takes',
    example: 'N_f:',
  },
  source: { means: 'Where its values come from.', takes: 'text' },
  note: { means: 'A remark that is shown while it is chosen.', takes: 'text' },
  missing: { means: 'What has to be done before it can be chosen.', takes: 'text', usual: 'it can be chosen' },
  needs: { means: 'What has to be filled in before it can count.', takes: 'symbols with commas between, a step for all that its formula reads; and `meanwhile`', usual: 'nothing', example: 'needs: e, n' },
  meanwhile: { means: 'The option that counts as long as something of that is empty.', takes: 'the `key` of another option', usual: 'it counts itself', example: 'meanwhile: left-out' },
  own: { means: 'Kinds of material of which the reader’s own can be entered here: one has its values and what this option sets.', takes: '`steel`, `steel of known limit` and `aluminium`, with commas between', usual: 'none', example: 'own: steel' },
  material: { means: 'A material of the reader’s own, as it was entered.', takes: 'lines that the sheet writes itself when a material is entered or taken', usual: 'nothing', example: 'kind: steel' },
} satisfies Keys;

export const STEP = {
  id: ID,
  symbol: { ...SYMBOL, example: 'symbol: R_A' },
  label: LABEL,
  formula: {
    means: 'How it is worked out.',
    takes: 'a formula: `+ - * / ^`, functions, symbols of the sheet, `unit(mm)` for a quantity',
    required: 'unless `by` names a choice',
    example: 'formula: F_1 + F_2',
    wrong: { typed: 'F_1 +', said: 'Nothing stands after +.' },
  },
  by: {
    means: 'The choice whose option sets the formula.',
    takes: 'the id of a choice',
    usual: 'its own formula counts',
    wrong: { typed: 'nothing', said: 'The choice “nothing” sets no formula for y.' },
  },
  unit: {
    means: 'Unit that the result is shown in, and has to have the dimension of.',
    takes: 'a unit: `mm`, `N`, `MPa`, `"1"` for a number',
    usual: 'what the formula gives, in SI units',
    wrong: { typed: 'mn', said: '“mn” can be read in more than one way: a small m is milli and a large M is mega.' },
  },
  asked: {
    means: 'Whether the result stays hidden until the reader has entered one of their own.',
    takes: '`true` or `false`',
    usual: 'as `own_working` at the head of the sheet says',
    same: 'false',
    wrong: { typed: 'maybe', said: '`asked` is either true or false, not `maybe`.' },
  },
  answer: { means: 'The reader’s own result.', takes: 'a quantity, without a unit in that of the step', usual: 'none yet', same: '', wrong: { typed: '7 kg', said: '7 kg is a mass; this blank takes a length.' } },
  tried: { means: 'Wrong results of the reader’s before it.', takes: 'what the sheet writes itself: results as typed, with semicolons between', usual: 'none' },
  told: { means: 'Whether the sheet’s result has been shown beside the answer that stands, which is not taken back.', takes: '`true` or `false`; the sheet writes it itself', usual: 'as the answer and the tries say', wrong: { typed: 'maybe', said: '`told` is either true or false, not `maybe`.' } },
  tolerance: { ...TOLERANCE, usual: 'that of the head of the sheet' },
  tries: { ...TRIES, usual: 'those of the head of the sheet' },
  answer_unit: { ...ANSWER_UNIT, usual: 'as the head of the sheet says' },
  hints: { ...HINTS, usual: 'as the head of the sheet says' },
  valid_if: { means: 'Condition under which the formula may be used.', takes: 'a comparison: `d < 50*unit(mm)`', usual: 'always', same: '1 > 0', wrong: { typed: 'd <', said: 'Nothing stands after <.' } },
  otherwise: { means: 'What to say where `valid_if` does not hold.', takes: 'text; `{=x}` puts the value of a symbol in' },
  ranges: {
    means: 'Where there is no value, and why.',
    takes: 'below it, `below limit`, `low cycle` or `beyond data`, each with a comparison; the first that holds counts',
    usual: 'there is a value everywhere',
    example: 'below limit: S < S_e',
    wrong: { typed: '{ far off: "1 > 0" }', said: '“far off” is no range word.' },
  },
  spread: {
    means: 'Whether the uncertainty is shown as times or divided by, as is usual for lives.',
    takes: '`factor`',
    usual: 'shown as plus or minus',
    wrong: { typed: 'wide', said: '`spread` takes the word factor only, not `wide`.' },
  },
  clock: {
    means: 'Shows at what time of day a test that begins now would end.',
    takes: 'two symbols with a comma between, the earliest and the latest duration',
    example: 'clock: t_lo, t_hi',
    wrong: { typed: 't_lo', said: '`clock` takes two symbols, the earliest and the latest duration, not `t_lo`.' },
  },
  wanted: {
    means: 'Range in which the numbers of every team have it; taken out of a team’s file.',
    takes: POSSIBLE_TAKES,
    usual: 'any value',
    same: 'any',
    example: 'wanted: 300 MPa .. 450 MPa',
    wrong: { typed: 'small', said: '“small” is no range of values.' },
  },
  slips: SLIPS,
  note: NOTE,
} satisfies Keys;

export const SLIP = {
  label: { means: 'What is done wrongly, as a clause.', takes: 'text', usual: 'its short name' },
  formula: {
    means: 'What then stands in place of the step’s formula, or of the given’s value.',
    takes: 'a formula; a given’s own symbol is its value as read',
    required: true,
    example: 'formula: pi*(d/2)^4/64',
  },
  note: { means: 'How it comes about.', takes: 'text' },
  source: { means: 'Where it is described.', takes: 'text' },
} satisfies Keys;

export const CHECK = {
  id: ID,
  label: LABEL,
  condition: { means: 'What has to hold.', takes: 'a comparison of two formulas', required: true, example: 'condition: sigma_a <= S_y', wrong: { typed: 'd <', said: 'Nothing stands after <.' } },
  holds: { means: 'What is said where it holds.', takes: 'text; `{=x}` puts the value of a symbol in', required: true, example: 'holds: The stress stays below yield.' },
  otherwise: { means: 'What is said where it does not hold, and what to do.', takes: 'as `holds`', required: true, example: 'otherwise: Lower the load.' },
  concerns: {
    means: 'Givens at whose blanks it is said as well, where it does not hold.',
    takes: 'symbols of givens with commas between',
    example: 'concerns: L, s_1, s_2, s_3',
    wrong: { typed: 'd, 2x', said: '"2x" can\'t be a symbol.' },
  },
  wanted: {
    means: 'Whether the numbers of every team are such that it holds; taken out of a team’s file.',
    takes: '`true` or `false`',
    usual: 'false',
    same: 'false',
    wrong: { typed: 'maybe', said: '`wanted` is either true or false, not `maybe`.' },
  },
  note: NOTE,
} satisfies Keys;
