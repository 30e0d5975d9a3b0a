import { GREEK_LETTERS } from '../../core/formula/index.ts';
import { escapeText, px } from './markup.ts';
import type { FigureValue, Run } from './types.ts';

const SUBSCRIPT_SIZE = 0.75;
/** Letters of a wall, px: there nothing is set smaller. */
const ON_A_WALL = 20;

/** Size of what is set smaller than letters of a size. */
export function finePrint(size: number, share = SUBSCRIPT_SIZE): number {
  return size < ON_A_WALL ? size * share : Math.max(size * share, ON_A_WALL);
}
const SUBSCRIPT_DROP = 0.22;

/** `sigma_a` as its letter and what stands below the line. */
function symbolParts(name: string): { letter: string; subscript: string } {
  const [base = '', ...rest] = name.split('_');
  return { letter: GREEK_LETTERS.get(base) ?? base, subscript: rest.map((part) => GREEK_LETTERS.get(part) ?? part).join(',') };
}

/** What a drawing's letters say of a symbol, the subscript behind a low line: two names that are drawn alike are one. */
export function drawnSymbol(name: string): string {
  const { letter, subscript } = symbolParts(name);
  return `${letter}_${subscript}`;
}

/** A symbol for the ear and for plain text: `R A`. */
export function spokenSymbol(name: string): string {
  return name.replaceAll('_', ' ');
}

/** `R_A = 99.8 N`, with both names where it has two, or the letter alone where the value is hidden or missing. */
export function equation(value: FigureValue): Run[] {
  return shownText(value) === '' ? nameRuns(value) : [...nameRuns(value), `\u00A0=\u00A0${shownText(value)}`];
}

/** `R_A`, or `l_1 = s_1` where the value is that of a given with another name. */
export function nameRuns({ symbol, names }: FigureValue): Run[] {
  return names === undefined ? [{ symbol }] : [{ symbol }, '\u00A0=\u00A0', { symbol: names }];
}

/** The value's text where it may be seen, with its unit kept on the same line. */
export function shownText(value: FigureValue): string {
  return value.hidden || value.si === undefined ? '' : value.text.replaceAll(' ', '\u00A0');
}

/** `99.8 N` for sentences, or the symbol where the value may not be seen or is missing. */
export function spoken(value: FigureValue): string {
  return value.hidden || value.si === undefined ? spokenSymbol(value.symbol) : value.text;
}

/**
 * Widths of characters in ems, roman and sans alike: measured from no font, on the safe side of common faces,
 * since the drawings are made without a browser.
 */
function characterWidth(character: string): number {
  if (/[\u00A0 .,;:'|!()[\]ijl·\u2009\u202F]/.test(character)) return 0.3;
  if (/[frtI/-]/.test(character)) return 0.4;
  if (/[mMW%@]/.test(character)) return 0.87;
  if (/[A-Z=+−±×<>w]/.test(character)) return 0.75;
  if (/[0-9]/.test(character)) return 0.505;
  return character > '\u2E80' ? 1.1 : 0.53;
}

/** Estimated width in px of the runs at a letter size. */
export function runsWidth(runs: readonly Run[], size: number): number {
  let ems = 0;
  for (const run of runs) {
    if (typeof run === 'string') for (const character of run) ems += characterWidth(character);
    else {
      const { letter, subscript } = symbolParts(run.symbol);
      for (const character of letter) ems += characterWidth(character) + 0.05;
      for (const character of subscript) ems += characterWidth(character) * (finePrint(size) / size);
    }
  }
  return ems * size;
}

interface Lettering {
  readonly x: number;
  /** The line that the letters stand on. */
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly size: number;
  readonly className: string;
}

/** A line of text: words upright, symbols in italics with upright subscripts below the line. */
export function lettering(runs: readonly Run[], at: Lettering): string {
  let raised = 0;
  const spans = runs.map((run) => {
    const back = raised === 0 ? '' : ` dy="${px(-raised)}"`;
    raised = 0;
    if (typeof run === 'string') return `<tspan${back}>${escapeText(run)}</tspan>`;
    const { letter, subscript } = symbolParts(run.symbol);
    const base = `<tspan class="symbol"${back}>${escapeText(letter)}</tspan>`;
    if (subscript === '') return base;
    raised = at.size * SUBSCRIPT_DROP;
    return `${base}<tspan class="subscript" dx="${px(at.size * 0.06)}" dy="${px(raised)}" font-size="${px(finePrint(at.size))}">`
      + `${escapeText(subscript)}</tspan>`;
  });
  return `<text class="${at.className}" x="${px(at.x)}" y="${px(at.y)}" text-anchor="${at.anchor}" font-size="${px(at.size)}">${spans.join('')}</text>`;
}

/** Breaks a note into lines no wider than `width`; only at spaces and between runs. */
export function wrap(runs: readonly Run[], width: number, size: number): Run[][] {
  const words = runs.flatMap((run): Run[] => (typeof run === 'string' ? run.split(/(?<= )/) : [run]));
  const lines: Run[][] = [[]];
  for (const word of words) {
    const current = lines.at(-1) ?? [];
    if (current.length === 0 || runsWidth([...current, word], size) <= width) current.push(word);
    else if (typeof word === 'string' && /^[,.;:]/.test(word) && current.length > 1) lines.push([...current.splice(-1), word]);
    else lines.push([word]);
  }
  return lines;
}
