import type { Findings } from '../../graph/index.ts';
import type { FitCell } from '../../sheet/types.ts';
import { comparisonWords } from './findings/comparison.ts';
import { limitsWords } from './findings/limits.ts';
import { livesWords } from './findings/lives.ts';
import { planWords } from './findings/plan.ts';
import { staircaseWords } from './findings/staircase.ts';
import { weightsWords } from './findings/weights.ts';
import type { FindingsWords } from './findings/words.ts';
import { isHidden, withheldWords } from './hidden.ts';
import { notesOf } from './notes.ts';
import type { PresentContext, PresentedFindings } from './types.ts';

const NOTHING: FindingsWords = { settings: [], sentences: [], tables: [], facts: [] };

/** What a fit says that finds no line: settings, sentences, small tables and facts, by the words of its form. */
export function presentFindings(cell: FitCell, context: PresentContext): PresentedFindings {
  const notes = notesOf(cell, context);
  if (isHidden(cell.id, context)) return { ...notes, ...NOTHING, sentences: [sentence(withheldWords(cell.id, context))] };
  const state = context.states.cell(cell.id);
  const waiting = state?.waiting;
  if (waiting !== undefined) return { ...notes, ...NOTHING, sentences: [`${waiting.what} ${waiting.mend}`.trim()] };
  return { ...notes, ...(state?.findings === undefined ? NOTHING : wordsOf(state.findings, cell, context)) };
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

function wordsOf(findings: Findings, cell: FitCell, context: PresentContext): FindingsWords {
  switch (findings.form) {
    case 'limits':
      return limitsWords(findings, cell, context.system);
    case 'lives':
      return livesWords(findings, cell, context.system);
    case 'comparison':
      return comparisonWords(findings, context.system);
    case 'staircase':
      return staircaseWords(findings, cell, context.states.cell(cell.table)?.table);
    case 'plan':
      return planWords(findings, cell, context.system);
    case 'weights':
      return weightsWords(findings, context.states.cell(cell.table)?.table);
  }
}
