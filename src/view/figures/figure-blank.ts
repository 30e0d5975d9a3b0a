import { composed } from '../../core/problem/index.ts';
import type { TypedFigure } from '../../figures/drawings/index.ts';
import { definingCell } from '../../report/index.ts';
import { holdsReadings } from '../../graph/index.ts';
import { cellIn, setTrial, trialText } from '../../sheet/index.ts';
import { setGiven } from '../commands.ts';
import type { Desk } from '../desk.ts';
import { blanksOf, givenText, textOfBlanks } from '../readings.ts';
import { sameNumber } from '../shift.ts';
import { meanText } from './mean-text.ts';

/**
 * A blank over a figure of the drawing, to type over it. Beside readings what is typed there is a trial value.
 * It is taken with Enter or by leaving; Escape leaves everything as it was.
 */
export function openFigureBlank(button: HTMLButtonElement, figure: TypedFigure, desk: Desk, blockId: string, redraw: () => void): void {
  const cell = cellIn(definingCell(figure.given, desk.context()), 'given');
  if (cell === undefined) return;
  const isTrial = holdsReadings(cell) || trialText(cell) !== undefined;
  const blanks = isTrial ? [trialText(cell) ?? meanText(cell, desk) ?? ''] : blanksOf(givenText(cell));
  const input = document.createElement('input');
  input.type = 'text';
  input.className = 'blank over-figure';
  input.autocomplete = 'off';
  input.setAttribute('aria-label', composed`${isTrial ? 'Trial value: ' : ''}${cell.label ?? cell.symbol}`);
  input.value = blanks.length === 1 ? (blanks[0] ?? '') : blanks.join('; ');
  input.style.left = button.style.left;
  input.style.top = button.style.top;
  const before = input.value;
  let open = true;
  const close = (take: boolean): void => {
    if (!open) return;
    open = false;
    const typed = input.value.split(';');
    const changed = take && input.value !== before;
    input.replaceWith(button);
    if (changed) {
      desk.settle();
      const trial = input.value.trim();
      const isHome = trial === '' || sameNumber(trial, meanText(cell, desk) ?? '');
      desk.apply(isTrial ? setTrial(cell.id, isHome ? undefined : trial) : setGiven(cell, textOfBlanks(typed)), blockId);
      desk.settle();
    }
    redraw();
  };
  input.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' && event.key !== 'Escape') return;
    event.preventDefault();
    event.stopPropagation();
    close(event.key === 'Enter');
  });
  input.addEventListener('blur', () => close(true));
  button.replaceWith(input);
  input.focus();
  input.select();
}
