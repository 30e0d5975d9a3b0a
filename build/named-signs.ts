import type { Plugin } from 'vite';

/**
 * What prose may call a sign by (`&deg;`), every browser knows; the package's own list of two thousand names, packed as tightly as it can be, would make 15 kB of what a
 * visitor waits for. Names alone are asked for, and what comes back is a text: no node of it goes anywhere. In Node the package is used as it is, and a journey compares.
 */
const BY_BROWSER = `
let parser;
export function decodeHTMLStrict(name) {
  if (!/^&[a-z][a-z0-9]*;$/i.test(name)) return name;
  parser ??= new DOMParser();
  // Blanks at the beginning of a page are none of its text.
  const signs = parser.parseFromString('x' + name, 'text/html').body.textContent.slice(1);
  // A name that is none may begin with one that needs no semicolon, of which more is left than two signs.
  return signs.length <= 2 ? signs : name;
}`;

const NAME = '\0named-signs';

export function namedSigns(): Plugin {
  return {
    name: 'named-signs',
    apply: 'build',
    enforce: 'pre',
    resolveId: (id) => (id === 'entities' ? NAME : null),
    load: (id) => (id === NAME ? BY_BROWSER : null),
  };
}
