/**
 * The live sheet in the page.
 *
 * Nouns: a *session* (one sheet being worked on: document, history, values), the *desk* (what the controls of the lines
 * reach for), a *blank* (where the reader types), a *mark* (how a result moved with the last edit), the *menu* (what can be
 * done with a line).
 * Invariants: nothing from a document becomes markup (markup.ts is the only door, and only our own code's text goes through
 * it); what is typed is never lost or changed under the reader's hands; each block is drawn in an element of its own, and
 * only when something it shows has changed; results are in the page before equations are set; Tab is never trapped.
 */
import './styles/view.css';

export type { FoldMemory, Folds, Remembered } from './folds.ts';
export { localTime } from './clock.ts';
export type { MaterialShelf } from './material-shelf.ts';
export type { LectureMemory } from './lecture/lecture-types.ts';
export type { LineShelf, OfferShelf, SheetWith, ValueShelf } from './offer-shelf.ts';
export { entered } from './entered.ts';
export { mountSheet } from './mount.ts';
export type { PlaceMemory, ReadingPlace } from './reading-place.ts';
export type { SidePlace } from './side/side.ts';
export { createSession, type ChangedCells, type OwnedSession, type SheetSession } from './session.ts';
export type { TestElsewhere, TestsElsewhere } from './record/elsewhere.ts';
export type { RowShelf, SheetWithTables } from './row-shelf.ts';
export type { Sampler, SamplingInHand, SamplingListener } from './sampling/sampler.ts';
export { fileName, saveFile } from './save-file.ts';
export { faultWords, renderSafely } from './fault.ts';
export { isDamagedPart, partWords } from './part-words.ts';
export { whenStill } from './still.ts';
export { html } from './template.ts';
export { isVisible } from './visible.ts';
