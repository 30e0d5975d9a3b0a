import { parseArgs } from 'node:util';

export const USAGE =
  'usage: npm run --silent solve -- FILE [--with EXAMPLE.yaml] [--set "SYMBOL=VALUE"]... [--rows "TABLE=FILE.csv"]... [--slip ID]...\n' +
  '         [--draws N] [--seed N] [--budget SYMBOL]... [--json]\n' +
  '       npm run --silent solve -- FILE --teams LIST.csv --into FOLDER [--class-seed WORD] [--with ...] [--set ...] [--rows ...]\n' +
  '  --with   lays the entries of an example over the sheet, worksheets/examples has those of the standard sheets\n' +
  '  --set    enters a value as the sheet\'s blank takes it: "d=6.31 mm", "d=6.31 ± 0.02 mm", "d=[6.31, 6.33] mm", "material=other-steel"\n' +
  '  --slip   switches a slip of the sheet on, "I.radius"; what it moves is marked\n' +
  '  --rows   "TABLE=FILE.csv" fills a table\n' +
  '  --draws  propagates distributions with N draws (JCGM 101); --seed changes the draws\n' +
  '  --budget says where the uncertainty of a result comes from (JCGM 100)\n' +
  '  --json   prints JSON\n' +
  '  --teams  writes a document for each team of a class list into the folder, with numbers drawn from the ranges of the sheet, and prints the key\n' +
  'It prints values, findings, checks, errors, warnings and the rows of tables that were left out.\n' +
  'Exit status: 0 evaluated without errors (there may be warnings, rows left out and checks that do not hold); 1 evaluated, with errors or with blanks that results wait for;\n' +
  '  2 not evaluated: no such file, or something asked for that it does not have.';

const DEFAULT_SEED = 20250101;
const MOST_SAMPLES = 10_000_000;

/** What was asked cannot be done as it was asked; the message says why. */
export class UsageError extends Error {}

/** Also what the reader of the arguments itself refuses, which has a code. */
export function isUsageError(error: unknown): error is Error {
  return error instanceof UsageError || (error instanceof TypeError && 'code' in error);
}

/** What the command line asks for. */
export interface Options {
  readonly file: string;
  /** The example to lay over it. */
  readonly with: string | undefined;
  readonly set: readonly string[];
  readonly rows: readonly string[];
  readonly slip: readonly string[];
  readonly samples: number;
  readonly seed: number;
  readonly budget: readonly string[];
  readonly json: boolean;
  /** A class list, the folder for its documents, and what their numbers come from. */
  readonly teams: string | undefined;
  readonly into: string | undefined;
  readonly classSeed: string | undefined;
  readonly help: boolean;
}

/** @throws UsageError, or a TypeError with a code for an option that is not known */
export function readOptions(args: readonly string[]): Options {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      with: { type: 'string' },
      set: { type: 'string', multiple: true, default: [] },
      rows: { type: 'string', multiple: true, default: [] },
      slip: { type: 'string', multiple: true, default: [] },
      draws: { type: 'string' },
      seed: { type: 'string' },
      budget: { type: 'string', multiple: true, default: [] },
      help: { type: 'boolean', short: 'h', default: false },
      json: { type: 'boolean', default: false },
      teams: { type: 'string' },
      into: { type: 'string' },
      'class-seed': { type: 'string' },
    },
  });
  const [file = '', ...rest] = positionals;
  if (file === '' && !values.help) throw new UsageError('Name a worksheet file.');
  if (rest.length > 0) throw new UsageError(`One file at a time; what is ${rest.join(' ')}?`);
  if ((values.teams === undefined) !== (values.into === undefined)) throw new UsageError('--teams LIST.csv and --into FOLDER go together.');
  return {
    file,
    with: values.with,
    set: values.set,
    rows: values.rows,
    slip: values.slip,
    samples: wholeNumber(values.draws, '--draws', 0, 2, MOST_SAMPLES),
    seed: wholeNumber(values.seed, '--seed', DEFAULT_SEED, 0, 2 ** 32 - 1),
    budget: values.budget,
    json: values.json,
    teams: values.teams,
    into: values.into,
    classSeed: values['class-seed'],
    help: values.help,
  };
}

function wholeNumber(text: string | undefined, name: string, absent: number, low: number, high: number): number {
  if (text === undefined) return absent;
  const value = Number(text);
  if (text.trim() === '' || !Number.isInteger(value) || value < low || value > high) {
    throw new UsageError(`${name} takes a whole number from ${low} to ${high}, not “${text}”.`);
  }
  return value;
}
