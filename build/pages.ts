import { createHash } from 'node:crypto';
import { packed } from './packing.ts';
import type { Part } from './parts.ts';
import { policy } from './policy.ts';

/** What a page is made of. */
interface Made {
  /** `src/index.html` with the sheet in it and what the bundler refers to. */
  readonly page: string;
  readonly style: string;
  /** What a part needs stands before it. */
  readonly parts: readonly Part[];
  readonly first: string;
}

/** The page as one file: style and parts stand in it, each part packed by itself at the end of the body. */
export function wholePage({ page, style, parts, first }: Made): string {
  const elements = parts.map(({ name, text }) => `<script type="text/plain" data-part="${name}">${packed(text)}</script>\n`).join('');
  return completed(page, { style, head: '', policy: policy([first, ...parts.map(({ text }) => text)]), scripts: `${elements}<script type="module">${first}</script>\n` });
}

/**
 * The same page in the files in which it is served: parts and fonts as they are, each fetched when it is asked for; what they weigh on the way is the server's business.
 * The part with which the page comes to life is fetched while the sheet is read. Names change with what is in the files, so that they may be kept for good.
 */
export function servedFiles({ page, style, parts, first }: Made): ReadonlyMap<string, string | Uint8Array> {
  const files = new Map<string, string | Uint8Array>();
  const put = (folder: string, name: string, end: string, content: string | Uint8Array): string => {
    const path = `${folder}/${name}${hashOf(content).toString('hex').slice(0, 10)}.${end}`;
    files.set(path, content);
    return path;
  };
  const linked = parts.map(({ name, text }) => ({ name, path: put('parts', `${name}-`, 'js', text), integrity: `sha256-${hashOf(text).toString('base64')}` }));
  const [ahead, later] = [linked.filter(({ name }) => name === 'main'), linked.filter(({ name }) => name !== 'main')];
  const link = ({ name, path, integrity }: (typeof linked)[number], rel: string): string => `<link${rel} href="${path}" integrity="${integrity}" data-part="${name}">\n`;
  const lighter = style.replace(/url\(["']?data:font\/woff2;base64,([A-Za-z0-9+/=]+)["']?\)/g, (_, data: string) => `url(${put('fonts', '', 'woff2', Buffer.from(data, 'base64'))})`);
  if (/url\(["']?data:font/.test(lighter)) throw new Error('a font is left in the style of the served page');
  files.set('index.html', completed(page, {
    style: lighter,
    head: `${ahead.map((part) => link(part, ' rel="preload" as="script"')).join('')}${later.map((part) => link(part, '')).join('')}<link href="spanlife.html" data-whole>\n`,
    policy: policy([first], true),
    scripts: `<script type="module">${first}</script>\n`,
  }));
  return files;
}

function hashOf(content: string | Uint8Array): Buffer {
  return createHash('sha256').update(content).digest();
}

/** What the bundler refers to in the page stands in it. */
function completed(page: string, put: { readonly style: string; readonly head: string; readonly policy: string; readonly scripts: string }): string {
  const places: readonly (readonly [RegExp, string])[] = [
    [/[ \t]*<script type="module"[^>]* src="[^"]*"[^>]*><\/script>\s*/, ''],
    [/<link rel="stylesheet"[^>]*>/, `${put.head}<style>${put.style}</style>`],
    [/<meta charset="?utf-8"?\s*\/?>/i, `<meta charset="utf-8">\n<meta http-equiv="Content-Security-Policy" content="${put.policy}">`],
    [/<\/body>(?![\s\S]*<\/body>)/, `${put.scripts}</body>`],
  ];
  return places.reduce((text, [place, by]) => {
    if (!place.test(text)) throw new Error(`the page has no place ${place.source}`);
    // Replacement by function: what is put there may hold `$&`.
    return text.replace(place, () => by);
  }, page);
}
