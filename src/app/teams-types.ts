import type { TemplateResult } from 'lit-html';
import type { PresentContext, ShownClass } from '../report/index.ts';
import type { ClassList } from '../sheet/index.ts';

/** A cell that can be taken up in the panel. */
export interface Offer {
  readonly cellId: string;
  readonly label: string;
}

/** A given that varies, with the text of its range. */
interface VariedRow extends Offer {
  readonly text: string;
  /** What stands in it at present. */
  readonly present: string;
  readonly refused: string | undefined;
}

/** A result that is kept to, with the text of its bounds. */
interface WantedRow extends Offer {
  readonly text: string;
  readonly refused: string | undefined;
}

/** What the sheet says of its teams' numbers, and what else it could say it of. */
export interface Ranges {
  readonly varied: readonly VariedRow[];
  readonly furtherGivens: readonly Offer[];
  readonly wanted: readonly WantedRow[];
  readonly furtherSteps: readonly Offer[];
  readonly checks: readonly Offer[];
  readonly furtherChecks: readonly Offer[];
}

/** What the panel for a class shows. */
export interface TeamsState extends Ranges {
  readonly asksForEvery: boolean;
  /** How many results the sheet asks for. */
  readonly askedCount: number;
  readonly seed: string;
  readonly list: string;
  readonly read: ClassList | undefined;
  /** Said of what was drawn: pairs that nothing tells apart. */
  readonly notes: readonly string[];
  readonly drawn: ShownClass | undefined;
  /** What is under way, or why it could not be done. */
  readonly busy: string | undefined;
  readonly refused: string | undefined;
}

/** What the head of the page asks of it. */
export interface Teams {
  readonly unfold: (open: boolean) => void;
  /** What is unfolded; undefined while nobody looks. */
  readonly panel: (context: PresentContext) => TemplateResult | undefined;
}

/** What can be done there. */
export interface TeamsActions {
  /** What stands behind `varies` or `wanted` of a cell; none where it is empty. */
  readonly setRange: (cellId: string, key: 'varies' | 'wanted', text: string | undefined) => void;
  /** Lets one more given vary about its value, or one more result or check be kept to. */
  readonly takeUp: (cellId: string) => void;
  readonly askForEvery: (isOn: boolean) => void;
  readonly setSeed: (text: string) => void;
  readonly setList: (text: string) => void;
  readonly listFile: (file: File) => void;
  readonly draw: () => void;
  readonly takeTeamFiles: () => void;
  readonly takeClassTable: () => void;
}
