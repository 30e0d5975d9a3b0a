import { cellsOf } from '../../sheet/index.ts';
import { asked, sameWords } from './asked.ts';
import { isHidden } from './hidden.ts';
import type { PresentContext, WholeContext } from './types.ts';

/** What of the sheet is open, by the cells where it is, in their order. */
export interface PresentedStanding {
  /** Checks that do not hold. */
  readonly failing: readonly string[];
  /** Checks that wait for what they ask about. */
  readonly waiting: readonly string[];
  /** Checklists with something open. */
  readonly lists: readonly string[];
  readonly openItems: number;
  readonly items: number;
}

export function presentStanding(context: PresentContext): PresentedStanding {
  const checks = asked(context, checksIn, undefined, sameWords);
  const [items = '0', ...counts] = asked(context, ticksIn, undefined, sameWords);
  const lists = counts.map((entry) => entry.slice(entry.indexOf(' ') + 1));
  const openItems = counts.reduce((sum, entry) => sum + Number.parseInt(entry, 10), 0);
  const those = (sign: string): readonly string[] => checks.filter((entry) => entry.startsWith(sign)).map((entry) => entry.slice(sign.length));
  return { failing: those(FAILS), waiting: those(WAITS), lists, openItems, items: Number(items) };
}

const FAILS = '- ';
const WAITS = '? ';

/** Each as a sign and an id. What is hidden waits like what has no values yet: neither tells. */
function checksIn(whole: WholeContext): readonly string[] {
  return cellsOf(whole.document, 'check').flatMap(({ id }) => {
    const holds = isHidden(id, whole) ? undefined : whole.states.cell(id)?.check?.holds;
    return holds === true ? [] : [`${holds === false ? FAILS : WAITS}${id}`];
  });
}

/** How many items there are, then each list with open ones: how many, and its id. */
function ticksIn({ document }: WholeContext): readonly string[] {
  const lists = cellsOf(document, 'checklist');
  const all = lists.reduce((sum, { items }) => sum + items.length, 0);
  return [String(all), ...lists.flatMap(({ id, items }) => {
    const open = items.filter(({ done }) => done === undefined).length;
    return open === 0 ? [] : [`${open} ${id}`];
  })];
}
