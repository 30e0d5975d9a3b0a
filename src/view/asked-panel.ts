import { nothing } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { alikeSentences, asksAnything } from '../report/index.ts';
import { askedRules, handedIn, isTeamFile, type EditCommand } from '../sheet/index.ts';
import { localTime } from './clock.ts';
import type { Desk } from './desk.ts';
import { entered } from './entered.ts';
import type { Part } from './parts.ts';
import { valueOf } from './record/fields.ts';
import { html } from './template.ts';

/** How own results are judged in this sheet, for whoever hands it out, and the press with which they are handed in. */
export function askedPanel(desk: Desk): Part {
  const context = desk.context();
  if (!asksAnything(context)) return nothing;
  const { document } = context;
  if (isTeamFile(document)) return handIn(desk);
  const rules = askedRules({}, document);
  const typed = (key: string): string => document.frontMatter.entries.get(key) ?? '';
  const set = (key: string, value: string): void => {
    desk.apply(entry(key, value === '' ? undefined : value));
    desk.settle();
  };
  return html`${handIn(desk)}
    <details class="asked-rules"><summary>How own results are judged</summary>
      <label class="field"><span>Right within</span><input class="blank" type="text" autocomplete="off" placeholder="each result’s uncertainty" .value=${entered(typed('tolerance'))}
        @change=${(event: Event) => set('tolerance', valueOf(event))}></label>
      <p class="help">1 %, 3 figures, 2 u (standard uncertainties of the result) or factor 1.2. Empty: the result’s own uncertainty, from 0.5 to 2 %, for a life a factor from 1.05 to 1.2. A line may say its own (<code>tolerance</code>).</p>
      <label class="field"><span>Tries before the sheet’s result shows</span><input class="blank" type="text" inputmode="numeric" autocomplete="off" placeholder=${String(rules.tries)} .value=${entered(typed('tries'))}
        @change=${(event: Event) => set('tries', valueOf(event))}></label>
      <label class="switch"><input type="checkbox" .checked=${live(rules.isUnitRequired)} @change=${() => set('answer_unit', rules.isUnitRequired ? '' : 'required')}><span>the unit has to be typed</span></label>
      <label class="switch"><input type="checkbox" .checked=${live(rules.feedback === 'at the end')} @change=${() => set('feedback', rules.feedback === 'at the end' ? '' : 'at the end')}><span>told only when handed in</span></label>
      <label class="field"><span>Hints at what went wrong</span><select class="blank" .value=${live(rules.hints)} @change=${(event: Event) => set('hints', valueOf(event) === 'all' ? '' : valueOf(event))}>
        <option value="all">all that can be found</option><option value="listed">the sheet’s own slips</option><option value="none">none</option></select></label>
      ${alikeSentences(context).map((sentence) => html`<p class="warning">${sentence}</p>`)}
    </details>`;
}

function handIn(desk: Desk): Part {
  const { document } = desk.context();
  const time = handedIn(document);
  if (askedRules({}, document).feedback !== 'at the end') return nothing;
  if (time !== undefined) return html`<p class="handed-in">Own results were handed in on ${localDay(time)}. <button type="button" class="quiet" @click=${() => apply(desk, undefined)}>take back</button></p>`;
  return html`<p class="handed-in"><button type="button" class="plain" @click=${() => apply(desk, localTime(desk.session.now()))}>Hand in my results</button> <span class="help">Then each is told, with the sheet’s beside it.</span></p>`;
}

function apply(desk: Desk, time: string | undefined): void {
  desk.apply(entry('handed_in', time));
  desk.settle();
  desk.announce(time === undefined ? 'No longer handed in.' : 'Handed in. Each own result is told now.');
}

function entry(key: string, value: string | undefined): EditCommand {
  return { do: 'set front matter', key, value };
}

function localDay(time: string): string {
  return time.slice(0, 16).replace('T', ', ');
}
