import { symbolInWords } from '../../core/formula/index.ts';
import { isolated } from '../../core/problem/index.ts';
import { isSymbolHidden, withheldWords } from './hidden.ts';
import { presentSymbol } from './result.ts';
import { isMovedBySlips, SLIP_MARK } from './slips.ts';
import type { PresentContext } from './types.ts';

/** `{=sigma_a}` in prose, notes and the sentences of checks. */
const LIVE_VALUE = /\{=([^{}\n]{1,80})\}/g;
/** The same at the place where a reader of prose stands. */
export const LIVE_VALUE_HERE = new RegExp(LIVE_VALUE.source, 'y');

interface LivePart {
  /** `missing`: a mark that says which symbol has no value, and why. */
  readonly kind: 'text' | 'value' | 'hidden' | 'missing';
  readonly text: string;
  readonly symbol?: string;
}

interface LiveOptions {
  /** With `± u` behind the value. */
  readonly uncertainty?: boolean;
  /** Behind a colon words in place of a number stand as they are; elsewhere in brackets, since they break the sentence. */
  readonly isAfterColon?: boolean;
}

/** What stands in the place of one live value. */
export function liveValue(symbol: string, context: PresentContext, options: LiveOptions = {}): LivePart {
  const result = presentSymbol(symbol, context);
  if (result === undefined) return { kind: 'missing', symbol, text: `⟨${symbol}: not on this sheet⟩` };
  if (isSymbolHidden(symbol, context)) return { kind: 'hidden', symbol, text: `⟨${symbol}: ${withheldWords(context.states.definedBy(symbol) ?? '', context)}⟩` };
  const mark = isMovedBySlips(symbol, context) ? `\u00a0${SLIP_MARK}` : '';
  switch (result.kind) {
    case 'problem':
      return { kind: 'missing', symbol, text: `⟨${symbol}: no value yet⟩` };
    case 'range':
      if (result.word === 'open') return { kind: 'missing', symbol, text: `⟨${symbolInWords(symbol)}: open⟩` };
      return { kind: 'value', symbol, text: (options.isAfterColon === true ? result.text : `(${result.text})`) + mark };
    case 'value': {
      const plain = result.unit === '' ? result.number : `${result.number}\u00a0${result.unit}`;
      return { kind: 'value', symbol, text: (options.uncertainty === true ? result.text : plain) + mark };
    }
  }
}

/** Whether what stands at a place of a text answers to a colon. */
export function isAfterColon(text: string, at: number): boolean {
  return /:\s$/u.test(text.slice(Math.max(0, at - 2), at));
}

/** A text cut at its live values, each put in. */
function liveParts(text: string, context: PresentContext, options: LiveOptions = {}): readonly LivePart[] {
  const parts: LivePart[] = [];
  let from = 0;
  for (const match of text.matchAll(LIVE_VALUE)) {
    if (match.index > from) parts.push({ kind: 'text', text: text.slice(from, match.index) });
    parts.push(liveValue(match[1] ?? '', context, { ...options, isAfterColon: isAfterColon(text, match.index) }));
    from = match.index + match[0].length;
  }
  if (from < text.length) parts.push({ kind: 'text', text: text.slice(from) });
  return parts;
}

/** A text with its live values put in, which its words do not turn; one that has none says so in its place, by name. */
export function liveText(text: string, context: PresentContext, options: LiveOptions = {}): string {
  const parts = liveParts(text, context, options);
  return parts.length === 1 ? (parts[0]?.text ?? '') : parts.map((part) => isolated(part.text)).join('');
}
