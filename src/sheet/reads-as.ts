import { groupOf } from './tree.ts';
import type { Tree } from './tree.ts';
import { readBody } from './yaml-body.ts';
import type { BodyReading } from './yaml-body.ts';

/** What a body holds, without places: to be compared before and after an edit. */
export type Plain = string | Plain[] | Map<string, Plain>;

export function plainGroup(body: string, reading: BodyReading): Map<string, Plain> {
  return plain(groupOf(body, reading.entries, [])) as Map<string, Plain>;
}

function plain(tree: Tree): Plain {
  if (tree.kind === 'text') return tree.text;
  if (tree.kind === 'list') return tree.items.map(plain);
  return new Map([...tree.entries].map(([key, inner]) => [key, plain(inner)]));
}

/**
 * Whether a body reads as expected, and the changed key without a slip: the safety net under every cut. An entry without
 * a value counts as absent.
 */
export function readsAs(body: string, expected: Map<string, Plain>, key: string): boolean {
  const reading = readBody(body);
  if (reading.problems.some((problem) => problem.key === key)) return false;
  return signature(plainGroup(body, reading)) === signature(expected);
}

function signature(value: Plain): string {
  if (typeof value === 'string') return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(signature).join()}]`;
  const filled = [...value].filter(([, inner]) => inner !== '');
  const entries = filled.map(([key, inner]) => `${JSON.stringify(key)}:${signature(inner)}`);
  return `{${entries.toSorted().join()}}`;
}
