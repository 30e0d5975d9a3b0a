import { composed } from '../../core/problem/index.ts';
import type { Misfit, TeamDraw, VariantPlan } from '../../graph/index.ts';
import { cellsOf, variantText, writeOutgoing, type ListedTeam, type SheetDocument } from '../../sheet/index.ts';
import { presentSymbol } from './result.ts';
import { unitSystemOf } from './title-block.ts';
import type { WholeContext } from './types.ts';

/** A class whose numbers were drawn. */
export interface DrawnClass {
  readonly plan: VariantPlan;
  readonly teams: readonly { readonly listed: ListedTeam; readonly draw: TeamDraw }[];
  /** Results that the sheet keeps to, by symbol, and those that it asks for. */
  readonly wanted: readonly string[];
  readonly asked: readonly string[];
}

/** The numbers as a table to look at: the blanks that vary and the results that are kept to. */
export function shownClass({ plan, teams, wanted }: DrawnClass): ShownClass {
  return {
    heads: [...plan.varied.map(({ symbol }) => symbol), ...wanted],
    teams: teams.map(({ listed, draw }): ShownTeam => ({
      ...listed, variant: variantText(draw.seed, draw.variant?.entries ?? []), said: saidOf(draw),
      cells: [...(draw.variant?.entries.map(({ text }) => text) ?? []), ...resultsOf(draw, wanted, plan)],
    })),
  };
}

function saidOf({ misfit, sameAs }: TeamDraw): string {
  if (misfit !== undefined) return misfitWords(misfit);
  return sameAs === undefined ? '' : composed`The same numbers as ${sameAs}: no others were found.`;
}

/** Which condition failed how often. */
function misfitWords({ tries, failed }: Misfit): string {
  return `No numbers in ${tries} tries meet everything at once. Not met: ${failed.map(({ words, times }) => `${words}, ${times} times`).join('; ')}.`;
}

function resultsOf({ variant }: TeamDraw, symbols: readonly string[], plan: VariantPlan): readonly string[] {
  if (variant === undefined) return [];
  const context: WholeContext = { document: plan.document, states: variant.reckoned.states, system: unitSystemOf(plan.document), reveal: true };
  return symbols.map((symbol) => presentSymbol(symbol, context)).map((result) => (result === undefined || result.kind === 'problem' ? '' : result.text));
}

/** The key to the class: numbers and results of every team, for the instructor alone. */
export function classTable(drawn: DrawnClass): string {
  const { plan, teams, wanted, asked } = drawn;
  const symbols = [...new Set([...wanted, ...asked])];
  const head = ['team', 'names', 'variant', ...plan.varied.map(({ symbol }) => symbol), ...symbols, 'remark'];
  const rows = teams.map(({ listed, draw }) => {
    const numbers = draw.variant?.entries.map(({ text }) => text) ?? plan.varied.map(() => '');
    const results = draw.variant === undefined ? symbols.map(() => '') : resultsOf(draw, symbols, plan);
    return [listed.team, listed.names, variantText(draw.seed, draw.variant?.entries ?? []), ...numbers, ...results, saidOf(draw)];
  });
  return `\ufeff${[head, ...rows].map((fields) => writeOutgoing(fields, ',')).join('\r\n')}\r\n`;
}

/** Numbers that were drawn for one team, as the list shows them. */
interface ShownTeam {
  readonly team: string;
  readonly names: string;
  readonly variant: string;
  /** What stands in the blanks, and the results that are kept to; none where no numbers were found. */
  readonly cells: readonly string[];
  /** Why there are none, or what is odd about them. */
  readonly said: string;
}

/** A class's numbers, as the panel shows them. */
export interface ShownClass {
  readonly heads: readonly string[];
  readonly teams: readonly ShownTeam[];
}

/** What was drawn for the teams of a sheet, with the results to be told of each. */
export function classOf(document: SheetDocument, plan: VariantPlan, teams: DrawnClass['teams']): DrawnClass {
  const wanted = cellsOf(document, 'step').filter(({ symbol, wanted: bounds }) => bounds !== undefined && plan.middle.states.symbol(symbol) !== undefined).map(({ symbol }) => symbol);
  return { plan, teams, wanted, asked: plan.asked };
}
