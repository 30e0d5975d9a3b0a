/**
 * Own results held against the sheet's.
 *
 * Nouns: a *mark* is what an own result is (agrees, carried, too few digits, differs; unreadable; nothing to hold it against); an *allowance* how far off it may be;
 * a *standing* how an asked step stands with its reader: marks, tries, and whether the sheet's result shows; a *working* what slips are looked for in.
 * Invariants: no allowance grows with fewer digits; what is unreadable or too short is no try; slips that are switched on are no measure.
 */
export { allowanceOf, isAllowed, type Allowance } from './allowance.ts';
export { entryKeys, markOf, ownResults, standings, type Mark, type MarkedSheet, type Standing, type Verdict } from './mark.ts';
export { isJudged, questionKeys, questionStanding, symbolsOffered, type QuestionStanding, type QuestionVerdict } from './question.ts';
export { unitOfStep } from './read-answer.ts';
export { alikeSteps } from './alike.ts';
export { ownWorkingOf, workingOf } from './working.ts';
