/**
 * How symbols look. Heads: a letter slopes, a Greek name is its letter, a longer word stands upright. Subscripts follow
 * ISO 80000-1: what describes stands upright (sigma_a, S_ut, s_1c), what is itself a quantity or a point of the drawing
 * slopes; among the trade's symbols those are the single capitals (R_A, k_F, l_L) and Greek letters.
 * @source ISO 80000-1:2009, 7.1.2 (subscripts) - the rule from memory, the choice of single capitals our own
 */
import { isSymbolName } from './symbol-name.ts';

const LOWER = [
  'alpha', 'beta', 'gamma', 'delta', 'zeta', 'eta', 'theta', 'iota', 'kappa', 'lambda', 'mu', 'nu', 'xi', 'omicron', 'pi',
  'rho', 'sigma', 'tau', 'upsilon', 'chi', 'psi', 'omega',
];
const UPPER = ['Gamma', 'Delta', 'Theta', 'Lambda', 'Xi', 'Pi', 'Sigma', 'Upsilon', 'Phi', 'Psi', 'Omega'];

/** TeX of each Greek letter by its name; capitals that look Latin are Latin. Mechanics writes strain with the open epsilon. */
const GREEK: ReadonlyMap<string, string> = new Map([
  ...[...LOWER, ...UPPER].map((name) => [name, `\\${name}`] as const),
  ['epsilon', '\\varepsilon'], ['phi', '\\varphi'],
  ['Alpha', '\\mathrm{A}'], ['Beta', '\\mathrm{B}'], ['Epsilon', '\\mathrm{E}'], ['Zeta', '\\mathrm{Z}'], ['Eta', '\\mathrm{H}'],
  ['Iota', '\\mathrm{I}'], ['Kappa', '\\mathrm{K}'], ['Mu', '\\mathrm{M}'], ['Nu', '\\mathrm{N}'], ['Omicron', '\\mathrm{O}'],
  ['Rho', '\\mathrm{P}'], ['Tau', '\\mathrm{T}'], ['Chi', '\\mathrm{X}'],
]);

/** The symbol as TeX: `sigma_a` gives `\sigma_{\mathrm{a}}`. Only names of the symbol's form may come here. */
export function symbolTex(name: string): string {
  if (!isSymbolName(name)) throw new Error('Only a checked symbol name can be typeset.');
  const [head = '', ...subscripts] = name.split('_');
  if (subscripts.length === 0) return headTex(head);
  const below = subscripts.map(subscriptTex).join(',');
  return `${headTex(head)}_${/^[A-Za-z0-9]$/.test(below) ? below : `{${below}}`}`;
}

function headTex(head: string): string {
  return GREEK.get(head) ?? (head.length === 1 ? head : `\\mathrm{${head}}`);
}

function subscriptTex(part: string): string {
  const greek = GREEK.get(part);
  if (greek !== undefined) return greek;
  if (/^[A-Z]$/.test(part)) return part;
  return part.replaceAll(/[A-Za-z]+/g, (letters) => `\\mathrm{${letters}}`);
}
