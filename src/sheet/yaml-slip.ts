import type { YAMLError } from 'yaml';
import type { BodyProblem } from './body-problem.ts';
import { lineStart, lineStop, rowAt } from './text-lines.ts';
import {
  bracketOpenProblem,
  escapeProblem,
  foreignSignProblem,
  noKeyValueProblem,
  quoteOpenProblem,
  quotesNeededProblem,
  writingProblem,
} from './writing-problems.ts';
import type { Unquoted } from './writing-problems.ts';

/**
 * What the YAML reader stumbled over first in one entry, in the sheet's own words. The reader's code says where it
 * stopped, not what the writer meant; the sign that begins the value tells more, so that both are looked at.
 * @param text the entry; @param key its key in the cell.
 */
export function slipProblem(errors: readonly YAMLError[], text: string, key: string | undefined): BodyProblem {
  const [first] = errors;
  const code = first?.code ?? 'IMPOSSIBLE';
  const offset = Math.min(first?.pos[0] ?? 0, text.length);
  const row = rowAt(text, offset);
  const line = text.slice(lineStart(text, offset), lineStop(text, offset));
  if (code === 'TAB_AS_INDENT') return writingProblem('tab', row, key);
  if (code === 'RESOURCE_EXHAUSTION') return writingProblem('too-deep', row);
  if (code === 'BAD_DQ_ESCAPE') return escapeProblem(text.slice(offset, offset + 2), row, key);
  if (code === 'NON_STRING_KEY') return writingProblem('key-not-text', row);
  const place = valuePlace(text, offset);
  const told = colonProblem(errors, text, row, line, key) ?? (place && signProblem(code, place, key));
  return told ?? writingProblem(code === 'BAD_INDENT' ? 'indentation' : 'line-unreadable', row, key);
}

/** Two colons in one line, or none. */
function colonProblem(
  errors: readonly YAMLError[],
  text: string,
  row: number,
  line: string,
  key: string | undefined,
): BodyProblem | undefined {
  const [first] = errors;
  if (first?.code === 'BLOCK_AS_IMPLICIT_KEY') {
    const broken = errors.find(({ code }) => code === 'MULTILINE_IMPLICIT_KEY');
    if (broken !== undefined) return writingProblem('indentation', rowAt(text, broken.pos[1]), key);
    const [, inner, value = ''] = /^\s*(?:-\s+)?([^:]*):\s+(.*)$/.exec(line) ?? [];
    const what = 'there is a second colon with a blank after it.';
    return quotesNeededProblem('second-colon', what, { key: inner, value: value.trim() }, row, key);
  }
  const keyAlone = first?.code === 'MISSING_CHAR' && first.message.startsWith('Implicit map keys need');
  return keyAlone || first?.code === 'MULTILINE_IMPLICIT_KEY' ? noKeyValueProblem(line, row) : undefined;
}

interface ValuePlace extends Unquoted {
  readonly row: number;
}

/** The value that the reader was in: on the nearest line, going up from the slip, that holds a key or a dash. */
function valuePlace(text: string, offset: number): ValuePlace | undefined {
  let at = offset;
  for (;;) {
    const start = lineStart(text, at);
    const line = text.slice(start, lineStop(text, start));
    const [, key, value = ''] = /^\s*(?:-\s+)?([\p{L}_][\p{L}\p{N}_]*\s*:|-)(?:\s+(.*))?$/u.exec(line) ?? [];
    if (key !== undefined) return { key: key.replace(/\s*:$/, ''), value: value.trim(), row: rowAt(text, start) };
    if (start === 0) return undefined;
    at = text.slice(start - 2, start) === '\r\n' ? start - 2 : start - 1;
  }
}

/** Values that begin with a sign of which YAML thinks something else than the writer. */
function signProblem(code: string, place: ValuePlace, key: string | undefined): BodyProblem | undefined {
  const { value, row } = place;
  const sign = value.charAt(0);
  const needsQuotes = (what: string): BodyProblem => quotesNeededProblem('sign-needs-quotes', what, place, row, key);
  if (sign === '*') return foreignSignProblem('alias', sign, row, key);
  if (sign === '&') return foreignSignProblem('anchor', sign, row, key);
  if (sign === '!') return foreignSignProblem('tag', sign, row, key);
  if (sign === '"' || sign === "'") {
    const isClosed = code === 'UNEXPECTED_TOKEN' || value.lastIndexOf(sign) > 0;
    return isClosed ? writingProblem('text-after-quote', row, key) : quoteOpenProblem(sign, row, key);
  }
  if (sign === '[' || sign === '{') {
    if (!value.includes(sign === '[' ? ']' : '}')) return bracketOpenProblem(sign, row, key);
    const what = `a value that begins with ${sign} is read as a list or a group, and this one can't be.`;
    return quotesNeededProblem('text-after-bracket', what, place, row, key);
  }
  if ((sign === '>' || sign === '|') && !/^[>|][-+\d]{0,2}(?:\s+#.*)?$/.test(value)) {
    return needsQuotes(`a value that begins with ${sign} needs quotation marks.`);
  }
  if (code === 'BAD_SCALAR_START' || /^[@`%\]},?]/.test(value)) {
    return needsQuotes(`a value can't begin with ${sign} unless it stands in quotation marks.`);
  }
  return code === 'UNEXPECTED_TOKEN' && /^-\s/.test(value) ? writingProblem('list-on-line', row, key) : undefined;
}
