import { createHash } from 'node:crypto';

/** The policy of the page: nothing but its own scripts, known by hash; nothing from anywhere; no text becomes code. */
export function policy(scripts: readonly string[]): string {
  const hashes = scripts.map((text) => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`);
  return [
    "default-src 'none'",
    `script-src ${hashes.join(' ')}`,
    'worker-src blob:',
    // KaTeX sets heights and widths in style attributes, which no hash can name.
    "style-src 'unsafe-inline'",
    'font-src data:',
    'img-src data: blob:',
    "connect-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "object-src 'none'",
  ].join('; ');
}
