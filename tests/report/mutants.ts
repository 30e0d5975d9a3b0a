/** Sheets with one text made extreme, wrong or odd, and everything that is said of them: nothing of it may throw or be no number. */
import { isPair, isScalar, parseDocument, visit, type Scalar } from 'yaml';
import { createSheetGraph, type CellState } from '../../src/graph/index.ts';
import {
  chiefResults, openItems, presentAttention, presentElasticities, presentHeldTable, presentSlipEffects, presentTitleBlock, presentWatch, renderSheet, sheetTex, unitSystemOf,
  type WholeContext,
} from '../../src/report/index.ts';
import { parseSheet, type CellBlock, type SheetDocument } from '../../src/sheet/index.ts';
import { fitEntries, valueEntries } from '../../src/solve/entries.ts';
import { errorEntries, findingsEntries, leftOutEntries, warningEntries } from '../../src/solve/told.ts';
import { SHIPPED, shipped } from '../shipped.ts';

export const SHEETS: readonly string[] = SHIPPED.map((name) => shipped(name));

/** What a person may type, and what only a test types. */
export const VALUES = [
  '0', '-1', '1e308', '-1e308', '1e-308', '1e-320', '5e-324', '1e155', '1e-155', '5 ± 1e308', '5 ± 1e-320', '1e300 ± 1e300', '0 ± 1', '0.0', '-0', '1e999', 'NaN', 'Infinity',
  '1e308 mm', '1e-320 mm', '1e200 N', '1e155 m', '5 ± 1e308 N', '5 mm ± 1e200 mm', '0 mm', '-3 mm', '1e308, 1e308, 1e308', '1e308, -1e308', '0, 0, 0', '1e-320, 2e-320', '7', '7 kg', '7 m^40',
  '7 m^0.001', '100 %', '20 °C', '1/0', '2^1023', '2^1024', '1e16 rev/min', '1e308 rev', '(5', '', ' ', '1'.repeat(400), `0.${'0'.repeat(400)}1`, '1,5', '1.234.567', '0x10', '\u202e7 mm', '7\u200b mm',
] as const;

/** Formulas that have no unit, no end, no value or no reading. */
export const FORMULAS = [
  'pi*d^40/64', 'd^0.001', 'd^400', '(d^40)^40', 'F^9*d^9', 'exp(1000)', 'exp(-1000)', 'sqrt(-1)', 'log10(0)', '1/0', '0/0', '10^400', '1e308*10', '1e308*d*1e308', 'd-d', 'd/(d-d)', 'F*0', '-F',
  'max(d, 1e308*d)', 'sin(1e300)', 'd^d', 'd^(1/3)', '(', 'd+', 'nothing', '1e-320*d', '5e-324', 'unit(m^90)*2', '2*unit(kg^0.5)', 'N_f*1e300', 'sigma_a^30', 'sigma_a/1e300', '1/(F-F)', 'tan(pi/2)',
] as const;

/** One change: which cell, which of its texts, and what stands there instead. */
export interface Change {
  readonly cell: number;
  readonly place: number;
  readonly text: string;
  readonly formula: string;
}

/** The text of a sheet with scalars of its cells, formulas among them, replaced: numbers more often than words. */
export function mutate(source: string, changes: readonly Change[]): string {
  return changes.reduce(changeOne, source);
}

function changeOne(source: string, { cell, place, text, formula }: Change): string {
  const cells = parseSheet(source).blocks.filter((block): block is CellBlock => block.kind === 'cell');
  const target = cells[cell % Math.max(1, cells.length)];
  if (target === undefined) return source;
  const body = parseDocument(target.body);
  if (body.errors.length > 0) return source;
  const scalars: { readonly scalar: Scalar; readonly isFormula: boolean }[] = [];
  visit(body, {
    Scalar: (key, scalar, path) => {
      if (key === 'key') return;
      const pair = path.at(-1);
      scalars.push({ scalar, isFormula: isPair(pair) && isScalar(pair.key) && pair.key.value === 'formula' });
    },
  });
  const numbers = scalars.filter(({ scalar, isFormula }) => isFormula || /^[-+\d.]/.test(String(scalar.value)));
  const among = place % 4 > 0 && numbers.length > 0 ? numbers : scalars;
  const chosen = among[place % Math.max(1, among.length)];
  if (chosen === undefined) return source;
  chosen.scalar.value = chosen.isFormula ? formula : text;
  return source.replace(target.body, () => `${String(body).trimEnd()}\n`);
}

