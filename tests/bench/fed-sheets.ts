/** Sheets of many steps, invented, by which it is seen what an edit costs as a sheet grows. */

const head = '---\ntitle: Many steps\nunits: SI\n---\nAn invented sheet of many steps.\n\n';

function given(symbol: string): string {
  return `\`\`\`given\nsymbol: ${symbol}\nlabel: Length ${symbol}\nvalue: 10\nunit: mm\ninstrument: steel rule, 0.5 mm\n\`\`\`\n\n`;
}

/** Each step reads the one before it and the given itself, so that an edit of that reaches all of them. */
function chain(symbol: string, source: string, length: number): string {
  return Array.from({ length }, (_, i) =>
    `\`\`\`step\nsymbol: ${symbol}_${i}\nlabel: Length ${symbol} ${i}\nunit: mm\nformula: ${i === 0 ? `${source} * 1.5` : `${symbol}_${i - 1} * 0.9 + ${source} / 10`}\n\`\`\`\n\n`).join('');
}

/** `length` steps that all hang on the given `x`. */
export function fedSheet(length: number): string {
  return head + given('x') + chain('y', 'x', length);
}

/** Ten steps that hang on `x`, beside `unrelated` ones that hang on another given. */
export function besideSheet(unrelated: number): string {
  return head + given('x') + chain('y', 'x', 10) + (unrelated === 0 ? '' : unrelatedSteps(unrelated));
}

/** A given of its own with as many steps. */
export function unrelatedSteps(length: number): string {
  return given('z') + chain('w', 'z', length);
}
