import { fail, ok, type Result } from '../core/problem/index.ts';

/**
 * A decoded file's text if it can be a document: text through and through, so that it can be given back byte for byte.
 * Problem: `not-text`.
 */
export function acceptText(text: string): Result<string> {
  // A decoder writes U+FFFD where bytes are not UTF-8: then the bytes could not be given back.
  if (!text.includes('\u0000') && !text.includes('\uFFFD')) return ok(text);
  return fail({
    code: 'not-text',
    what: 'This file is not text, or not text in UTF-8.',
    mend: 'Choose a document, a report or a working file that came from a sheet.',
  });
}
