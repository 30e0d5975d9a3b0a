const EQUATION = '<span class="katex">';

/** In an attribute of this name an equation may say its TeX. */
export const TEX_ATTRIBUTE = 'data-tex';

/**
 * Equations as MathML alone, which browsers set well enough to read until the page's own script sets them: a fifth of
 * the size. `markup` is what `renderSheet` gives; everything but its equations stays as it is.
 * @param naming whether each says its TeX, by which the script finds it again
 */
export function plainEquations(markup: string, naming: 'named' | 'unnamed' = 'unnamed'): string {
  const [head = '', ...rest] = markup.split(EQUATION);
  return head + rest.map((text) => {
    const end = endOfSpan(text);
    const math = /<math[\s\S]*?<\/math>/.exec(text.slice(0, end))?.[0] ?? '';
    const tex = naming === 'named' ? /<annotation[^>]*>(?:\\displaystyle )?([\s\S]*?)<\/annotation>/.exec(math)?.[1] : undefined;
    return (tex === undefined ? bare(math) : bare(math).replace('<math', () => `<math ${TEX_ATTRIBUTE}="${tex.replaceAll('"', '&quot;')}"`)) + text.slice(end);
  }).join('');
}

/**
 * Without the source note and what says nothing more: the name space, which HTML knows, the style of a displayed equation as an element, and blanks without width.
 * Letters of one upright name (`mm`) stand together, as they are said; a name of several letters is upright by itself.
 */
function bare(math: string): string {
  return math
    .replace(/<annotation[\s\S]*?<\/annotation>/, '')
    .replace(/<\/?semantics>/g, '')
    .replaceAll('<mspace></mspace>', '')
    .replace(/<mrow>((?:<mi mathvariant="normal">[A-Za-z]<\/mi>){2,})<\/mrow>/g, (_, letters: string) => `<mi>${letters.replace(/<[^>]*>/g, '')}</mi>`)
    .replace(/^<math\b[^>]*><mrow><mstyle scriptlevel="0" displaystyle="true">([\s\S]*)<\/mstyle><\/mrow><\/math>$/, '<math displaystyle="true">$1</math>')
    .replace(/^<math xmlns="[^"]*"/, '<math');
}

/** Place after the end tag of the span in which `text` begins. */
function endOfSpan(text: string): number {
  let depth = 1;
  for (const tag of text.matchAll(/<(\/?)span\b[^>]*>/g)) {
    depth += tag[1] === '' ? 1 : -1;
    if (depth === 0) return tag.index + tag[0].length;
  }
  return text.length;
}
