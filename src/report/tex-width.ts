import { BREAKS } from './line-ends.ts';

/**
 * How wide an equation is at its widest place where no line can end, in em, told from its TeX: a little more rather than less. What cannot be measured
 * (a report is made without a page) is set smaller by it where it would run over the edge of the paper.
 */
export function widestPiece(tex: string): number {
  return 1.08 * new Reader(tex.replace(/\\phantom\{/g, '\\vphantom{')).row('').widest;
}

/** How wide an equation is on one line, em; rather more than less. */
export function texWidth(tex: string): number {
  return 1.08 * new Reader(tex.replace(/\\phantom\{/g, '\\vphantom{')).row('').whole;
}

/** Room of an equation on A4, which is narrower than Letter, em. */
const LINE_ON_PAPER = 45;

/** By how much an equation is set smaller on paper, as a style attribute; undefined where it fits. @param line room that it has, em */
export function fitOnPaper(tex: string, line = LINE_ON_PAPER): string | undefined {
  const widest = widestPiece(tex);
  return widest <= line ? undefined : `--fit: ${(line / widest).toFixed(2)}`;
}

/** Widths of what is written between relations and signs of an operation, where a line may end. */
interface Row {
  readonly whole: number;
  readonly widest: number;
}

const WIDTHS: Readonly<Record<string, number>> = {
  ',': 0.17, ';': 0.28, ':': 0.23, '!': -0.17, ' ': 0.25, quad: 1, qquad: 2, displaystyle: 0, textstyle: 0, sum: 1.6, log: 1.3, ln: 0.9, max: 1.9, min: 1.7, exp: 1.5, sin: 1.2, cos: 1.4,
};
const SMALL = 0.7;

class Reader {
  private at = 0;
  private readonly tokens: readonly string[];

  constructor(tex: string) {
    this.tokens = tex.match(/\\[a-zA-Z]+|\\[\s\S]|[\s\S]/gu) ?? [];
  }

  /** Up to the closing token, which is passed. */
  row(end: string): Row {
    let [whole, piece, widest] = [0, 0, 0];
    while (this.at < this.tokens.length) {
      const token = this.tokens[this.at++] ?? '';
      if (token === end) break;
      const isBreak = BREAKS.has(token);
      const width = isBreak ? 1.3 : this.width(token);
      whole += width;
      // A line goes on before a sign.
      piece = isBreak ? width : piece + width;
      widest = Math.max(widest, piece);
    }
    return { whole, widest };
  }

  private width(token: string): number {
    switch (token) {
      case '{': return this.row('}').whole;
      case '}': case '\\right': return 0;
      case '^': case '_': return SMALL * this.argument();
      case '\\frac': case '\\tfrac': case '\\dfrac': return Math.max(this.argument(), this.argument()) + 0.24;
      case '\\sqrt': return this.argument() + 1;
      case '\\left': this.at += 1; return this.bracketed();
      case '\\vphantom': this.argument(); return 0;
      case '\\begin': this.argument(); return this.table() + 1.2;
      case '\\mathrm': case '\\text': case '\\widehat': case '\\operatorname': case '\\overline': return this.argument();
      default: return this.letter(token);
    }
  }

  private letter(token: string): number {
    if (token === '&' || /\s/u.test(token)) return 0;
    if (!token.startsWith('\\')) return /[mwMW]/.test(token) ? 0.85 : /[.,;'|]/.test(token) ? 0.28 : 0.53;
    return WIDTHS[token.slice(1)] ?? 0.6;
  }

  private argument(): number {
    const token = this.tokens[this.at++] ?? '';
    return token === '{' ? this.row('}').whole : this.width(token);
  }

  /** Between brackets that grow, which hold no place to end a line. */
  private bracketed(): number {
    const { whole } = this.row('\\right');
    this.at += 1;
    return whole + 1.1;
  }

  /** Each column is as wide as the widest of its cells, whichever line that stands in. */
  private table(): number {
    const columns: number[] = [];
    let [column, cell] = [0, 0];
    while (this.at < this.tokens.length) {
      const token = this.tokens[this.at++] ?? '';
      const ends = token === '&' || token === '\\\\' || token === '\\end';
      if (!ends) {
        cell += BREAKS.has(token) ? 1.3 : this.width(token);
        continue;
      }
      columns[column] = Math.max(columns[column] ?? 0, cell);
      cell = 0;
      column = token === '&' ? column + 1 : 0;
      if (token === '\\end') break;
    }
    this.argument();
    return columns.reduce((sum, width) => sum + width, columns.length - 1);
  }
}
