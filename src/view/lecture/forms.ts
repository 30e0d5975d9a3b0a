import { isHidden, isToBeWorked, presentStep, type PresentContext } from '../../report/index.ts';
import type { Cell, CheckCell, FitCell, StepCell } from '../../sheet/index.ts';

/** What is brought to light at a station, one after the other; last, where the sheet has a class predict, who says which way, and how it goes. */
export const REVEALS = ['words', 'symbols', 'numbers', 'result', 'up', 'down', 'stays', 'outcome'] as const;
export type Reveal = (typeof REVEALS)[number];
export const PREDICTING: readonly Reveal[] = ['up', 'down', 'stays', 'outcome'];

/** All that the lecture asks of one kind of cell. */
interface Form<C extends Cell> {
  /** A drawing stands beside it. */
  readonly hasRoomBeside?: true;
  /** Those that follow each other stand on the wall together. */
  readonly joinsOthers?: true;
  /** What it is called where it has no label. */
  heading?(cell: C): string;
  /** Nobody has written it yet: it is passed over. */
  isUnwritten?(cell: C): boolean;
  /** What there is to bring to light; absent where all of it is there at once. */
  reveals?(cell: C, context: PresentContext): readonly Reveal[];
}

const FORMS: { readonly [K in Cell['kind']]: Form<Extract<Cell, { kind: K }>> } = {
  given: { hasRoomBeside: true, joinsOthers: true },
  choice: { hasRoomBeside: true },
  step: { hasRoomBeside: true, reveals: linesOfStep },
  check: { hasRoomBeside: true, reveals: resultAfterLabel },
  table: {},
  fit: { reveals: resultAfterLabel },
  figure: {},
  checklist: {},
  photo: {},
  question: { hasRoomBeside: true },
  remark: { heading: ({ heading }) => heading, isUnwritten: ({ text }) => text.trim() === '' },
  record: {},
  aside: {},
  end: { isUnwritten: () => true },
  unknown: {},
};

export function formOf(cell: Cell): Form<Cell> {
  return FORMS[cell.kind];
}

/** The question, the equation, the numbers put in, the result; without what the line does not have. The class's own working has the place of the numbers: its blank. */
function linesOfStep(cell: StepCell, context: PresentContext): readonly Reveal[] {
  const { symbolsTex, numbersTex, formulaText } = presentStep(cell, context);
  const has = { words: true, symbols: symbolsTex !== '' || formulaText !== undefined, numbers: isToBeWorked(cell, context) || (numbersTex !== undefined && !isHidden(cell.id, context)), result: true };
  return (['words', 'symbols', 'numbers', 'result'] as const).filter((reveal) => has[reveal]);
}

function resultAfterLabel({ label = '' }: CheckCell | FitCell): readonly Reveal[] {
  return label === '' ? ['words'] : ['words', 'result'];
}
