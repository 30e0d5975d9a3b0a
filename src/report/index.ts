/**
 * The report: what is said of a sheet, as plain data (`present…`), and the page, file and LaTeX text made of it.
 *
 * Nouns: a *presented* cell or result (numbers rounded by their uncertainty, units, sentences, TeX; no markup), the
 * *report* (the whole sheet as HTML without script), a *page* (a whole file; with the page's own script it is a working
 * file), the *embedded document* (the sheet's text inside such a file, to be taken back byte for byte).
 * Invariants: page, report and headless command say the same because all read the presented data; whatever comes from a
 * document is escaped where markup is made, in one place (markup.ts, prose.ts for Markdown); what is still asked of the
 * reader leaves in no file; no NaN is ever shown.
 *
 * Classes, shared by report and live page (styles/tokens.css, then styles/sheet.css):
 * - `.sheet` the page's grid; `.title-block` with `h1` and `dl`; `.attention`; `.prose` with `h2 > .number`
 * - `.cell.cell-given|step|check|choice|table|fit|figure|checklist|record|remark|unknown`, with state classes `hidden`, `holds|fails|untold`,
 *   `open|done`; its children `.number`, `.line` (reading column), `.margin`
 * - in a line: `.label` with `.set-by`; `.form-line > .label + .blanks > .symbol + .blank…`; `.echoes > .echo`; `.symbols`, `.numbers`, `.result-row > .result` with `.before`,
 *   `.double-underlined > .quantity`, `.range` or `.withheld`, `.after`; these five in a `.line.rows` let the margin begin beside the result; `.answer.agrees|differs|untold > .yours + .sentence`;
 *   `.settings > li`, `.missing`; `.verdict` with `svg.mark.tick|flag`; `.items > li.done|open` with `svg.mark.box`,
 *   `.text`, `.time`; `figure > .drawn.wide|narrow + figcaption`; `.ruled > table` with `.figures`, `.left-out`, `.marked`, `.told`; `.facts`; `.problem` (`.warning`, `.upstream`) with `.what`,
 *   `.mend`, `.where`
 * - in a margin, of a step in `.beside`: `.uncertainty`, `.interval` with `.coverage`, `.mean`, `.instrument`, `.filled`, `.source`,
 *   `.count`, `.note`, `.moved`
 * - slips: `.slip-band`; at a step `.symbols.slipped`, `.slip-here > .slip-word + .right-formula`; `.slip-sign`; in a margin `.slip-mark`
 * - trial values: `.trial-band`; at a given `.trial-here`
 * - parts on demand: `.cell-aside.stands-open|closed` with `.aside-heading`, `.holds`, `.trouble`; cells inside, `.in-aside`
 * - held states: `.reference-band`, `.held-section`, `.held-table`; in a margin `.shift` with `.wedge`, `.amount`, `.from`; `.turned`
 * - in prose: `.live`, with `.hidden` or `.missing`; anywhere: `.visually-hidden`, `.symbol-name` with `i`, `sub`
 */
