import { nothing } from 'lit-html';
import type { Desk } from './desk.ts';
import type { Part } from './parts.ts';
import type { SheetSession } from './session.ts';
import { tellStep, type StepTold, type StepWay } from './step-told.ts';
import { html } from './template.ts';

/** Undo and redo as a reader sees them: what came back is named wherever the page is scrolled to, and what is taken away offers its undo in place. */
export interface Steps {
  /** Goes one step back or forth in the history and tells what that changed. */
  step(way: StepWay): void;
  /** Offers to undo the edit that is being made, at a block that stays. */
  offer(blockId: string, sentence: string): void;
  /** An edit was asked for, which changed the document or not: what was told or offered before it no longer holds. */
  edited(hasChanged: boolean): void;
  /** What stands at the foot of the window; nothing where no step was just made. */
  strip(): Part;
}

type StepDesk = Pick<Desk, 'changeUi' | 'afterUpdate' | 'go' | 'announce' | 'nothingToUndo'>;

/** @param draw called when the strip says something else */
export function createSteps(session: SheetSession, desk: () => StepDesk, draw: () => void): Steps {
  let told: StepTold | undefined;
  let offered: string | undefined;
  let hasChanged = false;
  const close = (): void => {
    told = undefined;
    draw();
  };
  const withdraw = (): void => {
    const at = offered;
    offered = undefined;
    if (at !== undefined) desk().changeUi(at, (ui) => void (ui.undoOffer = undefined));
  };
  const step = (way: StepWay): void => {
    withdraw();
    const { nothingToUndo } = desk();
    if (way === 'undo' && !session.canUndo() && nothingToUndo !== undefined) {
      told = { way, at: undefined, sentence: nothingToUndo };
      return draw();
    }
    const before = session.document();
    if (way === 'undo') session.undo();
    else session.redo();
    told = tellStep(way, before, session.document());
    draw();
  };
  return {
    step,
    edited: (changed) => {
      hasChanged = changed;
      withdraw();
      if (told !== undefined) close();
    },
    offer: (blockId, sentence) => {
      if (!hasChanged) return;
      desk().afterUpdate(() => {
        offered = blockId;
        desk().changeUi(blockId, (ui) => void (ui.undoOffer = sentence));
      });
      desk().announce(sentence);
    },
    strip: () => {
      if (told === undefined) return nothing;
      const { at, sentence, way } = told;
      const opposite: StepWay = way === 'undo' ? 'redo' : 'undo';
      const isPossible = opposite === 'redo' ? session.canRedo() : session.canUndo();
      return html`<div class="foot-strip step-strip" role="region" aria-label="Undo and redo">
        <p>${sentence}</p>
        <div class="presses">${at === undefined ? nothing : html`<button type="button" class="press" @click=${() => desk().go(at, '')}>go there</button>`}
          ${isPossible ? html`<button type="button" class="press" @click=${() => step(opposite)}>${opposite}</button>` : nothing}
          <button type="button" class="press" @click=${close}>close</button></div></div>`;
    },
  };
}

/** At a block: what was just taken away there, and its undo. */
export function undoOffer(blockId: string, desk: Desk): Part {
  const { undoOffer: sentence } = desk.ui(blockId);
  if (sentence === undefined) return nothing;
  return html`<p class="undo-offer">${sentence} <button type="button" class="press" @click=${() => desk.step('undo')}>undo</button></p>`;
}
