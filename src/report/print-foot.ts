import { presentTitleBlock } from './present/title-block.ts';
import type { SheetDocument } from '../sheet/types.ts';

/** Signs of the foot beyond these would run into the page's number. */
const LONGEST_FOOT = 110;

/**
 * A style rule for the foot of every printed page: what the sheet is, whose and of when, beside the number that `print.css` gives each page. Browsers that
 * print no boxes in a page's margin pass it over.
 * @param more what else stands there: the fingerprint
 */
export function printFoot(document: SheetDocument, more?: string): string {
  const { title, fields } = presentTitleBlock(document);
  const named = (key: string): string => fields.find((field) => field.key === key)?.value.trim() ?? '';
  const words = [title, named('team'), named('date'), more ?? ''].filter((part) => part !== '').join(' · ').replace(/\s+/gu, ' ');
  const shown = [...words];
  return `@page { @bottom-left { content: ${cssString(shown.length > LONGEST_FOOT ? `${shown.slice(0, LONGEST_FOOT - 1).join('')}…` : words)} } }`;
}

/** Whatever the text holds, it stays one string: all but plain letters and digits is written as a code point (CSS Syntax 3, 4.3.7). */
function cssString(text: string): string {
  const escaped = [...text.replace(/\p{Surrogate}/gu, '\ufffd').replaceAll('\u0000', '\ufffd')].map((sign) => (/[A-Za-z0-9 ]/.test(sign) ? sign : `\\${(sign.codePointAt(0) ?? 0).toString(16)} `));
  return `"${escaped.join('')}"`;
}
