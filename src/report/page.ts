import { embedDocument } from './embedded.ts';
import { html, htmlText, trusted, type Markup } from './markup.ts';

interface PageParts {
  readonly title: string;
  /** From `renderReport`, or for a working file from `renderToLive`. */
  readonly bodyHtml: string;
  /** From `printFoot`; in an element of its own, since a working file of this file has another. */
  readonly foot?: string;
  /** Style sheets, with every font inlined. */
  readonly css: string;
  readonly documentText: string;
  /** SHA-256 of the document's text in UTF-8, hexadecimal; absent in a page that states none. */
  readonly fingerprint?: string | undefined;
  /** BCP 47, `en-GB`. */
  readonly language: string;
  /** Printed at the foot beside the title: when the file was taken away. */
  readonly takenAway?: string;
  /** Only for a working file: the page's own script and the policy that knows it by its hash. */
  readonly script?: PageScript;
  /** Only for a working file: the sheet's id, under which the browser that opens the file keeps its changes. */
  readonly sheetId?: string;
}

interface PageScript {
  /** The script elements as they stand in the page, tags included. */
  readonly elements: string;
  /** The page's whole content-security policy. */
  readonly policy: string;
}

/** A report holds no script, asks for nothing from anywhere and sends nothing. KaTeX sets lengths in style attributes. */
const REPORT_POLICY = [
  "default-src 'none'",
  "script-src 'none'",
  "style-src 'unsafe-inline'",
  'font-src data:',
  'img-src data:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/**
 * Comes to light by itself when the page's script has not taken it away: whatever in the file is damaged, the policy lets no other script
 * than its own start, and none could tell.
 */
export const LIFELESS = `<p class="lifeless" role="alert">This page has not come to life: what is typed in it changes no result. The file is damaged, or this browser is older than the page needs. Open another copy of the file, or a newer browser.</p>
`;

/**
 * A whole HTML file that needs nothing else: readable at once and without scripts, with the document's text inside.
 * Without `script` it is a report; with it a working file, which the script then brings to life in place.
 */
export function reportPage(parts: PageParts): string {
  const { title, takenAway, script } = parts;
  const page = html`<!doctype html>
<html lang="${parts.language}"${sheetAttribute(parts.sheetId)}>
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${script?.policy ?? REPORT_POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<style>${trusted(styleText(parts.css))}</style>${parts.foot === undefined ? undefined : html`
<style data-foot>${trusted(styleText(parts.foot))}</style>`}
</head>
<body>
${script === undefined ? undefined : trusted(LIFELESS)}<main id="sheet">${trusted(parts.bodyHtml)}</main>
<footer class="print-footer">${title}${takenAway === undefined ? '' : `, ${takenAway}`}</footer>
${trusted(embedDocument(parts.documentText, parts.fingerprint))}
${trusted(script?.elements ?? '')}
</body>
</html>
`;
  return htmlText(page);
}

function sheetAttribute(sheetId: string | undefined): Markup | undefined {
  return sheetId === undefined ? undefined : html` data-sheet="${sheetId}"`;
}

/** An end tag inside a style sheet (only ever in a string there) is written so that HTML does not see it. */
function styleText(css: string): string {
  return css.replace(/<\/(?=style)/gi, '<\\/').replace(/<!--/g, '\\3C !--');
}
