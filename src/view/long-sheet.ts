import { nothing, type TemplateResult } from 'lit-html';
import { countText } from '../report/index.ts';
import { html } from './template.ts';

/** The longest of our own sheets has some 290 blocks; a few hundred more take a second. */
const FIRST = 600;
const MORE = 600;

/** Of a very long sheet only the beginning is drawn until more is asked for: all of it is read and worked out, but to draw ten thousand lines takes minutes. */
export interface LongSheet {
  /** Those that are to be drawn, of all. */
  pick<T>(blocks: readonly T[]): readonly T[];
  /** One that is to be gone to is drawn, with all before it. */
  reach(index: number): void;
  /** All of it, as before printing; gives the way back to what was drawn before. */
  all(): () => void;
  /** What stands below the last line that is drawn. */
  foot(): TemplateResult | typeof nothing;
}

/** @param changed draws the sheet anew */
export function createLongSheet(changed: () => void): LongSheet {
  let most = FIRST;
  let total = 0;
  const set = (count: number): void => {
    if (count === most) return;
    most = count;
    changed();
  };
  return {
    pick: (blocks) => {
      // A line added below the last one that is drawn is seen.
      if (total > 0 && blocks.length > total) most += blocks.length - total;
      total = blocks.length;
      return blocks.slice(0, most);
    },
    reach: (index) => {
      if (index >= most) set(index + 1 + MORE);
    },
    all: () => {
      const before = most;
      set(Number.POSITIVE_INFINITY);
      return () => set(before);
    },
    foot: () => (total <= most ? nothing : html`<p class="first-line long-sheet">${`${countText(most)} of ${countText(total)} blocks of this long sheet are shown; all of them are worked out.`}
      <button type="button" class="plain" @click=${() => set(most + MORE)}>${`show the next ${countText(Math.min(MORE, total - most))}`}</button></p>`),
  };
}
