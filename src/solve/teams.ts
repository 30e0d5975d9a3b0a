import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { problemSentence } from '../core/problem/index.ts';
import { drawClass, planVariants } from '../graph/index.ts';
import { classOf, classTable, type DrawnClass } from '../report/index.ts';
import { forTeam, readClassList, serialiseSheet, variantText, type ListedTeam, type SheetDocument } from '../sheet/index.ts';
import { contentOf, openSheet } from './open-sheet.ts';
import { UsageError, type Options } from './options.ts';

/** What is left of a class: the key to it, what is to be said of the list and the sheet, and whether every team has numbers. */
interface WrittenClass {
  readonly key: string;
  readonly notes: readonly string[];
  readonly isComplete: boolean;
}

/**
 * Writes a document for each team into a folder, called by its variant. A file that is there already is not written over.
 * @throws UsageError where list, sheet or folder do not allow it
 */
export function writeTeams(options: Options, list: string, folder: string): WrittenClass {
  const document = openSheet(options);
  const seed = (options.classSeed ?? document.frontMatter.entries.get('class_seed') ?? '').trim();
  if (seed === '') throw new UsageError('The numbers come from a seed: name one with --class-seed, or as class_seed at the head of the sheet.');
  const read = readClassList(contentOf(list));
  if (!read.ok) throw new UsageError(problemSentence(read.problem));
  const drawn = drawnFor(document, seed, read.value.teams);
  for (const { listed, draw } of drawn.teams) {
    if (draw.variant === undefined) continue;
    const variant = variantText(draw.seed, draw.variant.entries);
    const made = forTeam(drawn.plan.document, { ...listed, variant, entries: draw.variant.entries });
    if (!made.ok) throw new Error(`the numbers of ${variant} do not go into the sheet: ${made.problem.what}`);
    write(folder, `${variant}.md`, serialiseSheet(made.value));
  }
  return { key: classTable(drawn), notes: [...read.value.notes, ...drawn.plan.notes], isComplete: drawn.teams.every(({ draw }) => draw.variant !== undefined) };
}

function drawnFor(document: SheetDocument, seed: string, teams: readonly ListedTeam[]): DrawnClass {
  const plan = planVariants(document);
  if (!plan.ok) throw new UsageError(problemSentence(plan.problem));
  const draws = [...drawClass(plan.value, seed, teams.map(({ team }) => team))];
  return classOf(document, plan.value, teams.flatMap((listed, i) => (draws[i] === undefined ? [] : [{ listed, draw: draws[i] }])));
}

function write(folder: string, name: string, text: string): void {
  try {
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, name), text, { flag: 'wx' });
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    throw new UsageError(code === 'EEXIST' ? `There is a ${name} in ${folder} already, and it is not written over.` : `It cannot be written: ${join(folder, name)}`);
  }
}
