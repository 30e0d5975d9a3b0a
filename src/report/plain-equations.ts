const EQUATION = '<span class="katex">';

/**
 * Equations as MathML alone, which browsers set well enough to read until the page's own script sets them: a fifth of
 * the size. `markup` is what `renderReport` gives; everything but its equations stays as it is.
 */
export function plainEquations(markup: string): string {
  const [head = '', ...rest] = markup.split(EQUATION);
  return head + rest.map((text) => {
    const end = endOfSpan(text);
    const math = /<math[\s\S]*?<\/math>/.exec(text.slice(0, end))?.[0] ?? '';
    return math.replace(/<annotation[\s\S]*?<\/annotation>/, '') + text.slice(end);
  }).join('');
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
