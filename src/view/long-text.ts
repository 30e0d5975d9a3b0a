/** Characters of one text that are set on the page unasked: the browser lays a text out whole, and ten million of them keep it busy for half a minute. */
const LONGEST_SHOWN = 50_000;

/** The part of a text that is set on the page unasked, up to the end of a line or else of a word, and how many characters follow. */
export function beginningOf(text: string): { readonly shown: string; readonly left: number } {
  if (text.length <= LONGEST_SHOWN) return { shown: text, left: 0 };
  const start = text.slice(0, LONGEST_SHOWN);
  // An end far from the limit would leave a heading alone of a long paragraph that follows it.
  const end = ['\n', ' '].map((sign) => start.lastIndexOf(sign)).find((at) => at > LONGEST_SHOWN / 2) ?? LONGEST_SHOWN;
  const shown = start.slice(0, end).replace(/[\ud800-\udbff]$/, '');
  return { shown, left: text.length - shown.length };
}
