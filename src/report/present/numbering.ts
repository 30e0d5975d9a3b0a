import { remembered } from '../../core/remembered/index.ts';
import { cellIn, shapeOf } from '../../sheet/index.ts';
import type { ProseBlock, SheetDocument } from '../../sheet/types.ts';
import { headingLevels } from '../prose.ts';
import { asked, sameWords } from './asked.ts';
import type { PresentContext, WholeContext } from './types.ts';

/** Numbers as textbooks print them, counted over the whole document. */
interface Numbering {
  /** Equation number of each step by cell id: `7`. */
  readonly equations: ReadonlyMap<string, string>;
  /** Section numbers of a prose block's headings by block id, in their order; '' for a heading without. */
  readonly sections: ReadonlyMap<string, readonly string[]>;
  /** Blocks that stand below some `##` heading, so that a heading in them is one level down. */
  readonly insideSection: ReadonlySet<string>;
}

/** Kept by block, which an edit elsewhere leaves the same object. */
const levelsOf = remembered((block: ProseBlock) => headingLevels(block.source));

/** `##` headings count 1, 2, 3; `###` below them 1.1, 1.2; steps count through as (1), (2), (3). */
export function numberSheet(document: SheetDocument): Numbering {
  return numberShape(shapeOf(document));
}

const numberShape = remembered((document: SheetDocument): Numbering => {
  const equations = new Map<string, string>();
  const sections = new Map<string, readonly string[]>();
  const insideSection = new Set<string>();
  let section = 0;
  let subsection = 0;
  for (const block of document.blocks) {
    if (section > 0) insideSection.add(block.id);
    if (block.kind === 'prose') {
      const numbers = levelsOf(block).map((level) => {
        if (level === 2) {
          section += 1;
          subsection = 0;
          return String(section);
        }
        if (level !== 3 || section === 0) return '';
        subsection += 1;
        return `${section}.${subsection}`;
      });
      sections.set(block.id, numbers);
    } else if (cellIn(block, 'step') !== undefined) {
      equations.set(block.id, String(equations.size + 1));
    }
  }
  return { equations, sections, insideSection };
});

/** `7`; '' for what has no number. */
export function equationNumber(cellId: string, context: PresentContext): string {
  return asked(context, numberIn, cellId);
}

const numberIn = ({ document }: WholeContext, cellId: string) => numberSheet(document).equations.get(cellId) ?? '';

/** Numbers of the headings of a text, in their order. */
export function headingNumbers(blockId: string, context: PresentContext): readonly string[] {
  return asked(context, headingsIn, blockId, sameWords);
}

const headingsIn = ({ document }: WholeContext, blockId: string) => numberSheet(document).sections.get(blockId) ?? [];

/** Whether a block stands below some `##` heading. */
export function isInsideSection(blockId: string, context: PresentContext): boolean {
  return asked(context, insideIn, blockId);
}

const insideIn = ({ document }: WholeContext, blockId: string) => numberSheet(document).insideSection.has(blockId);
