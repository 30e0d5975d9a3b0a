import { ID, LABEL, NOTE, ORIGIN, PER_SPECIMEN, type Keys } from './types.ts';

/* Keys of tables, of what is fitted to their rows, and of what is asked of a line. */

export const TABLE = {
  id: ID,
  label: LABEL,
  note: NOTE,
  origin: { ...ORIGIN, means: 'Where its rows come from, where they are not the reader’s own. It goes with the last of the rows that stood there.' },
  per_specimen: PER_SPECIMEN,
  symbols: {
    means: 'Values made of a column that the sheet knows by a symbol.',
    takes: 'below it, `sum`, `mean`, `min` or `max` and the key of a column, or `count`, or `slope`, `intercept` or `scatter` of the straight line of one column on another that is typed, as `slope y on x`, each with a symbol',
    example: 'sum D_i: D_M',
    wrong: { typed: '{ middle S: S_m }', said: '`middle S` is nothing that a table can give.' },
  },
  columns: { means: 'The columns that the table asks for.', takes: 'below it, each begun with a hyphen, with keys of its own', required: true, example: '- key: S' },
  where: {
    means: 'Condition that a row has to meet to be counted; others stay in the table.',
    takes: 'a comparison of columns: `S > 300*unit(MPa)`',
    usual: 'every row counts',
    wrong: { typed: 'S >', said: 'Nothing stands after >.' },
  },
  optional: {
    means: 'Whether it may stay empty, as a list that only some laboratories have.',
    takes: '`true` or `false`',
    usual: 'false: while it is empty a report counts it as open',
    same: 'false',
    wrong: { typed: 'maybe', said: '`optional` is either true or false, not `maybe`.' },
  },
  rows: {
    means: 'The rows themselves.',
    takes: 'after `|`, lines of delimited text, the first one the header',
    usual: 'none yet',
    same: '',
    example: 'rows: |',
  },
} satisfies Keys;

export const COLUMN = {
  key: { means: 'What the header of the rows and formulas of derived columns name it by.', takes: 'a symbol, unique in the table', required: true, example: 'key: S', wrong: { typed: '2d', said: '"2d" can\'t be a symbol.' } },
  label: { means: 'The head that the reader sees.', takes: 'text', usual: 'its key' },
  type: {
    means: 'What its fields hold.',
    takes: '`text`, `quantity`, `count` (a whole number as a rule), `option`, `yes-no` or `derived`',
    usual: 'text',
    same: 'text',
    wrong: { typed: 'number', said: '`number` is no type of column.' },
  },
  unit: { means: 'Unit of a number without one of its own.', takes: 'a unit', required: 'of a quantity', usual: 'none', example: 'unit: MPa', wrong: { typed: 'mn', said: '“mn” can be read in more than one way: a small m is milli and a large M is mega.' } },
  options: { means: 'The words that an option takes.', takes: 'words with commas between', required: 'of an option', example: 'options: fracture, runout' },
  formula: {
    means: 'How a derived column is worked out, row by row.',
    takes: 'a formula of other columns and symbols of the sheet',
    required: 'of a derived column',
    example: 'formula: log10(S/unit(MPa))',
  },
  default: { means: 'What an empty field stands for.', takes: 'as the field itself', usual: 'open; yes in a column of yes and no' },
  optional: { means: 'Whether a row may leave the field open and still count.', takes: '`true` or `false`', usual: 'false', same: 'false', wrong: { typed: 'maybe', said: '`optional` is either true or false, not `maybe`.' } },
  possible: { means: 'Range outside which a row is left out.', takes: 'as that of a given', usual: 'greater than 0', same: '> 0', wrong: { typed: 'small', said: '“small” is no range of values.' } },
  plausible: { means: 'Range outside which the sheet asks whether that was meant.', takes: 'as that of a given', usual: 'any value', same: 'any', wrong: { typed: 'small', said: '“small” is no range of values.' } },
  note: { means: 'A remark on the column.', takes: 'text' },
} satisfies Keys;

const SETTING = 'or `by` and the id of the choice whose option’s key is the word';

