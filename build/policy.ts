import { createHash } from 'node:crypto';

/**
 * The policy of the page: nothing but its own scripts, known by hash; nothing from anywhere; no text becomes code.
 * @param isServed where parts, fonts and the page as one file lie beside it: from there they come too, each script by the hash that the page states of it
 */
export function policy(scripts: readonly string[], isServed = false): string {
  const hashes = scripts.map((text) => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`);
  return [
    "default-src 'none'",
    `script-src ${isServed ? "'self' " : ''}${hashes.join(' ')}`,
    'worker-src blob:',
    // KaTeX sets heights and widths in style attributes, which no hash can name.
    "style-src 'unsafe-inline'",
    isServed ? "font-src 'self'" : 'font-src data:',
    'img-src data: blob:',
    `connect-src ${isServed ? "'self'" : "'none'"}`,
    "base-uri 'none'",
    "form-action 'none'",
    "object-src 'none'",
  ].join('; ');
}
