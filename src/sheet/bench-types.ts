import type { OwnResult } from './asked-types.ts';
import type { CellBase } from './cell-base.ts';
import type { BorderShape } from '../core/mechanics/index.ts';
import type { PhotoReading } from './photo/readings.ts';

/* Cells that are filled at the bench while a test runs and after it. */

/** One picture of a fracture surface with what was marked in it. Marks are places in dots of the stored picture, as typed. */
export interface PhotoCell extends CellBase {
  readonly kind: 'photo';
  /** JPEG as base64 in lines; '' where there is none yet. */
  readonly picture: string;
  /** Two points and the known length between them: `102,220 911,230 = 8 mm`. */
  readonly scale?: string;
  /** Points along the rim of the broken section, and along the border of the final-fracture zone in it. */
  readonly outline?: string;
  readonly final?: string;
  /** How these borders go between their points; straight unless said. */
  readonly outlineShape: BorderShape;
  readonly finalShape: BorderShape;
  /** Places where cracks began. */
  readonly origins?: string;
  /** What is read from the marks to the symbol that it defines in the sheet. */
  readonly symbols: ReadonlyMap<PhotoReading, string>;
  /** Id of the picture of the other half of the fracture. */
  readonly halfOf?: string;
  /** Symbols of the place at which the specimen broke, and of the area of its section there. */
  readonly brokeAt?: string;
  readonly sectionThere?: string;
}

/** The record of one test. All as typed; times are ISO 8601 with offset. */
export interface RecordCell extends CellBase {
  readonly kind: 'record';
  /** What `RECORD_TEXTS` names, as far as it is filled in. */
  readonly texts: ReadonlyMap<string, string>;
  /** { at, counter, speed, note }, in the order noted. */
  readonly readings: readonly ReadonlyMap<string, string>[];
  /** { from, to, why }; without `to` the machine stands still. */
  readonly pauses: readonly ReadonlyMap<string, string>[];
  /** What was predicted and what was typed at the start: symbol, or `choice ID`, to text. Empty before the start. */
  readonly frozen: ReadonlyMap<string, string>;
  /** Role (`RECORD_WATCHES`) to the symbol of the prediction. */
  readonly watches: ReadonlyMap<string, string>;
  /** Role (`RECORD_SYMBOLS`) to the symbol that the record defines. */
  readonly symbols: ReadonlyMap<string, string>;
  /** Role (`RECORD_FILLS`) to the given that the record fills after a fracture, as long as nothing is typed there. */
  readonly fills: ReadonlyMap<string, string>;
  /** Column of the specimen's row to the symbol whose value stands there, or `choice ID` for the chosen option. */
  readonly row: ReadonlyMap<string, string>;
}

export interface ChecklistItem {
  readonly text: string;
  /** Time at which it was ticked, ISO 8601 with offset; absent while open. */
  readonly done?: string;
}

export interface ChecklistCell extends CellBase {
  readonly kind: 'checklist';
  readonly items: readonly ChecklistItem[];
}

/** A question whose answer is no number of the sheet: one of several options, an expression, or words for whoever marks it. */
export interface QuestionCell extends CellBase, OwnResult {
  readonly kind: 'question';
  /** Short name to words. */
  readonly options?: ReadonlyMap<string, string>;
  /** Name of the right option. */
  readonly right?: string;
  /** The right expression. */
  readonly formula?: string;
  /** Symbols that an expression may be written in; those of the right one where it is absent. */
  readonly in?: readonly string[];
  /** Shown with the right answer. */
  readonly why?: string;
}

export interface RemarkCell extends CellBase {
  readonly kind: 'remark';
  readonly heading: string;
  /** Markdown without HTML. */
  readonly text: string;
  /** What is to be written there. */
  readonly hint?: string;
}
