/** Sheets whose every word tries to turn what stands beside it. */
import { isPair, isScalar, parseDocument, visit } from 'yaml';
import { HOSTILE } from './directions.ts';

/** Keys under which a sheet holds words for people. */
const WORDS = new Set([
  'label', 'note', 'source', 'missing', 'holds', 'otherwise', 'heading', 'text', 'items', 'why', 'machine', 'title', 'course', 'team', 'operators', 'specimen', 'batch',
]);

/**
 * The sheet with each of its words in another of the hostile texts: no Latin letter or digit in it is the document's any more, but for
 * symbols, units, keys and formulas. Live values stay where they were.
 */
export function hostileSheet(source: string): string {
  let count = 0;
  const words = (): string => HOSTILE[count++ % HOSTILE.length] ?? '';
  const hostile = (text: string): string => `${words()}${(text.match(/\{=[^{}]+\}/g) ?? []).map((live) => `${live} ${words()}`).join('')}`;
  const body = (text: string): string => {
    const document = parseDocument(text);
    visit(document, {
      Scalar: (key, scalar, path) => {
        const pair = path.findLast(isPair);
        if (key === 'key' || !isPair(pair) || !isScalar(pair.key) || !WORDS.has(String(pair.key.value)) || typeof scalar.value !== 'string') return;
        scalar.value = hostile(scalar.value);
        scalar.type = 'QUOTE_DOUBLE';
      },
    });
    // Written as escapes, since a line end among them would end the value.
    return String(document).replace(/[\u0085\u2028\u2029\u001c-\u001e]/g, (sign) => `\\u${(sign.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`);
  };
  const pieces = source.split(/(^---\n[^]*?\n---\n|^```[a-z-]+\n[^]*?^```\n)/m);
  return pieces.map((piece, i) => {
    if (i % 2 === 1) {
      const [first = '', ...rest] = piece.trimEnd().split('\n');
      return `${first}\n${body(rest.slice(0, -1).join('\n')).trimEnd()}\n${rest.at(-1) ?? ''}\n`;
    }
    return piece.split('\n').map((line) => (line.trim() === '' ? line : `${/^#+ /.exec(line)?.[0] ?? ''}${hostile(line).replaceAll('`', '')}`)).join('\n');
  }).join('');
}
