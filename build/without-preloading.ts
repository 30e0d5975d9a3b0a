import type { Plugin } from 'vite';

/** The bundler wraps each `import()` in what would fetch files ahead. There are none: parts of the page are in it, or asked for one by one. */
export function withoutPreloading(): Plugin {
  return {
    name: 'without-preloading',
    apply: 'build',
    enforce: 'pre',
    load: (id) => (id === '\0vite/preload-helper.js' ? 'export const __vitePreload = (bring) => bring();' : null),
  };
}
