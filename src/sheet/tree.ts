import { isAlias, isMap, isScalar, isSeq } from 'yaml';
import type { ParsedNode } from 'yaml';
import type { BodyProblem } from './body-problem.ts';
import { rowFinder } from './text-lines.ts';
import { entriesOf } from './yaml-body.ts';
import type { Entry } from './yaml-body.ts';
import { keyTwiceProblem, noKeyValueProblem } from './writing-problems.ts';

/** What a body holds, as plain data: text, lists and groups only, each with its row in the body. */
export type Tree =
  | { readonly kind: 'text'; readonly text: string; readonly row: number }
  | { readonly kind: 'list'; readonly items: readonly Tree[]; readonly row: number }
  | { readonly kind: 'group'; readonly entries: ReadonlyMap<string, Tree>; readonly row: number };

export type Group = Extract<Tree, { kind: 'group' }>;

/**
 * Entries of a body as plain data. A key that stands twice counts once, the first time; a key without a value holds
 * empty text; an alias counts as empty, and a value
 * that can't be read on its one line as what stands there (reading the body has told of both).
 */
export function groupOf(body: string, entries: readonly Entry[], problems: BodyProblem[]): Group {
  const rowOf = rowFinder(body);
  return group(entries, 0);

  function group(inner: readonly Entry[], row: number): Group {
    const found = new Map<string, Tree>();
    for (const { key, keyStart, node, broken } of inner) {
      const keyRow = rowOf(keyStart);
      if (key === '') problems.push(noKeyValueProblem('', keyRow));
      else if (found.has(key)) problems.push(keyTwiceProblem(key, keyRow));
      else if (broken?.text !== undefined) found.set(key, { kind: 'text', text: broken.text, row: keyRow });
      else found.set(key, tree(node, keyRow));
    }
    return { kind: 'group', entries: found, row };
  }

  function tree(node: ParsedNode | undefined, row: number): Tree {
    if (node === undefined || isAlias(node)) return { kind: 'text', text: '', row };
    if (isScalar(node)) return { kind: 'text', text: typeof node.value === 'string' ? node.value : '', row };
    if (isMap(node)) return group(entriesOf(node), row);
    const items = isSeq(node) ? (node.items as ParsedNode[]) : [];
    return { kind: 'list', items: items.map((item) => tree(item, rowOf(item.range[0]))), row };
  }
}
