import { composed } from '../core/problem/index.ts';
import { variantText, type Misfit, type TeamDraw, type VariantPlan } from '../graph/index.ts';
import { presentSymbol, unitSystemOf, type WholeContext } from '../report/index.ts';
import { cellsOf, forTeam, writeOutgoing, type ListedTeam } from '../sheet/index.ts';
import { fileName } from '../view/index.ts';
import type { OwnParts } from './page-parts.ts';
import { freshSheetId } from './shelf-store.ts';
import { workingFileOf } from './take-away.ts';
import type { ShownClass, ShownTeam } from './teams-types.ts';
import { titleOf } from './sheet-title.ts';

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
      ...listed, variant: variantText(draw.seed), said: saidOf(draw),
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
    return [listed.team, listed.names, variantText(draw.seed), ...numbers, ...results, saidOf(draw)];
  });
  return `\ufeff${[head, ...rows].map((fields) => writeOutgoing(fields, ',')).join('\r\n')}\r\n`;
}

/** The working file of each team that has numbers, one after the other as it is asked for. @param before is told of each before it is made */
export async function* teamFiles({ plan, teams }: DrawnClass, own: OwnParts, at: Date, before: (done: number) => Promise<void>) {
  for (const [i, { listed, draw }] of teams.entries()) {
    await before(i);
    if (draw.variant === undefined) continue;
    const variant = variantText(draw.seed);
    const document = forTeam(plan.document, { ...listed, variant, entries: draw.variant.entries });
    if (!document.ok) throw new Error(`the numbers of ${variant} do not go into the sheet: ${document.problem.what}`);
    yield { name: fileName([listed.team, variant, titleOf(document.value)], 'html'), content: await workingFileOf(document.value, draw.variant.reckoned, { own, sheetId: freshSheetId(), at }) };
  }
}

/** Symbols of the results that a sheet keeps to. */
export function wantedResults(plan: VariantPlan, sheet: Parameters<typeof cellsOf>[0]): readonly string[] {
  return cellsOf(sheet, 'step').filter(({ symbol, wanted }) => wanted !== undefined && plan.middle.states.symbol(symbol) !== undefined).map(({ symbol }) => symbol);
}
