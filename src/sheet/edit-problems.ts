import type { Problem } from '../core/problem/index.ts';
import { openProblem } from './document-problems.ts';
import { splitBody } from './split.ts';

/* Why a command leaves the document as it was. */

export function goneProblem(id: string): Problem {
  return {
    code: 'block-gone',
    what: `The sheet has no cell or text \`${id}\` any more.`,
    mend: 'Look at the sheet as it stands now.',
  };
}

export function edgeProblem(direction: 'up' | 'down'): Problem {
  return {
    code: 'at-the-edge',
    what: direction === 'up' ? 'Nothing stands above it.' : 'Nothing stands below it.',
    mend: 'It is at the end of the sheet already.',
  };
}

export function keyEmptyProblem(): Problem {
  return { code: 'key-empty', what: 'The key has no name.', mend: 'Give it a name, such as note.' };
}

export function optionGoneProblem(option: string): Problem {
  return {
    code: 'option-gone',
    what: `There is no option \`${option}\` to choose here.`,
    mend: 'Choose one of those that are listed.',
    key: 'chosen',
  };
}

export function tooLongProblem(what: 'document' | 'head of the document' | 'cell', longest: number): Problem {
  return {
    code: 'too-long',
    what: `This would make the ${what} longer than ${longest} characters.`,
    mend: 'Put in less text.',
  };
}

/** A fence left open in a text that is put in, which would swallow the blocks that follow; the line is that of the text. */
export function openFence(source: string): Problem | undefined {
  const [open] = splitBody(source).open;
  return open === undefined ? undefined : openProblem(open);
}
