import { composed, fail, nearNames, ok, type Problem, type Result } from '../core/problem/index.ts';
import type { BodyProblem } from './body-problem.ts';
import { placeProblem } from './body-problem.ts';
import { applyEdit, type EditCommand } from './edit.ts';
import { entering } from './enter-text.ts';
import { HEAD_FROM_EXAMPLE } from './origin.ts';
import { groupOf, type Tree } from './tree.ts';
import type { SheetDocument } from './types.ts';
import { readBody } from './yaml-body.ts';

/*
 * The entries of an example, apart from the sheet that they are laid over, so that one sheet is both the blank one and the example. YAML with
 * these groups, each of which may be left out:
 *
 *   about: text that is put in front, as a remark
 *   title_block: entries of the form at the head
 *   values: what stands in givens by symbol, readings in square brackets
 *   choices: the option taken, by the choice's id
 *   remarks: what is written in remarks, by id
 *   tables: rows of tables, by id
 *   records: keys of test records, by id
 */

const GROUPS = ['about', 'title_block', 'values', 'choices', 'remarks', 'tables', 'records'] as const;
type GroupName = (typeof GROUPS)[number];

/**
 * The document with the entries of an example in its blanks, choices, remarks and tables, each marked as the example's.
 * Problems: those of the text, a group or a cell that is not there, what the sheet can't take.
 */
export function withExample(document: SheetDocument, text: string): Result<SheetDocument> {
  const read = readExample(text);
  if (!read.ok) return read;
  const commands: EditCommand[] = [];
  for (const [name, tree] of read.value) {
    if (name === 'about') {
      if (tree.kind !== 'text') return fail(wrongShape(name));
      commands.push({ do: 'insert', after: undefined, source: aboutSource(tree.text) });
      continue;
    }
    if (tree.kind !== 'group') return fail(wrongShape(name));
    for (const [target, entry] of tree.entries) {
      const command = COMMANDS[name](document, target, entry);
      if (!command.ok) return command;
      commands.push(command.value);
    }
    if (name === 'title_block') commands.push({ do: 'set front matter', key: HEAD_FROM_EXAMPLE, value: [...tree.entries.keys()].join(', ') });
  }
  return applyEdit(document, { do: 'together', commands });
}

/** The groups of an example's text in their order. */
function readExample(text: string): Result<readonly (readonly [GroupName, Tree])[]> {
  const { entries, problems } = readBody(text);
  const told: BodyProblem[] = [...problems];
  const groups = [...groupOf(text, entries, told).entries];
  const [first] = told;
  if (first !== undefined) return fail(placeProblem(first, 1));
  const unknown = groups.find(([name]) => !isGroup(name));
  if (unknown !== undefined) return fail(unknownGroup(unknown[0], unknown[1].row + 1));
  return ok(groups.flatMap(([name, tree]) => (isGroup(name) ? [[name, tree] as const] : [])));
}

function isGroup(name: string): name is GroupName {
  return GROUPS.some((one) => one === name);
}

type Commander = (document: SheetDocument, target: string, entry: Tree) => Result<EditCommand>;

const COMMANDS: Readonly<Record<Exclude<GroupName, 'about'>, Commander>> = {
  title_block: (_document, key, entry) => (entry.kind === 'text' ? ok({ do: 'set front matter', key, value: entry.text }) : fail(wrongShape(key))),
  values: filled,
  choices: filled,
  remarks: (document, id, entry) => inCell(document, id, 'remark', entry.kind === 'text' ? new Map([['text', entry.text]]) : undefined),
  tables: (document, id, entry) => inCell(document, id, 'table', entry.kind === 'text' ? new Map([['rows', entry.text]]) : undefined),
  records: (document, id, entry) => inCell(document, id, 'record', entry.kind === 'group' ? textsOf(entry) : undefined),
};

function filled(document: SheetDocument, target: string, entry: Tree): Result<EditCommand> {
  if (entry.kind !== 'text') return fail(wrongShape(target));
  const command = entering(document, target, entry.text);
  if (!command.ok) return command;
  const { value } = command;
  if (value.do === 'set keys') return ok({ ...value, values: marked(value.values) });
  return value.do === 'set key' ? ok({ do: 'set keys', cellId: value.cellId, values: marked(new Map([[value.key, value.value]])) }) : command;
}

function inCell(document: SheetDocument, id: string, kind: 'remark' | 'table' | 'record', values: ReadonlyMap<string, string> | undefined): Result<EditCommand> {
  if (values === undefined) return fail(wrongShape(id));
  const known = document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === kind ? [block.id] : []));
  return known.includes(id) ? ok({ do: 'set keys', cellId: id, values: marked(values) }) : fail(unknownCell(id, kind, known));
}

function marked(values: ReadonlyMap<string, string | undefined>): ReadonlyMap<string, string | undefined> {
  return new Map([...values, ['origin', 'example']]);
}

function textsOf({ entries }: Extract<Tree, { kind: 'group' }>): ReadonlyMap<string, string> {
  return new Map([...entries].flatMap(([key, tree]) => (tree.kind === 'text' ? [[key, tree.text] as const] : [])));
}

function aboutSource(text: string): string {
  const lines = text.trimEnd().split('\n').map((line) => (line === '' ? '' : `  ${line}`));
  return `\`\`\`remark\nid: about\nheading: The example\ntext: |\n${lines.join('\n')}\norigin: example\n\`\`\`\n`;
}

function wrongShape(name: string): Problem {
  return { code: 'example-shape', what: composed`“${name}” has not the form that an example takes there.`, mend: 'Write text behind it; groups have their entries below them.' };
}

function unknownGroup(name: string, line: number): Problem {
  const near = nearNames(name, GROUPS);
  return {
    code: 'example-group', what: composed`An example has no group “${name}”.`, line,
    mend: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `There are: ${GROUPS.join(', ')}.`,
  };
}

function unknownCell(id: string, kind: string, known: readonly string[]): Problem {
  const near = nearNames(id, known);
  return {
    code: 'example-cell', what: composed`No ${kind} of this sheet has the id ${id}.`,
    mend: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `There are: ${known.join(', ')}.`,
  };
}
