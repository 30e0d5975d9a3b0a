import type { Problem } from '../core/problem/index.ts';
import type { OpenPlace } from './split.ts';

/* Problems of the text as a whole. */

export function openProblem({ what, line }: OpenPlace): Problem {
  if (what === 'front matter') {
    return {
      code: 'front-matter-open',
      what: `Line ${line}: the front matter that begins here is never closed.`,
      mend: 'Put a line of three hyphens below its last entry.',
      line,
    };
  }
  return {
    code: 'fence-open',
    what: `Line ${line}: the ${what === 'cell' ? 'cell' : 'fenced text'} that begins here is never closed.`,
    mend: 'Below its last line, put a line that holds only the signs with which it begins.',
    line,
  };
}

export function tooLongProblem(longest: number): Problem {
  return {
    code: 'document-too-long',
    what: `This document has more than ${longest / 1e6} million characters, which is too long for a worksheet.`,
    mend: 'Split it into several documents.',
  };
}

export function notTextProblem(): Problem {
  return {
    code: 'document-not-text',
    what: 'This file holds bytes that no text has; it is probably not a worksheet.',
    mend: 'Open a worksheet, a text file whose name ends in .md.',
  };
}

export function tooManyCellsProblem(most: number, line: number): Problem {
  return {
    code: 'too-many-cells',
    what: `Line ${line}: a worksheet holds up to ${most} cells; those from here on are kept as plain text.`,
    mend: 'Split it into several documents.',
    line,
  };
}
