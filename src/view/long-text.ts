/** Characters of one text that are set on the page unasked: the browser lays a text out whole, and ten million of them keep it busy for half a minute. */
const LONGEST_SHOWN = 50_000;

/** The part of a text that is set on the page unasked, up to the end of a line or else of a word, and how many characters follow. */
export function beginningOf(text: string): { readonly shown: string; readonly left: number } {
  if (text.length <= LONGEST_SHOWN) return { shown: text, left: 0 };
  const start = text.slice(0, LONGEST_SHOWN);
  const end = Math.max(start.lastIndexOf('\n'), 0) || Math.max(start.lastIndexOf(' '), 0) || LONGEST_SHOWN;
  return { shown: start.slice(0, end), left: text.length - end };
}
