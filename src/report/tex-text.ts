import { symbolTex, withSymbols } from '../core/formula/index.ts';

const TEX_SIGNS: Readonly<Record<string, string>> = {
  '\\': '\\textbackslash{}', '{': '\\{', '}': '\\}', '$': '\\$', '&': '\\&', '#': '\\#', '%': '\\%', '_': '\\_',
  '^': '\\textasciicircum{}', '~': '\\textasciitilde{}', '<': '$<$', '>': '$>$', '|': '$|$', '"': "''",
  '±': '$\\pm$', '·': '$\\cdot$', '×': '$\\times$', '÷': '$\\div$', '−': '$-$', '°': '${}^{\\circ}$', 'µ': '$\\mu$',
  '≤': '$\\le$', '≥': '$\\ge$', '⟨': '$\\langle$', '⟩': '$\\rangle$', '∞': '$\\infty$', '\u00a0': '~', '\u202f': '\\,',
  '\u2009': '\\,', '–': '--', '—': '---', '‘': '`', '’': "'", '“': '``', '”': "''", '…': '\\dots{}',
  'α': '$\\alpha$', 'β': '$\\beta$', 'δ': '$\\delta$', 'ε': '$\\varepsilon$', 'σ': '$\\sigma$', 'τ': '$\\tau$',
  'π': '$\\pi$', 'ρ': '$\\rho$', 'ν': '$\\nu$', 'Δ': '$\\Delta$', 'μ': '$\\mu$', 'χ': '$\\chi$',
};
const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const LOWERED = '₀₁₂₃₄₅₆₇₈₉';

/** Plain text such that LaTeX prints it and reads no command from it; symbols are set as the equations set them, and a sign that its usual fonts lack becomes `?`. */
export function texText(text: string): string {
  return withSymbols(text).map((piece) => (typeof piece === 'string' ? signsTex(piece) : `$${symbolTex(piece.name)}$`)).join('');
}

function signsTex(text: string): string {
  return [...text].map((sign) => {
    const known = Object.hasOwn(TEX_SIGNS, sign) ? TEX_SIGNS[sign] : undefined;
    if (known !== undefined) return known;
    if (sign === '⁻') return '${}^{-}$';
    const raised = RAISED.indexOf(sign);
    if (raised >= 0) return `\${}^{${raised}}$`;
    const lowered = LOWERED.indexOf(sign);
    if (lowered >= 0) return `\${}_{${lowered}}$`;
    if (/\s/.test(sign)) return ' ';
    return /[\u0020-\u007e\u00c0-\u017f]/.test(sign) ? sign : '?';
  }).join('');
}
