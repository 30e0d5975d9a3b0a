import type { UnitSystem } from '../../src/core/units/index.ts';
import { presentFindings, type PresentContext, type PresentedFindings } from '../../src/report/index.ts';
import { serialiseSheet } from '../../src/sheet/index.ts';
import { tableSheet } from '../sheet/table-texts.ts';
import censored from '../tables/censored-regression.json' with { type: 'json' };
import regression from '../tables/sn-regression.json' with { type: 'json' };
import { cellOf, contextOf, fenced } from './sheet-at.ts';

const HEADER = 'specimen,group,S,N,outcome';
const LINE = ['id: line', 'table: specimens', 'symbols:', '  A: A', '  B: B'];

/** Rows of the standard's worked example of strain lives; its half plastic strain range stands for the stress. */
export const EXAMPLE_ROWS = regression.data['e739-example'].rows.map(([x = 0, n = 0], i) => `E${i + 1},,${x},${n},fracture`);

/** Rows of an invented set with runouts; every second one is of the group `odd`. */
export const INVENTED_ROWS = censored.data['invented-runouts-a'].rows.map(([stress = 0, cycles = 0, failed = 0], i) =>
  `I${i + 1},${i % 2 === 0 ? 'even' : 'odd'},${stress},${cycles},${failed === 1 ? 'fracture' : 'runout'}`);

export const LIMITS = ['id: limits', 'finds: limits', 'of: line', 'asks:'];
export const GROUPS = ['id: groups', 'finds: comparison', 'table: specimens'];

/** A sheet with a table of specimens, the line through them, and whatever follows. */
export function sheetWith(rows: readonly string[], line: readonly string[], ...more: readonly string[]): string {
  return `${serialiseSheet(tableSheet([HEADER, ...rows].join('\n')))}\n${fenced('fit', ...LINE, ...line)}\n${more.join('\n')}`;
}

export async function found(text: string, id: string, system: UnitSystem = 'SI'): Promise<PresentedFindings & { readonly context: PresentContext }> {
  const context = await contextOf(text, system);
  return { ...presentFindings(cellOf(context, 'fit', id), context), context };
}

/** Cells of the row whose head begins so, in the n-th small table. */
export function row({ tables }: Pick<PresentedFindings, 'tables'>, table: number, head: string): readonly string[] {
  const rows = tables[table]?.rows ?? [];
  const named = rows.find((one) => ('text' in one.head ? one.head.text : one.head.tex).startsWith(head));
  if (named === undefined) throw new Error(`no row ${head} in table ${table}: ${JSON.stringify(rows.map((one) => one.head))}`);
  return named.cells;
}

/** A number as it is shown. */
export function shown(text: string | undefined): number {
  const [, digits = 'none', power = '0'] = /^([-−]?[\d.\u202f]+)(?:·10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?$/.exec(text ?? '') ?? [];
  const exponent = [...power].map((sign) => ('⁰¹²³⁴⁵⁶⁷⁸⁹'.includes(sign) ? String('⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(sign)) : sign === '⁻' ? '-' : sign)).join('');
  return Number(`${digits.replace('−', '-').replaceAll('\u202f', '')}e${exponent}`);
}
