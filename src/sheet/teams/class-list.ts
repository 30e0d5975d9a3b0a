import { composed, fail, ok, type Result } from '../../core/problem/index.ts';
import { cleanText } from '../table/clean-text.ts';
import { readDelimited, type Separator } from '../table/delimited.ts';

/** One team of a class, as the list has it. */
export interface ListedTeam {
  readonly team: string;
  /** Who is in it, with commas between; '' where the list does not say. */
  readonly names: string;
}

/** A class list read, and what was done with it that its reader should know. */
export interface ClassList {
  readonly teams: readonly ListedTeam[];
  readonly notes: readonly string[];
}

const MOST_TEAMS = 500;
const LONGEST_LIST = 1_000_000;
/** Longest name of a team or a person, in code points. */
const LONGEST_NAME = 100;
const SIGNS: readonly Separator[] = ['\t', ';', ',', '|'];

type Meaning = 'team' | 'names' | 'first name' | 'last name';

/** Heads of columns in the languages of the laboratories that the sheet's tables know, in small letters. */
const HEADS: readonly (readonly [Meaning, RegExp])[] = [
  ['team', /^(?:team|group|gruppe|groupe|grupo|gruppo|équipe|equipe|equipo|squadra|команда|группа|组|チーム|班)\b|^(?:组|チーム|班|команда|группа)/u],
  ['first name', /^(?:first|given|fore)[ _-]?names?$|^vornamen?$|^prénoms?$|^prenoms?$|^nombres?$|^имя$|^名$/u],
  ['last name', /^(?:last|family|sur)[ _-]?names?$|^nachnamen?$|^apellidos?$|^cognome$|^фамилия$|^姓$/u],
  ['names', /^(?:full )?names?$|^(?:students?|members?|operators?|people|namen?|noms?|membres?|mitglieder|studierende|miembros|estudiantes?|nomi|студенты?|имена|姓名|氏名)$/u],
];

/**
 * The teams of a class list: typed, pasted from a spreadsheet or out of a file. With a head, its columns say which is the team and which the names; without one the first
 * column is the team. A team may stand in several lines, one for each of its members. Problems: `class-list-empty`, `class-list-long`.
 */
export function readClassList(text: string): Result<ClassList> {
  if (text.length > LONGEST_LIST) return fail(longProblem(`has more than ${LONGEST_LIST / 1e6} million characters`));
  const notes: string[] = [];
  const lines = linesOf(seen(text, notes), notes);
  const [head = [], ...rows] = lines;
  const meanings = headOf(head);
  const read = meanings === undefined ? lines.map(withoutHead) : rows.map((fields) => withHead(fields, meanings));
  if (meanings !== undefined) notes.push(...unusedColumns(head, meanings));
  const first = meanings === undefined ? 1 : 2;
  const gathered = gather(read, first, notes);
  if (gathered.length === 0) return fail({ code: 'class-list-empty', what: 'The class list names no team.', mend: 'Write a team in each line, with its names behind it, such as T1; Ada, Ben.' });
  return gathered.length > MOST_TEAMS ? fail(longProblem(`has ${gathered.length} teams, and ${MOST_TEAMS} is the most`)) : ok({ teams: gathered, notes });
}

function longProblem(what: string) {
  return { code: 'class-list-long', what: `The class list ${what}.`, mend: 'Take a part of it at a time.' };
}

/** What stands between the fields: the sign that parts most lines. */
function linesOf(text: string, notes: string[]): readonly (readonly string[])[] {
  const shown = text.split('\n').filter((line) => line.trim() !== '');
  const counted = SIGNS.map((sign) => ({ sign, lines: shown.filter((line) => line.includes(sign)).length }));
  const best = counted.reduce((one, other) => (other.lines > one.lines ? other : one));
  const { records, isOpen } = readDelimited(text, best.sign);
  if (isOpen) notes.push('A quotation mark is opened and never closed: it is taken as a sign like any other.');
  return records.map(({ fields }) => fields.map(plainName)).filter((fields) => fields.some((field) => field !== ''));
}

/** Joiners belong to the writing of some languages; other signs without a shape of their own only keep two equal names apart. */
const UNSEEN = /(?![\u200c\u200d])\p{Default_Ignorable_Code_Point}/gu;

