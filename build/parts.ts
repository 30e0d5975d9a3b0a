import { parseAst } from 'vite';
import { nameOf, walk, type Node } from './syntax-tree.ts';

/** A chunk of the bundle as the page carries it: a classic script that registers one function by name. */
export interface Part {
  readonly name: string;
  readonly text: string;
  /** Parts that have to be there before it. */
  readonly needs: readonly string[];
}

/**
 * Chunks import one another by address, which scripts inside a page do not have. Each becomes a call
 *
 *     "use strict"; spanlife("charts", ["main"], (function ({ a, b: c }) { …; return { d }; }));
 *
 * that `src/app/first-script.ts` answers: what it imports comes as arguments, what it exports is given back, and `import("./charts.js")` is
 * `spanlife.load("charts")`. Import and export stand at the top of a chunk alone, and their names are read from its syntax tree.
 */
export function partOf(fileName: string, code: string): Part {
  const { body } = parseAst(code) as unknown as { readonly body: readonly Node[] };
  const [imports, others] = [body.filter(({ type }) => type === 'ImportDeclaration'), body.filter(({ type }) => type !== 'ImportDeclaration')];
  const exported: string[] = [];
  const cuts: { readonly start: number; readonly end: number; readonly by: string }[] = imports.map(({ start, end }) => ({ start, end, by: '' }));
  for (const node of others) {
    if (!node.type.startsWith('Export')) continue;
    if (node.type !== 'ExportNamedDeclaration' || node['source'] !== null || node['declaration'] !== null) throw new Error(`${fileName}: ${node.type} is not read here: ${code.slice(node.start, node.start + 80)}`);
    exported.push(...(node['specifiers'] as readonly Node[]).map((each) => `${quoted(each['exported'])}:${nameOf(each['local'])}`));
    cuts.push({ ...node, by: '' });
  }
  walk(others, (node) => {
    if (node.type === 'MetaProperty' && nameOf(node['meta']) === 'import') throw new Error(`${fileName}: a part has no address, but asks for import.meta`);
    if (node.type === 'ImportExpression') cuts.push({ start: node.start, end: node.end, by: `spanlife.load(${JSON.stringify(partNamed(node['source']))})` });
  });
  const needs = [...new Set(imports.map((node) => partNamed(node['source'])))];
  const given = needs.map((name) => `{${imports.filter((node) => partNamed(node['source']) === name).flatMap((node) => namesTaken(fileName, node)).join(',')}}`);
  const inside = replaced(code, cuts).trim();
  const text = `"use strict";spanlife(${JSON.stringify(partNamed(fileName))},${JSON.stringify(needs)},(function(${given.join(',')}){${inside}\nreturn{${exported.join(',')}}}));\n`;
  // A browser reads it as a classic script, in which nothing may be waited for at the top.
  parseAst(text);
  return { name: partNamed(fileName), text, needs };
}

/** Names that an import brings, as a pattern takes them. */
function namesTaken(fileName: string, { specifiers, start }: Node): readonly string[] {
  return (specifiers as readonly Node[]).map((each) => {
    if (each.type !== 'ImportSpecifier') throw new Error(`${fileName}: ${each.type} at ${start} is not read here`);
    return `${quoted(each['imported'])}:${nameOf(each['local'])}`;
  });
}

/** Name of the part that a chunk's file becomes. */
function partNamed(file: unknown): string {
  const name = /([\w-]+)\.js$/.exec(typeof file === 'string' ? file : addressIn(file as Node))?.[1];
  if (name === undefined) throw new Error(`${JSON.stringify(file)} is no chunk of this bundle`);
  return name;
}

/** A text as it stands in code; the minifier writes it in the signs of a template as well. */
function addressIn({ value, quasis }: Node): string {
  const [only] = (quasis ?? []) as readonly { readonly value: { readonly cooked: string } }[];
  return String(value ?? only?.value.cooked);
}

const quoted = (node: unknown): string => (/^[\w$]+$/.test(nameOf(node)) ? nameOf(node) : JSON.stringify(nameOf(node)));

function replaced(code: string, cuts: readonly { readonly start: number; readonly end: number; readonly by: string }[]): string {
  const pieces: string[] = [];
  let from = 0;
  for (const { start, end, by } of cuts.toSorted((a, b) => a.start - b.start)) {
    pieces.push(code.slice(from, start), by);
    from = end;
  }
  return pieces.join('') + code.slice(from);
}

/** Needs first; parts that need one another in a circle would wait for ever. */
export function inOrder(parts: readonly Part[]): readonly Part[] {
  const done = new Map<string, Part>();
  const put = (part: Part, above: readonly string[]): void => {
    if (above.includes(part.name)) throw new Error(`parts need one another in a circle: ${[...above, part.name].join(' -> ')}`);
    for (const name of part.needs) {
      const needed = parts.find((each) => each.name === name);
      if (needed === undefined) throw new Error(`${part.name} needs ${name}, which is no part`);
      put(needed, [...above, part.name]);
    }
    done.set(part.name, part);
  };
  for (const part of parts) put(part, []);
  return [...done.values()];
}

/** A part with all that it needs as one script, which registers them all: they are wanted together in any case. @param parts needs first */
export function inOneScript(parts: readonly Part[], name: string): readonly Part[] {
  const together = new Set([name]);
  for (const part of parts.toReversed()) if (together.has(part.name)) for (const needed of part.needs) together.add(needed);
  const joined = parts.filter((part) => together.has(part.name));
  return [...parts.filter((part) => !together.has(part.name)), { name, needs: [], text: joined.map(({ text }) => text).join('') }];
}
