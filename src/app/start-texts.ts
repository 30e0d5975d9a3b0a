/** The texts of the sheets that ship: a part of the page of their own, asked for when one of them is to be opened. */
import alternating from '../../worksheets/alternating-bending.md?raw';
import alternatingExample from '../../worksheets/examples/alternating-bending.yaml?raw';
import verificationExample from '../../worksheets/examples/load-verification.yaml?raw';
import leverExample from '../../worksheets/examples/loading-lever.yaml?raw';
import oneStressExample from '../../worksheets/examples/one-stress.yaml?raw';
import rotatingExample from '../../worksheets/examples/rotating-bending.yaml?raw';
import lineExample from '../../worksheets/examples/sn-line.yaml?raw';
import spanErrorsExample from '../../worksheets/examples/span-errors.yaml?raw';
import specimenExample from '../../worksheets/examples/specimen.yaml?raw';
import staircaseExample from '../../worksheets/examples/staircase.yaml?raw';
import lever from '../../worksheets/loading-lever.md?raw';
import writing from '../../worksheets/writing-a-sheet.md?raw';
import verification from '../../worksheets/load-verification.md?raw';
import materials from '../../worksheets/materials.md?raw';
import oneStress from '../../worksheets/one-stress.md?raw';
import rotating from '../../worksheets/rotating-bending.md?raw';
import line from '../../worksheets/sn-line.md?raw';
import spanErrors from '../../worksheets/span-errors.md?raw';
import specimen from '../../worksheets/specimen.md?raw';
import staircase from '../../worksheets/staircase.md?raw';
import type { StartName } from './starts.ts';

interface StartText {
  /** The neutral sheet. */
  readonly text: string;
  /** What makes it the example. */
  readonly example?: string;
}

export const START_TEXTS: Readonly<Record<StartName, StartText>> = {
  rotating: { text: rotating, example: rotatingExample },
  alternating: { text: alternating, example: alternatingExample },
  line: { text: line, example: lineExample },
  staircase: { text: staircase, example: staircaseExample },
  oneStress: { text: oneStress, example: oneStressExample },
  lever: { text: lever, example: leverExample },
  verification: { text: verification, example: verificationExample },
  specimen: { text: specimen, example: specimenExample },
  spanErrors: { text: spanErrors, example: spanErrorsExample },
  materials: { text: materials },
  writing: { text: writing },
};
