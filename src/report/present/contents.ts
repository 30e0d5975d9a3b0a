import { remembered } from '../../core/remembered/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { Block, ProseBlock } from '../../sheet/types.ts';
import { headingsOf } from '../prose.ts';
import { asked } from './asked.ts';
import { isAsked, isHidden } from './hidden.ts';
import { isUnanswered } from './question.ts';
import { numberSheet } from './numbering.ts';
import type { PresentContext, WholeContext } from './types.ts';

/** A section of the sheet as its table of contents has it, with what is open in it and in no section below it. */
export interface PresentedSection {
  readonly blockId: string;
  /** Which of the block's headings it is. */
  readonly index: number;
  /** `2.1`; '' for a heading without. */
  readonly number: string;
  readonly words: string;
  readonly level: number;
  /** Blanks without a value that can be read, and results to be worked out. */
  readonly blanks: number;
  /** Checks that do not hold. */
  readonly checks: number;
  /** Items of checklists. */
  readonly ticks: number;
}

const headingsAt = remembered((block: ProseBlock) => headingsOf(block.source));

/** The sections of the sheet; deeper ones than `###` are no places to go to. */
export function presentContents(context: PresentContext): readonly PresentedSection[] {
  return asked(context, sectionsIn, undefined, isSameContents);
}

const DEEPEST = 3;

type Open = Pick<PresentedSection, 'blanks' | 'checks' | 'ticks'>;

const NOTHING: Open = { blanks: 0, checks: 0, ticks: 0 };

function sectionsIn(whole: WholeContext): readonly PresentedSection[] {
  const { sections: numbers } = numberSheet(whole.document);
  const sections: PresentedSection[] = [];
  for (const block of whole.document.blocks) {
    if (block.kind === 'prose') {
      headingsAt(block).forEach(({ level, words }, index) => {
        if (level <= DEEPEST) sections.push({ blockId: block.id, index, number: numbers.get(block.id)?.[index] ?? '', words, level, ...NOTHING });
      });
      continue;
    }
    const last = sections.at(-1);
    const open = openIn(block, whole);
    if (last === undefined || open === undefined) continue;
    sections[sections.length - 1] = { ...last, blanks: last.blanks + open.blanks, checks: last.checks + open.checks, ticks: last.ticks + open.ticks };
  }
  return sections;
}

function openIn(block: Block, whole: WholeContext): Open | undefined {
  const [given, step, check, list, question] = [cellIn(block, 'given'), cellIn(block, 'step'), cellIn(block, 'check'), cellIn(block, 'checklist'), cellIn(block, 'question')];
  if (given !== undefined && given.optional !== true && whole.states.symbol(given.symbol)?.status !== 'value') return { ...NOTHING, blanks: 1 };
  if (step !== undefined && isAsked(step, whole) && isHidden(step.id, whole)) return { ...NOTHING, blanks: 1 };
  if (question !== undefined && isUnanswered(question, whole)) return { ...NOTHING, blanks: 1 };
  if (check !== undefined && !isHidden(check.id, whole) && whole.states.cell(check.id)?.check?.holds === false) return { ...NOTHING, checks: 1 };
  return list === undefined ? undefined : { ...NOTHING, ticks: list.items.filter(({ done }) => done === undefined).length };
}

function isSameContents(a: readonly PresentedSection[], b: readonly PresentedSection[]): boolean {
  return a.length === b.length && a.every((one, i) => {
    const other = b[i];
    return other !== undefined && one.blockId === other.blockId && one.words === other.words && one.number === other.number && one.level === other.level
      && one.blanks === other.blanks && one.checks === other.checks && one.ticks === other.ticks;
  });
}

/** `2 blanks, 1 check, 8 ticks`; '' where nothing is open. */
export function openWords({ blanks, checks, ticks }: Open): string {
  return [counted(blanks, 'blank'), counted(checks, 'check'), counted(ticks, 'tick')].filter((words) => words !== '').join(', ');
}

function counted(count: number, word: string): string {
  return count === 0 ? '' : `${count} ${word}${count === 1 ? '' : 's'}`;
}
