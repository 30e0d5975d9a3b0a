import { equation, symbolOf, typesetter } from '../report/index.ts';
import { fragmentOf } from './markup.ts';

const letters = new Map<string, string>();

/** The letters a symbol is set in, as text: `RA` for R_A. */
function lettersOf(symbol: string): string {
  let text = letters.get(symbol);
  if (text === undefined) {
    text = plain(fragmentOf(equation(symbolOf(symbol))).querySelector('.katex-html')?.textContent ?? '');
    letters.set(symbol, text);
  }
  return text;
}

/** KaTeX sets zero-width spaces beside subscripts. */
function plain(text: string): string {
  return text.replace(/[\u200b\s]/g, '');
}

/** Which of the symbols of a typeset line was pressed; none before anything can be set, since its letters are told by what sets them. */
export function pressedSymbol(target: Element, line: Element, symbols: readonly string[]): string | undefined {
  if (!typesetter.isThere()) return undefined;
  for (let element: Element | null = target; element !== null && element !== line; element = element.parentElement) {
    if (!element.classList.contains('mord') || element.classList.contains('mtight')) continue;
    const text = plain(element.textContent);
    const symbol = symbols.find((one) => lettersOf(one) === text);
    if (symbol !== undefined) return symbol;
  }
  return undefined;
}
