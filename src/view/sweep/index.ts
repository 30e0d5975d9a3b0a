/** A result against an input, and the way back from a wanted one: parts that open below a step. What is asked there is view state. */
import { nothing } from 'lit-html';
import type { StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';
import { againstPart } from './against.ts';
import { workBackPart } from './work-back.ts';

export function openedSweeps(cell: StepCell, desk: Desk): Part {
  const { open } = desk.ui(cell.id);
  return html`${open.has('against') ? againstPart(cell, desk) : nothing}${open.has('work back') ? workBackPart(cell, desk) : nothing}`;
}
