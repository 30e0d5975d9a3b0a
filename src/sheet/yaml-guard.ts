import type { CST } from 'yaml';
import type { BodyProblem } from './body-problem.ts';
import { rowFinder } from './text-lines.ts';
import { foreignSignProblem } from './writing-problems.ts';

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

/** What one look at the token tree tells, before anything is built from it. */
interface TokenSurvey {
  /** Depth of lists and groups inside each other, the outermost counted as 1. */
  readonly depth: number;
  readonly count: number;
  /** Aliases, anchors and tags in order of the text. */
  readonly foreign: readonly ForeignSign[];
}

interface ForeignSign {
  readonly kind: 'alias' | 'anchor' | 'tag';
  readonly source: string;
  readonly offset: number;
  /** The outermost key that it stands under. */
  readonly key: string | undefined;
}

interface Visit {
  readonly token: CST.Token;
  readonly depth: number;
  readonly key: string | undefined;
}

/** Walks the token tree with a stack of our own: a text may nest as deep as it is long. */
export function survey(tokens: readonly CST.Token[]): TokenSurvey {
  let depth = 0;
  let count = 0;
  const foreign: ForeignSign[] = [];
  const stack: Visit[] = tokens.map((token) => ({ token, depth: 0, key: undefined }));
  const beside = (marks: readonly CST.SourceToken[] | undefined, key: string | undefined): void => {
    count += marks?.length ?? 0;
    for (const { type, source, offset } of marks ?? []) {
      if (type === 'anchor' || type === 'tag') foreign.push({ kind: type, source, offset, key });
    }
  };
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    const { token } = top;
    count++;
    if (token.type === 'alias') foreign.push({ kind: 'alias', source: token.source, offset: token.offset, key: top.key });
    if ('end' in token && Array.isArray(token.end)) count += token.end.length;
    if (token.type === 'document') {
      beside(token.start, top.key);
      if (token.value !== undefined) stack.push({ ...top, token: token.value });
    }
    if (!('items' in token)) continue;
    depth = Math.max(depth, top.depth + 1);
    for (const item of token.items) {
      const key = top.key ?? (item.key && 'source' in item.key ? item.key.source : undefined);
      beside(item.start, key);
      beside(item.sep, key);
      if (item.key) stack.push({ token: item.key, depth: top.depth + 1, key });
      if (item.value) stack.push({ token: item.value, depth: top.depth + 1, key });
    }
  }
  return { depth, count, foreign: foreign.toSorted((a, b) => a.offset - b.offset) };
}

/** A line that begins or ends a YAML document, or a directive. */
export function isMarker(token: CST.Token): boolean {
  if (token.type === 'directive' || token.type === 'doc-end') return true;
  return token.type === 'document' && token.start.some(({ type }) => type === 'doc-start');
}

/** Aliases, anchors and tags are refused: an alias can blow a small text up to any size, and a sheet needs none. */
export function foreignProblems(text: string, { foreign }: TokenSurvey): readonly BodyProblem[] {
  const rowOf = rowFinder(text);
  return foreign
    .slice(0, MOST_PROBLEMS)
    .map(({ kind, source, offset, key }) => foreignSignProblem(kind, source, rowOf(offset), key));
}
