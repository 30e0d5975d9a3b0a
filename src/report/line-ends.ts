/** Signs at which a line may end: relations, and operations outside brackets that stretch. */
export const BREAKS: ReadonlySet<string> = new Set(['=', '+', '-', '<', '>', '\\cdot', '\\le', '\\ge', '\\approx', '\\times', '\\pm', '\\neq']);

/** Behind these a sign belongs to what follows: `= -3`, `(-3)`. */
const OPENS = new Set(['(', '[', ',', ';', '&', '\\\\', '\\langle', '\\lvert', '']);
const ENTERS = new Set(['{', '\\left', '\\begin']);
const LEAVES = new Set(['}', '\\right', '\\end']);

/**
 * An equation that is too long for its line goes on before a sign, as it does on paper, and not behind it: KaTeX by itself ends lines behind relations and operations.
 * Within braces and brackets that stretch no line ends at all.
 */
export function breaksBeforeSigns(tex: string): string {
  let [text, depth, before] = ['', 0, ''];
  // The room of a symbol above keeps its sign behind it.
  let isAside = tex.startsWith('\\phantom');
  for (const token of tex.match(/\\[a-zA-Z]+|\\[\s\S]|\s+|[\s\S]/gu) ?? []) {
    const isSign = BREAKS.has(token) && depth === 0;
    const isBetween = isSign && !OPENS.has(before) && !BREAKS.has(before);
    text += `${isBetween && !isAside ? '\\allowbreak ' : ''}${token}${isSign ? '\\nobreak ' : ''}`;
    if (isBetween) isAside = false;
    if (ENTERS.has(token)) depth += 1;
    else if (LEAVES.has(token)) depth -= 1;
    if (!/^\s/u.test(token)) before = token;
  }
  return text;
}

/** What KaTeX notes as the source is the equation itself. */
export function withoutBreaks(markup: string): string {
  return markup.replace(/<annotation[\s\S]*?<\/annotation>/u, (source) => source.replace(/\\(?:allow|no)break /gu, ''));
}
