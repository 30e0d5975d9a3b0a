/**
 * The worksheet document: text to cells and back, and every change of it.
 *
 * Nouns: a `SheetDocument` is front matter and a list of `Block`s, which are prose or cells; a `Cell` is what a block's
 * YAML says, typed, with all values as typed; an `EditCommand` is a change as data; a `SheetHistory` is a document with its
 * earlier and later states; the rows of a table are delimited text of records and fields (`rowsText`). `KINDS` describes the keys that each kind of cell takes.
 *
 * Invariants:
 * - Sources joined are the text: `serialiseSheet(parseSheet(text)) === text` for any text, and nothing throws.
 * - What can't be read or is not understood stays in the text and is told as a `Problem` with its line; the rest is read.
 * - Numbers, units and formulas are not read here. An empty value counts as absent.
 * - A cell is a fenced block (CommonMark) whose info string is one plain word; every other fenced block is prose. A fence
 *   that never closes is prose up to the next line that opens a cell.
 * - Ids are unique. An edit leaves untouched blocks the same objects (`===`), also where lines were put in above, unless
 *   they have problems whose lines moved; ids made from kind and place stay with their blocks until the text is parsed
 *   anew.
 * - An edit changes only the bytes it has to and keeps comments, order and line ends; where it can't, it is a `Problem` and
 *   the document stays as it was.
 */
export type {
  AsideCell,
  Block,
  Cell,
  CellBlock,
  CellSlip,
  CheckCell,
  ChecklistCell,
  ChecklistItem,
  ChoiceCell,
  ChoiceOption,
  ColumnType,
  EndCell,
  FigureCell,
  FindsWord,
  FitCell,
  FitSetting,
  FrontMatter,
  GivenCell,
  HeldState,
  PhotoCell,
  ProseBlock,
  RecordCell,
  QuestionCell,
  RemarkCell,
  SheetDocument,
  StepCell,
  TableCell,
  TableColumn,
  TableSymbol,
  LineWord,
  UnknownCell,
  ValueElsewhere,
} from './types.ts';
export { LECTURE, lectureMarks, lecturePredictions, withLectureMark, type LectureMark, type LecturePrediction } from './lecture-marks.ts';
export { askedRules, asksForStep, earlierTries, handedIn, isOwnWorking, triesText, type AskedRules } from './asked-rules.ts';
export type { Feedback, Hints, Tolerance } from './asked-types.ts';
export { asideProblems, asidesIn, type Asides } from './asides.ts';
export { asKind, cellIn, cellsOf } from './cells-of.ts';
export { lineageOf } from './lineage.ts';
export { shapeOf } from './shape.ts';
export type { Lineage } from './lineage.ts';
export { blockLine, LONGEST_DOCUMENT, parseAgain, parseSheet, serialiseSheet } from './parse.ts';
export { placeFinder } from './problem-row.ts';
export { keysOf, KNOWN_KINDS, RECORD_TEXTS, type KnownKind } from './keys.ts';
export { SWITCHES, TITLE_FORM } from './reference/head.ts';
export { HEAD_HOLDS, HOLDS, type Holds } from './reference/holds.ts';
export { symbolsGiven } from './rename/rename-symbol.ts';
export { ASKS, FRONT_MATTER, HELD_STATES, INNER_PARTS, KINDS } from './reference/parts.ts';
export { DRAWINGS } from './reference/pictures.ts';
export type { KeyEntry } from './reference/types.ts';
export { entryWords, SECTIONS, type Section } from './reference/words.ts';
export { asItStands } from './as-it-stands.ts';
export { applyEdit, type EditCommand } from './edit.ts';
export type { NewOption } from './add-option.ts';
export type { TableCommand } from './table/edit-rows.ts';
export { cleanText } from './table/clean-text.ts';
export { columnMeaning } from './table/column-names.ts';
export { headerName, readHeader, type HeaderField } from './table/header.ts';
export { BETWEEN, splitText, type Between, type SplitText } from './table/split-text.ts';
export { groupsBehind } from './table/groups.ts';
export { fieldsOfRow, rowLines, rowsText, type RowsText, type ShownColumn, type TableRow } from './table/rows-text.ts';
export { asItWas, writeOutgoing, writeRecord, type Separator } from './table/delimited.ts';
export { FIT_WORDS, fitSetting } from './table/read-fit-cell.ts';
export { LONGEST_SIDE, pictureText, readPicture, type StoredPicture } from './photo/stored-picture.ts';
export { readPictureHeader } from './photo/picture-header.ts';
export { MARK_KEYS, readPoints, readScaleMark, turnRight, writePoints, writeScaleMark, type MarkKey, type MarkPoint, type ScaleMark } from './photo/marks.ts';
export { PHOTO_READINGS, type PhotoReading } from './photo/readings.ts';
export { slipsListed, slipsOffered, switchAllSlipsOff, switchSlip, type OfferedSlip } from './slips/switch-slip.ts';
export { enterText } from './enter-text.ts';
export { withExample } from './example.ts';
export { readClassList, type ClassList, type ListedTeam } from './teams/class-list.ts';
export { areNumbersChanged, isTeamFile, variantText } from './teams/variant.ts';
export { forTeam, handedOut, withEntries, type ForTeam } from './teams/handed-out.ts';
export { statedIn, type Plain } from './stated.ts';
export { blankSheet } from './blank-sheet.ts';
export { groupSource, type GroupName } from './groups.ts';
export { nextSpecimen, type NextSpecimen } from './next-specimen.ts';
export { asOwn, HEAD_FROM_EXAMPLE, headFromExample, isOfExample, isTakenOver } from './origin.ts';
export type { Origin } from './cell-base.ts';
export { putBack, setTrial, symbolOfTrial, trialOf, trialText } from './trial.ts';
export { goBackTo, heldInputsOf, inputsOf, sharedInputs, tablesApart, tablesNotHeld, withInputs, type SheetWithInputs } from './held/inputs.ts';
export { HELD, REFERENCE } from './held/read-held.ts';
export { acceptText } from './accept-text.ts';
export { whyNoSheet } from './holds-sheet.ts';
export { createHistory, type SheetHistory } from './history.ts';
export { templateCell, type TemplateName } from './template.ts';
