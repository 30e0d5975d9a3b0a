import { nearNames, type Problem } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { slipsListed, slipsOffered, type OfferedSlip } from '../../sheet/index.ts';
import type { SheetDocument } from '../../sheet/types.ts';

interface SlipsOn {
  /** In the order of the sheet. */
  readonly on: readonly OfferedSlip[];
  /** What stands in the list and can't be switched on. */
  readonly problems: readonly Problem[];
}

/** The slips that the document says are switched on. Problems: `slip-unknown`, `slip-second`. */
export const slipsOn = remembered((document: SheetDocument): SlipsOn => namedSlips(document, slipsListed(document)));

/** The same for any list of names. */
export function namedSlips(document: SheetDocument, names: readonly string[]): SlipsOn {
  const offered = slipsOffered(document);
  const on = new Map<string, OfferedSlip>();
  const problems: Problem[] = [];
  for (const name of names) {
    const slip = offered.find(({ id }) => id === name);
    const rival = slip === undefined ? undefined : on.get(slip.cell.symbol);
    if (slip === undefined) problems.push(unknown(name, offered.map(({ id }) => id)));
    else if (rival !== undefined) problems.push(second(name, rival.id));
    else on.set(slip.cell.symbol, slip);
  }
  return { on: offered.filter((slip) => on.get(slip.cell.symbol) === slip), problems };
}

function unknown(name: string, offered: readonly string[]): Problem {
  const near = nearNames(name, offered);
  const takeOut = 'take its name out of `slips` at the head of the document';
  return {
    code: 'slip-unknown',
    what: `The slip “${name}” is to be switched on, and this sheet has none of that name.`,
    mend: near.length > 0 ? `Did you mean ${near.join(' or ')}? Else ${takeOut}.` : `T${takeOut.slice(1)}.`,
  };
}

function second(name: string, rival: string): Problem {
  return {
    code: 'slip-second',
    what: `The slip “${name}” is to be switched on beside ${rival}, and both act on the same quantity.`,
    mend: `Take one of the two out of \`slips\` at the head of the document. ${rival} is the one in force.`,
  };
}
