import { formOf } from './forms.ts';
import { isTouchedBySlips, SLIP_MARK, slipSentence } from './present/slips.ts';
import { trialSentence } from './present/trials.ts';
import { presentTitleBlock } from './present/title-block.ts';
import type { PresentContext } from './present/types.ts';
import { texText } from './tex-text.ts';

/**
 * The sheet's equations as a LaTeX document that compiles as it is: for each step the symbols, the numbers put in and
 * the result with its uncertainty; for each fit its line, its tables and what is said of them; budgets as tables with their bars. What is hidden in the sheet
 * stays out.
 */
export function sheetTex(context: PresentContext): string {
  const cells = context.document.blocks.flatMap((block) => {
    if (block.kind !== 'cell') return [];
    const form = formOf(block.cell);
    const tex = form.tex?.(block.cell, context);
    if (tex === undefined) return [];
    return tex !== '' && form.marksSlips !== true && isTouchedBySlips(block.id, context) ? [`\\noindent\\textbf{${SLIP_MARK}}\n${tex}`] : [tex];
  });
  const warnings = [trialSentence(context), slipSentence(context)].filter((sentence) => sentence !== undefined);
  return [
    '\\documentclass{article}',
    '\\usepackage[utf8]{inputenc}',
    '\\usepackage[T1]{fontenc}',
    '\\usepackage{amsmath,amssymb}',
    '\\begin{document}',
    `\\section*{${texText(presentTitleBlock(context.document).title)}}`,
    ...warnings.map((sentence) => `\\noindent\\fbox{\\parbox{0.95\\linewidth}{\\textbf{${texText(sentence)}}}}`),
    ...cells,
    '\\end{document}',
    '',
  ].join('\n');
}
