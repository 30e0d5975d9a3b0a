import { checkSymbolName, symbolTex } from '../../core/formula/index.ts';

/** The symbol as TeX; a name that is none (the cell says so) stands upright as far as it can be set at all. */
export function symbolOf(name: string): string {
  const checked = checkSymbolName(name);
  if (checked.ok || checked.problem.code === 'symbol-reserved') return symbolTex(name);
  return `\\text{${name.slice(0, 40).replace(/[^A-Za-z0-9 .,:;()+-]/g, '?')}}`;
}