export const FIT = {
  id: ID,
  label: LABEL,
  finds: {
    means: 'What is found: a line through the specimens, or what is asked of a line or of the specimens.',
    takes: '`line`, `limits`, `lives` (at one stress), `comparison`, `staircase`, `plan` or `weights` (for a lever)',
    usual: 'line',
    same: 'line',
    wrong: { typed: 'truth', said: 'A fit can’t find `truth`.' },
  },
  of: { means: 'The fit whose line is asked.', takes: 'the id of a fit that finds a line', usual: 'the line, or the specimens, of its own table', wrong: { typed: 'nothing', said: 'There is no fit called nothing in this sheet.' } },
  table: {
    means: 'The table whose rows are used.',
    takes: 'the id of a table',
    required: 'where `finds` says something else than line and there is no `of`',
    usual: 'a line waits to be taken over from another sheet',
    example: 'table: specimens',
    wrong: { typed: 'nothing', said: 'There is no table called nothing in this sheet.' },
  },
  method: { means: 'How the line is fitted; only maximum likelihood counts runouts.', takes: `\`least-squares\` or \`maximum-likelihood\`, ${SETTING}`, usual: 'least-squares', same: 'least-squares', wrong: { typed: 'best', said: '`method` can\'t be `best`.' } },
  life: { means: 'How lives scatter about the line.', takes: `\`lognormal\` or \`weibull\`, ${SETTING}`, usual: 'lognormal', same: 'lognormal', wrong: { typed: 'normal', said: '`life` can\'t be `normal`.' } },
  model: { means: 'Form of the line.', takes: `\`linear\`, \`quadratic\` or \`limit\` (with a fatigue limit), ${SETTING}`, usual: 'linear', same: 'linear', wrong: { typed: 'curve', said: '`model` can\'t be `curve`.' } },
  stress: { means: 'Whether the line is straight over the logarithm of stress or over stress.', takes: `\`log\` or \`plain\`, ${SETTING}`, usual: 'log', same: 'log', wrong: { typed: 'square', said: '`stress` can\'t be `square`.' } },
  group: { means: 'The group of specimens that is used.', takes: `a word of the table’s column \`group\`, or \`all\`, ${SETTING}`, usual: 'all', same: 'all', wrong: { typed: 'nobody', said: 'The table has no group “nobody”.' } },
  asks: {
    means: 'What is asked, by the names that each finding has.',
    takes: 'below it, each name with a symbol of the sheet, a quantity or a word, or `by` and the id of a choice',
    example: 'stress: 350 MPa',
  },
  symbols: {
    means: 'What is found and known to the sheet by a symbol.',
    takes: 'below it, each name with a symbol. A line: `A`, `B`, `C`, `S_0`, `s`, `k_95`, `z_50`, `n`, `failures`, `runouts`, `left_out`, `N_low`, `N_high`, `S_low`, `S_high`',
    example: 'A: A_1',
    wrong: { typed: '{ A: 2d }', said: '"2d" can\'t be a symbol.' },
  },
  snapshot: { means: 'A line that was taken over from another sheet, as it was there.', takes: 'lines that the sheet writes itself when a line is taken over', example: 'A: 23.1' },
  note: NOTE,
} satisfies Keys;

const CONFIDENCE = { means: 'How often such limits are to be right.', takes: 'a share from 50 % to 99.9999 %', usual: '95 %', same: '95 %', wrong: { typed: '20 %', said: 'The confidence that is asked about can’t be that: it has to be between 0.5 and 0.999999.' } } as const;
const SHARE = { means: 'Share of all specimens that is to live longer.', takes: 'a share from 50 % to 99.9999 %', usual: '90 %', same: '90 %', wrong: { typed: '20 %', said: 'The share that is asked about can’t be that: it has to be between 0.5 and 0.999999.' } } as const;
const STRESS = { means: 'Stress amplitude at which lives are asked for.', takes: 'a symbol or a quantity, without a unit in MPa', wrong: { typed: '-1 MPa', said: 'The stress that is asked about can’t be that: it has to be greater than 0.' } } as const;
const LIFE = { means: 'Life at which strengths are asked for.', takes: 'a symbol or a number of cycles', wrong: { typed: '-1', said: 'The life that is asked about can’t be that: it has to be greater than 0.' } } as const;

export const LIMITS = {
  stress: STRESS,
  life: LIFE,
  next: { means: 'How many further specimens are to be tested, of which the first fracture is asked for.', takes: 'a whole number from 1 to 100000', usual: '10', same: '10', wrong: { typed: '1.5', said: 'The number asked for as `next` is no whole number.' } },
  share: SHARE,
  confidence: CONFIDENCE,
} satisfies Keys;

