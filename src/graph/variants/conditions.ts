import { literalNumber, type Expression } from '../../core/formula/index.ts';
import { evaluateAlong, type Chain, type Link } from '../along/index.ts';
import type { SheetDocument } from '../../sheet/types.ts';
import { satisfies } from '../bounds.ts';
import { alikeSteps } from '../marking/index.ts';
import type { Reckoned } from '../reckon.ts';
import type { Drawn } from './numbers.ts';
import type { Condition } from './types.ts';

/** Results nearer to each other than this share of the larger are not asked for beside each other, whatever the sheet takes as right. */
export const LEAST_APART = 0.02;

/** Whether two results are nearer than that; signs are looked at, since a reaction against a pull is another one. */
function areNear(a: number, b: number, share: number): boolean {
  return Math.abs(a - b) <= share * Math.max(Math.abs(a), Math.abs(b));
}

/** How a check stands among the symbols of a chain, which no symbol of a sheet is called. */
const checkName = (cellId: string): string => `check ${cellId}`;

/** The chain with the checks of the conditions beside its symbols: 1 where one holds, 0 where it does not. */
export function withChecks(chain: Chain, conditions: readonly Condition[], { states }: Reckoned): Chain {
  const checks = conditions.flatMap((one): Link[] => (one.kind !== 'holds' ? [] : [{
    symbol: checkName(one.cellId), value: states.cell(one.cellId)?.check?.holds === true ? 1 : 0, uncertainty: 0, rule: { kind: 'formula', expression: oneWhere(one.condition), outside: [] },
  }]));
  return { links: [...chain.links, ...checks] };
}

function oneWhere(condition: Expression): Expression {
  return { kind: 'call', name: 'if', arguments: [condition, literalNumber(1), literalNumber(0)], span: condition.span };
}

/** A sheet at some numbers, as conditions ask of it. */
export interface There {
  /** SI; NaN where there is none. */
  readonly value: (symbol: string) => number;
  readonly holds: (cellId: string) => boolean;
  /** Whether the sheet takes one of the two for the other, as far as that is known. */
  readonly areAlike: (pair: readonly [string, string]) => boolean;
}

/** The sheet at each of the drawn sets of numbers, as far as the conditions ask. */
export function alongDrawn(chain: Chain, conditions: readonly Condition[], drawn: Drawn): (place: number) => There {
  const wanted = [...new Set(conditions.flatMap((one) => (one.kind === 'apart' ? one.symbols : [one.kind === 'holds' ? checkName(one.cellId) : one.symbol])))];
  const columns = evaluateAlong(chain, drawn.columns, drawn.count, { wanted, within: true });
  return (place) => {
    const value = (symbol: string): number => {
      const column = columns.get(symbol);
      return typeof column === 'number' ? column : (column?.[place] ?? Number.NaN);
    };
    return { value, holds: (cellId) => value(checkName(cellId)) === 1, areAlike: () => false };
  };
}

/** The sheet that was worked out with its numbers in it. */
export function reckonedThere({ states }: Reckoned, document: SheetDocument): There {
  const alike = new Set(alikeSteps(document, states).map(([one, other]) => `${one.symbol} ${other.symbol}`));
  return {
    areAlike: ([one, other]) => alike.has(`${one} ${other}`),
    value: (symbol) => {
      const state = states.symbol(symbol);
      return state?.status === 'value' ? state.estimate.value : Number.NaN;
    },
    holds: (cellId) => states.cell(cellId)?.check?.holds === true,
  };
}

export function isMet(condition: Condition, { value, holds, areAlike }: There): boolean {
  switch (condition.kind) {
    case 'within': return satisfies(value(condition.symbol), condition.bounds);
    case 'holds': return holds(condition.cellId);
    case 'known': return !Number.isNaN(value(condition.symbol));
    case 'apart': return !areAlike(condition.symbols) && !areNear(value(condition.symbols[0]), value(condition.symbols[1]), condition.share);
  }
}
