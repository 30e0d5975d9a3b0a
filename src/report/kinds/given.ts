import type { GivenCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { shiftLine } from '../held-parts.ts';
import { html, math, type Insertion } from '../markup.ts';
import { note, raised, type CellTemplate } from '../parts.ts';
import { presentGiven } from '../present/given.ts';
import { presentShift } from '../present/shift.ts';
import type { PresentContext, PresentedGiven } from '../present/types.ts';
import { slipHere, slipUsed } from '../slip-parts.ts';
import { trialHere } from '../trial-parts.ts';

export const givenForm: Form<GivenCell> = { template: givenTemplate, marksSlips: true };

/** A measured quantity as a line of a form: words, blanks, and in the margin what follows from the readings. */
export function givenTemplate(cell: GivenCell, context: PresentContext): CellTemplate {
  const given = presentGiven(cell, context);
  const blanks = given.blanks.length === 0 ? [''] : given.blanks;
  return {
    notes: given,
    line: html`<div class="form-line"><p class="label">${given.label}</p>
<p class="blanks"><span class="symbol">${math(`${given.symbolTex} =`)}</span> ${blanks.map((text) => html`<span class="blank">${text}</span> `)}</p></div>${trialHere(given.trial)}${slipHere(given.slipMark)}`,
    margin: givenMargin(given, context),
  };
}

function givenMargin(given: PresentedGiven, context: PresentContext): readonly Insertion[] {
  const { result } = given;
  const behind = result.kind === 'value' && result.unit !== '' ? `\u00a0${result.unit}` : '';
  const uncertainty = result.kind === 'value' ? result.uncertainty : undefined;
  const lines: Insertion[] = [shiftLine(presentShift(given.symbol, context)), slipUsed(given.slipMark)];
  if (given.mean !== undefined && result.kind === 'value') {
    lines.push(html`<p class="mean">mean ${raised(result.number)}${behind}</p>`);
  }
  if (given.range !== undefined) lines.push(html`<p class="mean">${given.range}</p>`);
  if (uncertainty !== undefined) lines.push(html`<p class="uncertainty">u = ${uncertainty}${behind}</p>`);
  if (given.instrument !== undefined) lines.push(html`<p class="instrument">${given.instrument}</p>`);
  if (given.filledBy !== undefined) lines.push(html`<p class="filled">from ${given.filledBy}</p>`);
  lines.push(...given.echoes.map((echo) => html`<p class="echo">${echo}</p>`));
  lines.push(note(given.note));
  return lines;
}