export const LIVES = {
  stress: { ...STRESS, means: 'Stress amplitude of the specimens that are meant; one counts within 1 %.', usual: 'that of all specimens, where they were tested at one' },
  distribution: {
    means: 'How lives are distributed at this stress.',
    takes: '`lognormal`, `weibull` or `weibull-threshold` (no life ends before a threshold)',
    usual: 'lognormal',
    same: 'lognormal',
    wrong: { typed: 'normal', said: '“normal” is no distribution that can be asked for.' },
  },
  next: { means: 'How many further specimens are to be tested, of which the first fracture is asked for.', takes: 'a whole number from 1 to 100000', usual: '10', same: '10', wrong: { typed: '1.5', said: 'The number asked for as `next` is no whole number.' } },
  share: SHARE,
  confidence: CONFIDENCE,
} satisfies Keys;

export const COMPARISON = {
  first: { means: 'One of the two groups that are compared.', takes: 'a word of the table’s column `group`', usual: 'the first group of the table', wrong: { typed: 'nobody', said: 'The table has no group “nobody”.' } },
  second: { means: 'The other one.', takes: 'a word of the table’s column `group`', usual: 'the next group of the table', wrong: { typed: 'nobody', said: 'The table has no group “nobody”.' } },
  stress: STRESS,
  life: LIFE,
  confidence: CONFIDENCE,
} satisfies Keys;

export const STAIRCASE = {
  step: { means: 'By how much the stress goes up or down from test to test.', takes: 'a symbol or a quantity, without a unit in that of the column of stresses', wrong: { typed: '-1 MPa', said: 'The step that is asked about can’t be that: it has to be greater than 0.' } },
  smallest_step: {
    means: 'The smallest step of the level that the machine can set, by its weights or its read-out. The step is then the nearest whole number of these, the same up and down, and the levels are counted by it.',
    takes: 'a symbol or a quantity, without a unit in that of the column of stresses; 0 where any level can be set', usual: '0', same: '0',
    wrong: { typed: '-1 MPa', said: 'The smallest_step that is asked about can’t be that: it has to be at least 0.' },
  },
  settable: {
    means: 'Levels that the machine can set, any distance apart: the next one is the nearest to one step away in that direction, or the neighbour where no step is stated. Goes before `smallest_step`. Counting takes their mean distance for the step; maximum likelihood takes each as it is.',
    takes: 'the id of a table with the same column of levels; any level where it has no rows', usual: 'any level can be set',
    wrong: { typed: 'nothing', said: 'There is no table “nothing”, which is asked for as `settable`.' },
  },
  life: { means: 'Life that a specimen has to reach to count as a runout.', takes: 'a symbol or a number of cycles', wrong: { typed: '-1', said: 'The life that is asked about can’t be that: it has to be greater than 0.' } },
  share: SHARE,
  confidence: CONFIDENCE,
  count: { means: 'Which of the two outcomes is counted.', takes: '`less-frequent`, `fracture` or `runout`', usual: 'less-frequent', same: 'less-frequent', wrong: { typed: 'both', said: '“both” is no count that can be asked for.' } },
  method: { means: 'How the strength is found: by counting, or by maximum likelihood.', takes: '`counting` or `probit`', usual: 'counting', same: 'counting', wrong: { typed: 'guess', said: '“guess” is no method that can be asked for.' } },
  level: { means: 'The column that holds the levels, where it is not the stress.', takes: 'the key of a column', usual: 'the column `S`' },
} satisfies Keys;