export type * from './present/types.ts';
export { asideOf, presentAside, type AsideTrouble, type PresentedAside } from './present/aside.ts';
export { markedSheet } from './present/standing-of.ts';
export { alikeSentences, asksAnything } from './present/alike-words.ts';
export { answerRule, presentMarked, presentSlipBehind } from './present/answer.ts';
export { presentAttention, type PresentedAttention } from './present/attention.ts';
export { classOf, classTable, shownClass, type DrawnClass, type ShownClass } from './present/drawn-class.ts';
export { NUMBERS_CHANGED, ORIGIN_WORDS } from './present/origins.ts';
export { presentWatch, runningTests, type PresentedWatch } from './present/watch.ts';
export { budgetCsv, budgetFigures, type BudgetFigures } from './present/budget-csv.ts';
export { hasBudget, presentBudget } from './present/budget.ts';
export { CHART_NAMES } from './present/chart.ts';
export { presentCheck, presentChecklist, presentChoice, presentRemark } from './present/cells.ts';
export { presentSamples, type PresentedSamples } from './present/samples.ts';
export { plainFigures } from './present/number.ts';
export { CHANGES, presentElasticities, USUAL_CHANGE, type ElasticityMark, type PresentedElasticities } from './present/elasticity.ts';
export { drawingProblems, presentFigure, type PresentedFigure } from './present/figure.ts';
export { lectureWarnings } from './present/lecture-names.ts';
export { presentFindings } from './present/findings.ts';
export { presentBeside } from './present/models-beside.ts';
export { presentFit } from './present/fit.ts';
export { presentLineToTake } from './present/line-to-take.ts';
export { presentGiven } from './present/given.ts';
export { asked, observe, observedContext, sameWords, wholeOf, type Observation } from './present/asked.ts';
export { presentPrediction, type PresentedPrediction } from './present/prediction.ts';
export { awaitsGuess, isGuessing, isHidden, isSymbolHidden, isToBeWorked, withheldWords } from './present/hidden.ts';
export { liveText } from './present/live.ts';
export { definingCell, givenBehind } from './present/lookup.ts';
export { notesOf, warningsOf } from './present/notes.ts';
export { countText, decimalText, unitWords } from './present/number.ts';
export { equationNumber, headingNumbers, numberSheet } from './present/numbering.ts';
export { recordCsv, recordRow, type RowField } from './present/record-row.ts';
export { presentRecord } from './present/record.ts';
export { aloneText, durationText } from './present/record-words.ts';
export { presentGlance, presentRunning } from './present/record-running.ts';
export type * from './present/record-types.ts';
export type * from './present/photo-types.ts';
export { RECORD_LABELS } from './present/record-words.ts';
export { openItems } from './present/open-items.ts';
export { presentRequirements } from './present/requirements.ts';
export { isShownAsFactor, presentResult, presentSymbol } from './present/result.ts';
export { presentPhoto } from './present/photo.ts';
export { photoMarks } from './photo-marks.ts';
export {
  isMovedBySlips, isTouchedBySlips, presentSlipsOn, SLIP_MARK, SLIPS_HEAD, SLIPS_IN_NAME, slipListProblems, slipSentence,
} from './present/slips.ts';
export { presentTrial, presentTrials, restsOnTrial, TRIALS_IN_NAME, trialHeading, trialSentence } from './present/trials.ts';
export { presentSlipEffects, type PresentedSlipEffect, type SlipGroup } from './present/slip-effects.ts';
export { CHIEF_RESULTS, chiefResults } from './present/chief-results.ts';
export { presentChain, presentChief, tellingGiven, type PresentedFollowing } from './present/chief.ts';
export { openWords, presentContents, type PresentedSection } from './present/contents.ts';
export { findInSheet, type FoundPlace } from './present/find.ts';
export { presentStanding, type PresentedStanding } from './present/standing.ts';
export { heldContext, heldProblems, referenceOf, referenceProblems, type HeldContext } from './present/held.ts';
export { presentRowsThen } from './present/held-rows.ts';
export { heldTableCsv, MOST_CHIEF_RESULTS, presentHeldTable } from './present/held-table.ts';
export type { HeldColumn, HeldRow, PresentedHeldTable } from './present/held-types.ts';
export { presentShift, presentTurned, WEDGES, type PresentedShift } from './present/shift.ts';
export { presentStep } from './present/step.ts';
export { contributingInput, inputsOf, resultsWith, searchTexts, sweepView, type SweepView } from './present/sweep-view.ts';
export { presentWorkBack, type PresentedSolution, type PresentedWorkBack } from './present/work-back.ts';
export { symbolOf } from './present/symbol.ts';
export { presentTable } from './present/table.ts';
export { presentRowsIn, type RowsChoice, type PresentedColumnIn, type PresentedRowsIn } from './present/rows-in.ts';
export { presentTitleBlock, nameParts, unitSystemOf } from './present/title-block.ts';

export { embedDocument, extractDocument, readEmbedded, statedFingerprint } from './embedded.ts';
export { equation, plainEquation } from './equation.ts';
export { typesetter } from './typesetter.ts';
export { html as markup, htmlText, symbolsShown, type Hand, type Insertion, type Markup } from './markup.ts';
export { placesOf, type Place } from './places.ts';
export { headParts, type HeadHands } from './head.ts';
export { ownTextBelow } from './own-text.ts';
export { budgetTable, type Folding } from './budget-table.ts';
export { besideValues, smallTable } from './small-table.ts';
export { figureTemplate } from './kinds/figure.ts';
export { photoTemplate } from './kinds/photo.ts';
export { recordTemplate } from './kinds/record.ts';
export { columnHead, leftOutWords, tableTemplate } from './kinds/table.ts';
export { asideTemplate } from './kinds/aside.ts';
export { checkTemplate } from './kinds/check.ts';
export { checklistTemplate } from './kinds/checklist.ts';
export { choiceTemplate } from './kinds/choice.ts';
export { findingsTemplate } from './kinds/findings.ts';
export { fitTemplate } from './kinds/fit.ts';
export { givenTemplate } from './kinds/given.ts';
export { questionTemplate } from './kinds/question.ts';
export { presentQuestion, type PresentedQuestion } from './present/question.ts';
export { remarkTemplate } from './kinds/remark.ts';
export { stepTemplate } from './kinds/step.ts';
export { unknownTemplate } from './kinds/unknown.ts';
export { formOf } from './forms.ts';
export { shiftLine, turnedLine } from './held-parts.ts';
export { cellAnchor, note, partId, problemLine, problemList, quantity, quoted, raised, uncertaintyLines, verdictMark, wholeLine, type CellTemplate } from './parts.ts';
export { PAPER_LAYOUT } from './layouts.ts';
export { breakable, equationLine, inLineFractions, mayBeTooWide } from './equation-line.ts';
export { reportPage } from './page.ts';
export { printFoot } from './print-foot.ts';
export { headingsOf, renderProse } from './prose.ts';
export { samplesFound, type SampledSteps } from './samples-parts.ts';
export { renderSheet, renderToLive } from './render.ts';
export { TEX_ATTRIBUTE } from './plain-equations.ts';
export { renderReport } from './render-report.ts';
export { sheetTex } from './tex.ts';
export { stepTex } from './tex-step.ts';
