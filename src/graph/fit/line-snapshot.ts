import { parameterNames, restoredLine, storedLine, type LineFit, type LineModel, type StoredLine } from '../../core/fatigue/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { FIT_WORDS } from '../../sheet/index.ts';

/*
 * A fitted line as text that a person can read and compare: one entry a line, doubles in full, the covariance by the rows
 * of its lower triangle.
 */

/** Where a line comes from. */
export interface LineSource {
  /** Title of the sheet that it was fitted in, and the fit's id there. */
  readonly title: string;
  readonly fitId: string;
  /** Group of the specimens; `all` where every one was used. */
  readonly group: string;
  /** Day on which it was taken: `2026-11-20`. */
  readonly date: string;
  /** Of the specimens used. */
  readonly fingerprint: string;
  /** Whether it rests on something of that sheet's invented example. */
  readonly isInvented: boolean;
}

export interface LineSnapshot {
  readonly fit: LineFit;
  readonly source: LineSource;
}

const LONGEST_NAME = 200;
const NUMBER = /^-?\d{1,400}(?:\.\d{1,400})?(?:e[+-]?\d{1,3})?$/;

/** A fit as the entries of a snapshot. */
export function snapshotTexts(fit: LineFit, source: LineSource): ReadonlyMap<string, string> {
  const line = storedLine(fit);
  const names = parameterNames(line.model);
  return new Map([
    ['from', oneLine(source.title)],
    ['fit', source.fitId],
    ['group', oneLine(source.group)],
    ['taken', source.date],
    ['method', line.method],
    ['model', line.model],
    ['life', line.life],
    ['stress', line.stress],
    ...names.map((name, i): [string, string] => [name, String(line.values[i])]),
    ['s', String(line.s)],
    ['covariance', line.covariance.map((row, i) => row.slice(0, i + 1).join(', ')).join('; ')],
    ['n', String(line.n)],
    ['failures', String(line.failures)],
    ['runouts', String(line.runouts)],
    ['levels', String(line.levels)],
    ...(line.degreesOfFreedom === null ? [] : [['degrees_of_freedom', String(line.degreesOfFreedom)] as const]),
    ['log_likelihood', String(line.logLikelihood)],
    ['tested_stress', `${line.tested.stressMpa.join(' .. ')} MPa`],
    ['tested_lives', `${line.tested.cycles.join(' .. ')} cycles`],
    ['data', source.fingerprint],
    ...(source.isInvented ? [['invented', 'yes'] as const] : []),
  ]);
}

function oneLine(text: string): string {
  return text.replace(/\s+/gu, ' ').trim().slice(0, LONGEST_NAME);
}

/**
 * The line that the entries of a snapshot say. They may come from anywhere, so each is looked at.
 * Problems: `snapshot-missing`, `snapshot-malformed`, `line-unsound`, each with the key `snapshot`.
 */
export const readSnapshot = remembered((texts: ReadonlyMap<string, string>): Result<LineSnapshot> => {
  const read = readAnew(texts);
  return read.ok ? read : fail({ ...read.problem, key: 'snapshot' });
});

function readAnew(texts: ReadonlyMap<string, string>): Result<LineSnapshot> {
  const entries = new Entries(texts);
  const model = entries.word('model', FIT_WORDS.model);
  const method = entries.word('method', FIT_WORDS.method);
  const stored: StoredLine = {
    method,
    model,
    life: entries.word('life', FIT_WORDS.life),
    stress: entries.word('stress', FIT_WORDS.stress),
    values: parameterNames(model).map((name) => entries.number(name)),
    s: entries.number('s'),
    covariance: entries.covariance(model),
    n: entries.number('n'),
    failures: entries.number('failures'),
    runouts: entries.number('runouts'),
    levels: entries.number('levels'),
    degreesOfFreedom: method === 'least-squares' ? entries.number('degrees_of_freedom') : null,
    logLikelihood: entries.number('log_likelihood'),
    tested: { stressMpa: entries.range('tested_stress', 'MPa'), cycles: entries.range('tested_lives', 'cycles') },
  };
  const source: LineSource = {
    title: oneLine(entries.text('from')),
    fitId: oneLine(entries.text('fit')),
    group: oneLine(texts.get('group') ?? 'all'),
    date: entries.formed('taken', /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])$/, 'a day such as 2026-11-20'),
    fingerprint: entries.formed('data', /^[0-9a-f]{16}$/, 'a fingerprint of 16 digits and letters a to f'),
    isInvented: texts.get('invented') === 'yes',
  };
  const [problem] = entries.problems;
  if (problem !== undefined) return fail(problem);
  const fit = restoredLine(stored);
  return fit.ok ? ok(Object.freeze({ fit: fit.value, source })) : fit;
}

/** Reads entry by entry; what is not there or of another form is told once, and something harmless stands in for it. */
class Entries {
  readonly problems: Problem[] = [];
  private readonly texts: ReadonlyMap<string, string>;

  constructor(texts: ReadonlyMap<string, string>) {
    this.texts = texts;
  }

  text(key: string): string {
    const text = this.texts.get(key)?.trim() ?? '';
    if (text === '') this.problems.push(missing(key));
    return text;
  }

  formed(key: string, form: RegExp, wanted: string): string {
    const text = this.text(key);
    if (text !== '' && !form.test(text)) this.problems.push(malformed(key, text, wanted));
    return text;
  }

  word<W extends string>(key: string, words: readonly [W, ...W[]]): W {
    const text = this.text(key);
    const word = words.find((one) => one === text);
    if (text !== '' && word === undefined) this.problems.push(malformed(key, text, `one of: ${words.join(', ')}`));
    return word ?? words[0];
  }

  number(key: string): number {
    const text = this.text(key);
    if (text !== '' && !NUMBER.test(text)) this.problems.push(malformed(key, text, 'a number'));
    return Number(text);
  }

  range(key: string, unit: string): readonly [number, number] {
    const text = this.text(key);
    const [low = '', high = '', ...more] = text.endsWith(` ${unit}`) ? text.slice(0, -unit.length - 1).split('..').map((end) => end.trim()) : [];
    if (text !== '' && !(NUMBER.test(low) && NUMBER.test(high) && more.length === 0)) {
      this.problems.push(malformed(key, text, `two numbers and their unit, such as 280 .. 460 ${unit}`));
    }
    return [Number(low), Number(high)];
  }

  /** The whole matrix from the rows of its lower triangle. */
  covariance(model: LineModel): readonly (readonly number[])[] {
    const size = parameterNames(model).length + 1;
    const text = this.text('covariance');
    const rows = text.split(';').map((row) => row.split(',').map((entry) => entry.trim()));
    const sound = rows.length === size && rows.every((row, i) => row.length === i + 1 && row.every((entry) => NUMBER.test(entry)));
    if (text !== '' && !sound) {
      const wanted = `${size} rows with semicolons between, of 1 to ${size} numbers with commas between`;
      this.problems.push(malformed('covariance', text, wanted));
    }
    return sound ? rows.map((_, i) => rows.map((_row, j) => Number(rows[Math.max(i, j)]?.[Math.min(i, j)]))) : [];
  }
}

const MEND = 'Take the line again from the sheet it came from.';

function missing(key: string): Problem {
  return { code: 'snapshot-missing', what: `The line brought in says nothing of \`${key}\`.`, mend: MEND };
}

function malformed(key: string, text: string, wanted: string): Problem {
  const shown = text.length > 40 ? `${text.slice(0, 40)}…` : text;
  return { code: 'snapshot-malformed', what: `The line brought in can’t be read: \`${key}\` takes ${wanted}, not “${shown}”.`, mend: MEND };
}
