import { isAlias, isScalar, visit } from 'yaml';
import type { CST, Document, ParsedNode } from 'yaml';
import type { BodyProblem } from './body-problem.ts';
import { rowFinder } from './lines.ts';
import { foreignSignProblem } from './yaml-problems.ts';

/** Lists and groups inside each other, the outermost counted as 1; the format itself needs 4. */
export const DEEPEST = 32;
export const MOST_PROBLEMS = 20;
/** Signs and words that one body may hold: each could be a slip of its own, and slips are slow to collect. */
export const MOST_TOKENS = 20_000;
/** Entries of a broken body that are read one by one. */
export const MOST_PIECES = 2_000;

/** Cheap look before a text is parsed at all: far more brackets opened than closed, or list signs in a long row. */
export function looksTooDeep(text: string): boolean {
  if (/(?:[-?:][ \t]+){100}/.test(text)) return true;
  let depth = 0;
  for (const sign of text) {
    if (sign === '[' || sign === '{') depth++;
    else if ((sign === ']' || sign === '}') && depth > 0) depth--;
    if (depth > 200) return true;
  }
  return false;
}

export interface TokenMeasure {
  readonly depth: number;
  readonly count: number;
}

/** Depth and size of the token tree, walked with a stack of our own: a text may nest as deep as it is long. */
export function measure(tokens: readonly CST.Token[]): TokenMeasure {
  let deepest = 0;
  let count = 0;
  const stack: { token: CST.Token; depth: number }[] = tokens.map((token) => ({ token, depth: 0 }));
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    const { token, depth } = top;
    count += 1 + ('end' in token && Array.isArray(token.end) ? token.end.length : 0);
    if (token.type === 'document') {
      count += token.start.length;
      if (token.value !== undefined) stack.push({ token: token.value, depth });
    }
    if (!('items' in token)) continue;
    deepest = Math.max(deepest, depth + 1);
    for (const item of token.items) {
      count += item.start.length + (item.sep?.length ?? 0);
      if (item.key) stack.push({ token: item.key, depth: depth + 1 });
      if (item.value) stack.push({ token: item.value, depth: depth + 1 });
    }
  }
  return { depth: deepest, count };
}

/** A line that begins or ends a YAML document, or a directive. */
export function isMarker(token: CST.Token): boolean {
  if (token.type === 'directive' || token.type === 'doc-end') return true;
  return token.type === 'document' && token.start.some(({ type }) => type === 'doc-start');
}

/** Aliases, anchors and tags are refused: an alias can blow a small text up to any size, and a sheet needs none of them. */
export function foreignSigns(document: Document.Parsed, text: string): readonly BodyProblem[] {
  const problems: BodyProblem[] = [];
  const rowOf = rowFinder(text);
  const check = (node: ParsedNode, key: string | undefined): void => {
    if (problems.length >= MOST_PROBLEMS) return;
    const row = rowOf(node.range[0]);
    const tag = isAlias(node) ? undefined : writtenTag(text, node.range[0]);
    if (isAlias(node)) problems.push(foreignSignProblem('alias', `*${node.source}`, row, key));
    else if (node.anchor !== undefined) problems.push(foreignSignProblem('anchor', `&${node.anchor}`, row, key));
    else if (tag !== undefined) problems.push(foreignSignProblem('tag', tag, row, key));
  };
  if (document.contents !== null) check(document.contents, undefined);
  visit(document, {
    Pair: (_key, pair) => {
      const key = isScalar(pair.key) ? String(pair.key.value) : undefined;
      if (pair.key !== null) check(pair.key as ParsedNode, undefined);
      if (pair.value !== null) check(pair.value as ParsedNode, key);
    },
    Seq: (_key, list) => list.items.forEach((item) => check(item as ParsedNode, undefined)),
  });
  return problems;
}

/** The tag written just before a node; the schema gives every node a tag of its own, so that it can't be asked. */
function writtenTag(text: string, offset: number): string | undefined {
  return /(?:^|[\s:,[{-])(!\S*)\s*$/.exec(text.slice(Math.max(0, offset - 100), offset))?.[1];
}
