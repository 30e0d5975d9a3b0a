/** The sheets that ship: as they are, neutral, and with the invented example laid over them. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseSheet, serialiseSheet, withExample } from '../src/sheet/index.ts';

const FOLDER = fileURLToPath(new URL('../worksheets/', import.meta.url));

export const SHIPPED: readonly string[] = readdirSync(FOLDER).filter((name) => name.endsWith('.md')).map((name) => name.replace(/\.md$/, ''));

export function neutral(name: string): string {
  return readFileSync(`${FOLDER}${name}.md`, 'utf8');
}

/** The entries of the example; undefined where the sheet has none. */
export function exampleEntries(name: string): string | undefined {
  const file = `${FOLDER}examples/${name}.yaml`;
  return existsSync(file) ? readFileSync(file, 'utf8') : undefined;
}

const made = new Map<string, string>();

/** The sheet with its example; as it is where there is none. */
export function shipped(name: string): string {
  const text = made.get(name) ?? filled(name);
  made.set(name, text);
  return text;
}

function filled(name: string): string {
  const entries = exampleEntries(name);
  if (entries === undefined) return neutral(name);
  const laid = withExample(parseSheet(neutral(name)), entries);
  if (!laid.ok) throw new Error(`${name}: ${laid.problem.what} ${laid.problem.mend}`);
  return serialiseSheet(laid.value);
}

/** The standard sheet in a fifth of its lines, filled: for tests of what any line of a kind does. */
export function shortSheet(): string {
  return readFileSync(fileURLToPath(new URL('fixtures/short.md', import.meta.url)), 'utf8');
}

/** What the headless command is given for the example of a sheet. */
export function solving(name: string): readonly string[] {
  return [`worksheets/${name}.md`, '--with', `worksheets/examples/${name}.yaml`];
}
