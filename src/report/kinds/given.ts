import type { GivenCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { shiftLine } from '../held-parts.ts';
import { html, math, type Hand, type Insertion, type Markup } from '../markup.ts';
import { originMark } from '../origin-parts.ts';
import { cellAnchor, note, notesBeside, partId, problemList, raised, type CellTemplate } from '../parts.ts';
import { ORIGIN_WORDS } from '../present/origins.ts';
import { presentGiven } from '../present/given.ts';
import { presentShift } from '../present/shift.ts';
import type { PresentContext, PresentedGiven, PresentedSlip, PresentedTrial } from '../present/types.ts';
import { named, OPEN_BLANKS } from '../report-part.ts';
import { slipHere, slipUsed } from '../slip-parts.ts';
import { trialHere } from '../trial-parts.ts';

export const givenForm: Form<GivenCell> = {
  template: (cell, context) => givenTemplate(cell, presentGiven(cell, context), context),
  report: (cell, context) => {
    const given = presentGiven(cell, context);
    // The table of values has what was written beside what it was read as.
    const texts = given.echoes.filter((echo) => !echo.startsWith('read as ')).map((echo) => `${echo}.`);
    const notes = { name: named(given.symbolTex, given.label), texts: [...texts, given.note] };
    const isOpen = given.blanks.length === 0 && given.trial === undefined && given.problems.length === 0;
    return isOpen ? { open: { under: OPEN_BLANKS, name: named(given.symbolTex, given.label), short: math(given.symbolTex) } } : { row: valueRow(cell, given, context), notes };
  },
  marksSlips: true,
};

/** What only the page has at a given. */
interface GivenHands {
  readonly label?: Hand;
  readonly blanks?: Hand;
  /** Makes an assumed value the reader's own. */
  readonly confirm?: Hand;
  /** How many of them there are. */
  readonly count?: number;
  readonly putBack?: (trial: PresentedTrial) => Hand;
  readonly slipOff?: (slip: PresentedSlip) => Hand;
  readonly moved?: Hand;
  /** In place of the instrument's name. */
  readonly measured?: Hand;
  readonly measuredForm?: Hand;
  /** Taking the value from another sheet. */
  readonly taking?: Hand;
}

/** A measured quantity as a line of a form: words, blanks, and in the margin what follows from the readings. */
export function givenTemplate(cell: GivenCell, given: PresentedGiven, context: PresentContext, hands: GivenHands = {}): CellTemplate {
  return {
    notes: given,
    line: html`${formLine(cell, given, hands)}${given.echoes.length > 0 && html`<div class="echoes" id="${partId(cell.id, 'echo')}">${given.echoes.map((echo) => html`<p class="echo">${echo}</p>`)}</div>`}
${trialHere(given.trial, hands.putBack)}${slipHere(given.slipMark, hands.slipOff)}`,
    below: html`${hands.taking}${hands.measuredForm}`,
    margin: [hands.moved, shiftLine(presentShift(given.symbol, context)), ...givenMargin(given, hands)],
  };
}

function formLine({ origin }: GivenCell, { label, symbol, symbolTex, blanks }: PresentedGiven, hands: GivenHands): Markup {
  const isGroup = (hands.count ?? blanks.length) > 1;
  const shown = blanks.length === 0 ? [''] : blanks;
  return html`<div class="form-line">${hands.label ?? html`<p class="label">${label}</p>`}
<div class="${origin === undefined ? 'blanks' : 'blanks not-yours'}" role="${isGroup && 'group'}" aria-label="${isGroup && (label === '' ? symbol : label)}"><span class="symbol">${math(`${symbolTex} =`)}</span>${hands.blanks ?? shown.map((text) => html` <span class="blank">${text}</span>`)}${originMark(origin, hands.confirm)}</div></div>`;
}

function givenMargin({ result, mean, range, filledBy, takenFrom, instrument, slipMark, note: words }: PresentedGiven, hands: GivenHands): readonly Insertion[] {
  const value = result.kind === 'value' ? result : undefined;
  const behind = value === undefined || value.unit === '' ? '' : raised(`\u00a0${value.unit}`);
  return [
    slipUsed(slipMark),
    value && mean !== undefined && html`<p class="mean">mean ${raised(value.number)}${behind}</p>`,
    range !== undefined && html`<p class="mean">${range}</p>`,
    value?.uncertainty !== undefined && html`<p class="uncertainty">u = ${raised(value.uncertainty)}${behind}</p>`,
    filledBy !== undefined && html`<p class="filled">from ${filledBy}</p>`,
    takenFrom !== undefined && html`<p class="filled">${takenFrom}</p>`,
    hands.measured ?? (instrument !== undefined && html`<p class="instrument">${instrument}</p>`),
    notesBeside(note(words)),
  ];
}

/** Symbol, what it is, what stands in its blanks, what follows from that, and where it comes from. */
function valueRow(cell: GivenCell, given: PresentedGiven, context: PresentContext): Markup {
  const { symbolTex, label, blanks, result, range, filledBy, takenFrom, instrument } = given;
  const unit = result.kind === 'value' && result.unit !== '' ? raised(`\u2009${result.unit}`) : '';
  const origin = [cell.origin && ORIGIN_WORDS[cell.origin], instrument, filledBy, takenFrom].filter((words) => words !== undefined).join('; ');
  const below = [trialHere(given.trial), slipHere(given.slipMark), slipUsed(given.slipMark), shiftLine(presentShift(given.symbol, context)), problemList(given)];
  const typed = (cell.readings ?? cell.value ?? '').trim();
  // A value that is shown as it was written is shown once.
  const written = result.kind === 'value' && result.uncertainty === undefined && typed === result.text ? '' : typed === '' ? blanks.join('; ') : typed;
  const isPlain = below.every((part) => part === undefined || (Array.isArray(part) && part.length === 0));
  return html`<tr id="${cellAnchor(cell.id)}"><td class="symbol">${math(symbolTex)}</td><th scope="row">${label}</th><td class="readings">${written}${range !== undefined && html` <span class="range">(${range})</span>`}</td><td class="figures">${result.kind === 'value' && html`${raised(result.number)}${result.uncertainty !== undefined && html` ± ${raised(result.uncertainty)}`}${unit}`}</td><td class="origin">${origin}</td></tr>
${!isPlain && html`<tr class="told"><td></td><td colspan="4">${below}</td></tr>
`}`;
}