export const PLAN = {
  A: { means: 'Intercept of the line that is expected.', takes: 'a symbol or a number', usual: 'that of the line asked' },
  B: { means: 'Slope of the line that is expected.', takes: 'a symbol or a number below 0', usual: 'that of the line asked', wrong: { typed: '1', said: 'The B that is asked about can’t be that: it has to be less than 0.' } },
  s: { means: 'Scatter that is expected, standard deviation of log life.', takes: 'a symbol or a number above 0', usual: 'that of the line asked', wrong: { typed: '-1', said: 'The s that is asked about can’t be that: it has to be greater than 0.' } },
  life: { means: 'Life at which a specimen that has not broken is stopped.', takes: 'a symbol or a number of cycles', wrong: { typed: '-1', said: 'The life that is asked about can’t be that: it has to be greater than 0.' } },
  speed: { means: 'Speed of the machine.', takes: 'a symbol or a quantity, without a unit in rev/min', wrong: { typed: '-1', said: 'The speed that is asked about can’t be that: it has to be greater than 0.' } },
  machines: { means: 'How many machines run at once.', takes: 'a whole number from 1 to 1000', usual: '1', same: '1', wrong: { typed: '1.5', said: 'The number asked for as `machines` is no whole number.' } },
  confidence: CONFIDENCE,
  stress: { means: 'Stress amplitude at which the median life is asked for.', takes: 'a symbol or a quantity, without a unit in MPa', wrong: { typed: '-1 MPa', said: 'The stress that is asked about can’t be that: it has to be greater than 0.' } },
  width_B: { means: 'How wide the limits of the slope may be.', takes: 'a symbol or a number above 0', wrong: { typed: '-1', said: 'The width_B that is asked about can’t be that: it has to be greater than 0.' } },
  factor_N: { means: 'By which factor the median life may be off.', takes: 'a symbol or a number above 1', wrong: { typed: '1', said: 'The factor_N that is asked about can’t be that: it has to be greater than 1.' } },
} satisfies Keys;

const AT_LEAST_ZERO = { typed: '-1 mm', said: 'has to be at least 0.' } as const;

export const WEIGHTS = {
  load: { means: 'Load on the specimen that is wanted.', takes: 'a symbol or a quantity, without a unit in N', wrong: { typed: '-1 N', said: 'The load that is asked about can’t be that: it has to be greater than 0.' } },
  arm: { means: 'Distance of the hanger from the fulcrum.', takes: 'a symbol or a quantity, without a unit in mm', wrong: { typed: '-1 mm', said: 'The arm that is asked about can’t be that: it has to be greater than 0.' } },
  rest: { means: 'Moment about the fulcrum of everything but the weights that are chosen.', takes: 'a symbol or a quantity, without a unit in N·m', usual: '0', same: '0' },
  hanging: { means: 'Weight of what hangs at the specimen without any lever.', takes: 'a symbol or a quantity, without a unit in N', usual: '0', same: '0', wrong: { typed: '-1 N', said: 'The hanging that is asked about can’t be that: it has to be at least 0.' } },
  gravity: { means: 'Gravity, where the weights are listed by mass.', takes: 'a symbol or a quantity, without a unit in m/s²', usual: '9.80665 m/s²', same: '9.80665', wrong: { typed: '0', said: 'The gravity that is asked about can’t be that: it has to be greater than 0.' } },
  carrier: { means: 'What carries the chosen weights on the beam, and weighs with them.', takes: 'a symbol or a quantity, without a unit in that of the column `m`', usual: '0', same: '0', wrong: { typed: '-1', said: 'The carrier that is asked about can’t be that: it has to be at least 0.' } },
  from: { means: 'Nearest place of the travel, from the fulcrum.', takes: 'a symbol or a quantity, without a unit in mm', wrong: { ...AT_LEAST_ZERO, said: `The from that is asked about can’t be that: it ${AT_LEAST_ZERO.said}` } },
  to: { means: 'Farthest place of the travel.', takes: 'a symbol or a quantity, without a unit in mm', wrong: { typed: '0', said: 'The to that is asked about can’t be that: it has to be greater than 0.' } },
  apart: { means: 'How far apart the places are where a weight can stand, counted from the nearest.', takes: 'a symbol or a quantity, without a unit in mm; 0 where it can stand anywhere', usual: '0', same: '0', wrong: { ...AT_LEAST_ZERO, said: `The apart that is asked about can’t be that: it ${AT_LEAST_ZERO.said}` } },
  within: { means: 'Limits within which a place is set, either way.', takes: 'a symbol or a quantity, without a unit in mm', usual: '0', same: '0', wrong: { ...AT_LEAST_ZERO, said: `The within that is asked about can’t be that: it ${AT_LEAST_ZERO.said}` } },
  near: { means: 'Share of the wanted load by which another load is near enough.', takes: 'a share', usual: '0.2 %', same: '0.2 %', wrong: { typed: '-1', said: 'The near that is asked about can’t be that: it has to be at least 0.' } },
} satisfies Keys;
