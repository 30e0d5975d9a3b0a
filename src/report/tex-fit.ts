import type { FitCell } from '../sheet/types.ts';
import { presentFindings } from './present/findings.ts';
import { presentFit } from './present/fit.ts';
import { presentBeside } from './present/models-beside.ts';
import type { PresentContext, PresentedHead, PresentedSmallTable } from './present/types.ts';
import { texText } from './tex-text.ts';

/** One fit as LaTeX: a line with its parameters, or what is found besides a line; '' where there is nothing to be said. */
export function fitTex(cell: FitCell, context: PresentContext): string {
  const { label, lines } = cell.finds === 'line' ? lineOf(cell, context) : findingsOf(cell, context);
  const said = lines.filter((line) => line !== '');
  if (said.length === 0) return '';
  return [label === '' ? '' : `\\paragraph{${texText(label)}}`, ...said].filter((line) => line !== '').join('\n');
}

interface Said {
  readonly label: string;
  readonly lines: readonly string[];
}

function lineOf(cell: FitCell, context: PresentContext): Said {
  const fit = presentFit(cell, context);
  if (fit.lineTex === undefined || fit.numbersTex === undefined) return { label: fit.label, lines: [] };
  const equations = [fit.lineTex.replace('= ', '&= '), `&${fit.numbersTex.slice(fit.numbersTex.indexOf('= '))}`];
  const parameters: PresentedSmallTable = {
    caption: '',
    heads: ['Parameter', 'Value', 'Standard error', 'Lower limit', 'Upper limit'].map((text) => ({ text })),
    rows: fit.parameters.map(({ symbolTex, value, standardError, low, high }) => ({ head: { tex: symbolTex }, cells: [value, standardError, low, high] })),
    note: fit.limits,
  };
  return {
    label: fit.label,
    lines: [
      texText(fit.method),
      `\\begin{equation*}\\begin{aligned}\n${equations.join(' \\\\\n')}\n\\end{aligned}\\end{equation*}`,
      tableTex(parameters),
      texText(fit.counts),
      factsTex(fit.facts),
      ...presentBeside(cell, context).map(tableTex),
    ],
  };
}

function findingsOf(cell: FitCell, context: PresentContext): Said {
  const { label, sentences, tables, facts } = presentFindings(cell, context);
  const [first = '', ...others] = sentences;
  return { label, lines: [texText(first), ...tables.map(tableTex), ...others.map(texText), factsTex(facts)] };
}

/** Ruled over and under the head and at the end, as on the page. */
function tableTex({ caption, heads, rows, note }: PresentedSmallTable): string {
  const row = (cells: readonly string[]): string => `${cells.join(' & ')} \\\\`;
  return [
    '\\begin{center}',
    ...(caption === '' ? [] : [`${texText(caption)}\\par\\smallskip`]),
    `\\begin{tabular}{l${'r'.repeat(Math.max(0, heads.length - 1))}}`,
    '\\hline',
    row(heads.map(headTex)),
    '\\hline',
    ...rows.map(({ head, cells }) => row([headTex(head), ...cells.map(texText)])),
    '\\hline',
    '\\end{tabular}',
    '\\end{center}',
    ...(note === undefined || note === '' ? [] : [texText(note)]),
  ].join('\n');
}

function headTex(head: PresentedHead): string {
  // In braces: a bracket after the end of the row before would be read as its distance.
  return 'tex' in head ? `$${head.tex}$` : `{${texText(head.text)}}`;
}

function factsTex(facts: readonly { readonly name: string; readonly text: string }[]): string {
  if (facts.length === 0) return '';
  const items = facts.map(({ name, text }) => `\\item[{${texText(name)}}] ${texText(text)}`);
  return ['\\begin{description}', ...items, '\\end{description}'].join('\n');
}
