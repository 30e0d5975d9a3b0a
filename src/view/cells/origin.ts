import { nothing } from 'lit-html';
import { composed } from '../../core/problem/index.ts';
import type { Cell } from '../../sheet/index.ts';
import { setKey } from '../commands.ts';
import type { Desk } from '../desk.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';

/** A press that makes an assumed value the reader's own, as it stands. */
export function confirmButton(cell: Cell, name: string, desk: Desk): Part {
  if (cell.origin !== 'assumed') return nothing;
  const confirm = (): void => {
    desk.settle();
    desk.afterUpdate(() => desk.element(cell.id)?.querySelector<HTMLElement>('input, select')?.focus());
    if (desk.apply(setKey(cell.id, 'origin', undefined), cell.id)) desk.announce(composed`${name}: confirmed, and yours from now on.`);
    desk.settle();
  };
  return html` <button type="button" class="quiet confirm" aria-label=${composed`confirm ${name} as it is assumed`} @click=${confirm}>confirm</button>`;
}
