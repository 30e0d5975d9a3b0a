import type { FigureCell } from '../sheet/types.ts';
import { figureBudget } from './present/budget-figure.ts';
import type { PresentContext, PresentedBudget, PresentedBudgetRow, PresentedComponent } from './present/types.ts';
import { texText } from './tex-text.ts';

/** Length of the bar of a whole variance, cm. */
const WHOLE = 2.5;

/** A figure's budget as LaTeX: its table with the shares drawn as rules, components below their input; '' for other figures. */
export function budgetTex(cell: FigureCell, context: PresentContext): string {
  const budget = figureBudget(cell, context);
  if (budget === undefined) return '';
  const longest = Math.max(1, ...budget.rows.map(({ parts }) => parts.own));
  const heads = ['input', 'value', 'u', 'type', 'sensitivity', 'contributes', 'share', ...(budget.isCorrelated ? ['by correlation'] : []), ''];
  const rows = budget.rows.flatMap((row) => [inputRow(row, longest), ...row.components.map((component) => componentRow(component, budget.isCorrelated))]);
  return [
    `\\paragraph{${texText(cell.label ?? 'Uncertainty budget')}}`,
    '\\begin{center}\\footnotesize',
    `\\begin{tabular}{llllllr${budget.isCorrelated ? 'r' : ''}l}`,
    '\\hline',
    `${heads.map((head) => `{${texText(head)}}`).join(' & ')} \\\\`,
    '\\hline',
    ...rows,
    '\\hline',
    '\\end{tabular}',
    '\\end{center}',
    texText(budget.total.sentence),
    ...sensitivities(budget),
    ...(budget.exact.length === 0 ? [] : [`Taken as exactly known: ${budget.exact.map((tex) => `$${tex}$`).join(', ')}.`]),
  ].join('\n');
}

/** Sensitivities as formulas where they are simple; below the table, which has no room for them. */
function sensitivities({ symbolTex, rows }: PresentedBudget): readonly string[] {
  const formulas = rows.flatMap(({ inputTex, sensitivityTex }) =>
    (sensitivityTex === undefined ? [] : [`$\\dfrac{\\partial ${symbolTex}}{\\partial ${inputTex}} = ${sensitivityTex}$`]));
  return formulas.length === 0 ? [] : ['', `{\\raggedright\\noindent Sensitivities as formulas: ${formulas.join(',\\quad\n')}.\\par}`, ''];
}

function inputRow(row: PresentedBudgetRow, longest: number): string {
  const { inputTex, value, uncertainty, type, distribution, degreesOfFreedom, sensitivity, contribution, share, covarianceShare, parts } = row;
  const kind = [type, ...(distribution === undefined ? [] : [distribution]), `ν = ${degreesOfFreedom}`].join(', ');
  const texts = [value, uncertainty, kind, sensitivity, contribution, share, ...(covarianceShare === undefined ? [] : [covarianceShare])];
  return `$${inputTex}$ & ${texts.map(texText).join(' & ')} & \\rule{${((WHOLE * parts.own) / longest).toFixed(2)}cm}{1.2ex} \\\\`;
}

function componentRow({ source, uncertainty, type, distribution, degreesOfFreedom, contribution, share }: PresentedComponent, isCorrelated: boolean): string {
  const kind = [type, distribution, `ν = ${degreesOfFreedom}`].join(', ');
  const cells = [`\\quad ${texText(source)}`, '', texText(uncertainty), texText(kind), '', texText(contribution), texText(share), ...(isCorrelated ? [''] : []), ''];
  return `${cells.join(' & ')} \\\\`;
}