/** The list without signs that nobody sees, which is said; a mark of the byte order at its beginning is none of the list. */
function seen(text: string, notes: string[]): string {
  const plain = cleanText(text).replace(UNSEEN, '');
  const signs = (one: string): number => one.replace(/^\ufeff/, '').replace(/[ \t\r\n]/g, '').length;
  if (signs(plain) !== signs(text)) notes.push('Signs that nobody sees were left out of the list.');
  return plain;
}

function plainName(field: string): string {
  return field.normalize('NFC').replace(/\s+/gu, ' ').trim();
}

/** What the columns mean; undefined where the first line is no head: “Team A” and “Group 1” are teams. */
function headOf(fields: readonly string[]): readonly (Meaning | undefined)[] | undefined {
  const meanings = fields.map((field) => HEADS.find(([, words]) => words.test(field.toLowerCase()))?.[0]);
  const isHead = fields.some((field, i) => meanings[i] !== undefined && (meanings[i] !== 'team' || /^\p{L}+$/u.test(field)));
  return isHead ? meanings : undefined;
}

function withoutHead([team = '', ...names]: readonly string[]): ListedTeam {
  return { team, names: names.filter((name) => name !== '').join(', ') };
}

/** Without a column of teams every name is a team of its own. */
function withHead(fields: readonly string[], meanings: readonly (Meaning | undefined)[]): ListedTeam {
  const of = (meaning: Meaning): readonly string[] => fields.filter((field, i) => meanings[i] === meaning && field !== '');
  const whole = [...of('first name'), ...of('last name')].join(' ');
  const names = [whole, ...of('names')].filter((name) => name !== '').join(', ');
  return meanings.includes('team') ? { team: of('team').join(' '), names } : { team: names, names: '' };
}

function unusedColumns(head: readonly string[], meanings: readonly (Meaning | undefined)[]): readonly string[] {
  const unused = head.filter((field, i) => meanings[i] === undefined && field !== '');
  const taken = meanings.includes('team') ? [] : ['No column is one of teams: every name is a team of its own.'];
  return unused.length === 0 ? taken : [...taken, composed`Not used: ${unused.length === 1 ? 'the column' : 'the columns'} ${unused.join(', ')}.`];
}

/** Lines of one team put together, and everything that looks like a slip said. */
function gather(read: readonly ListedTeam[], first: number, notes: string[]): readonly ListedTeam[] {
  const teams = new Map<string, { readonly team: string; readonly names: string[]; lines: number }>();
  for (const [i, { team: typed, names }] of read.entries()) {
    const line = i + first;
    if (typed === '') {
      notes.push(composed`Line ${line} names no team and is left out: ${names}.`);
      continue;
    }
    const team = shortened(typed, line, notes);
    const key = sameAs(team);
    const known = teams.get(key) ?? { team, names: [], lines: 0 };
    teams.set(key, known);
    known.lines += 1;
    if (known.team !== team) notes.push(composed`“${known.team}” and “${team}” are taken for one team.`);
    for (const name of names.split(/\s*,\s*/u).filter((one) => one !== '')) {
      const short = shortened(name, line, notes);
      if (known.names.some((one) => sameAs(one) === sameAs(short))) notes.push(composed`${short} stands twice in the team “${known.team}”, and is named once.`);
      else known.names.push(short);
    }
  }
  const several = [...teams.values()].filter(({ lines }) => lines > 1);
  if (several.length > 0) notes.push(composed`In several lines, whose names are put together: ${several.map(({ team, lines }) => `${team} (${lines})`).join(', ')}.`);
  return [...teams.values()].map(({ team, names }) => ({ team, names: names.join(', ') }));
}

function shortened(name: string, line: number, notes: string[]): string {
  const signs = [...name];
  if (signs.length <= LONGEST_NAME) return name;
  notes.push(`A name in line ${line} has ${signs.length} letters: the first ${LONGEST_NAME} are taken.`);
  return signs.slice(0, LONGEST_NAME).join('');
}

function sameAs(name: string): string {
  return name.replace(/[\u200c\u200d]/gu, '').toLowerCase();
}