/** A sheet of a few cells, so that very many can be tried: `values` for its givens, `formulas` for its steps. */
export function smallSheet(values: readonly string[], formulas: readonly string[]): string {
  const quote = (text: string): string => JSON.stringify(text);
  const given = (symbol: string, unit: string, text: string): string =>
    `\`\`\`given\nsymbol: ${symbol}\nlabel: ${symbol}\nunit: ${unit}\npossible: any\nvalue: ${quote(text)}\n\`\`\`\n`;
  const step = (symbol: string, formula: string, spread = ''): string => `\`\`\`step\nsymbol: ${symbol}\nlabel: ${symbol}\n${spread}formula: ${quote(formula)}\n\`\`\`\n`;
  const [d = '7 mm', F = '310 N', sigma = '250 MPa'] = values;
  const [first = 'd^2', second = 'F/d'] = formulas;
  return ['---\ntitle: Small\nunits: SI\n---\n', given('d', 'mm', d), given('F', 'N', F), given('sigma_a', 'MPa', sigma), step('N_f', first), step('y', second), step('z', 'y*N_f'), step('life', second, 'spread: factor\n'),
    '```check\nid: c\nlabel: Check\ncondition: z > 0\nholds: it holds, z = {= z}\notherwise: it does not, {= y}\n```\n'].join('\n');
}

/** What went wrong in saying all that is said of a sheet, with the place it was thrown at; empty where all went well. */
export async function faultsIn(text: string): Promise<readonly string[]> {
  const faults: string[] = [];
  const attempt = <T>(what: string, work: () => T): T | undefined => {
    try {
      return work();
    } catch (error) {
      const { message, stack } = error instanceof Error ? error : new Error(String(error));
      faults.push(`${what}: ${message} ${/at (\S+ )?\(?\S*?((?:src|node_modules)\/\S+?)\)?$/m.exec(stack ?? '')?.[0] ?? ''}`);
      return undefined;
    }
  };
  const document = attempt('parse', () => parseSheet(text));
  const graph = document && attempt('graph', () => createSheetGraph(document));
  if (document === undefined || graph === undefined) return faults;
  const states = await graph.settled();
  graph.dispose();
  faults.push(...faultCells(document, (id) => states.cell(id)));
  const context: WholeContext = { document, states, system: unitSystemOf(document), reveal: true };
  const said: unknown[] = [
    attempt('report', () => renderSheet(context)), attempt('report in the other system', () => renderSheet({ ...context, system: context.system === 'SI' ? 'US customary' : 'SI' })),
    attempt('LaTeX', () => sheetTex(context)), attempt('values', () => valueEntries(context, () => ({}))), attempt('fits', () => fitEntries(document, states)),
    attempt('errors', () => errorEntries(context)), attempt('warnings', () => warningEntries(context)), attempt('left out', () => leftOutEntries(context)), attempt('findings', () => findingsEntries(context)),
    attempt('watch', () => presentWatch(context)), attempt('attention', () => presentAttention(context)), attempt('open items', () => openItems(document)), attempt('title', () => presentTitleBlock(document)),
    attempt('chief results', () => chiefResults(document, states, 8)), attempt('slips', () => presentSlipEffects(context)), attempt('held', () => presentHeldTable(context)),
    attempt('elasticities', () => states.symbols.slice(0, 3).map((symbol) => presentElasticities(symbol, context))),
  ];
  const words = JSON.stringify(said);
  // A word that was typed may stand in the sheet, as a name for instance.
  const leak = text.includes('NaN') || text.includes('Infinity') ? undefined : /\b(?:NaN|Infinity|undefined)\b|\[object /.exec(words);
  return leak === undefined || leak === null ? faults : [...faults, `says: ${words.slice(Math.max(0, leak.index - 60), leak.index + 50)}`];
}

function faultCells({ blocks }: SheetDocument, stateOf: (id: string) => CellState | undefined): readonly string[] {
  return blocks.flatMap(({ id }) => (stateOf(id)?.problems ?? []).flatMap(({ code, what }) => (code === 'fault' ? [`fault at ${id}: ${what}`] : [])));
}
