/*
 * The only script that stands in the page as it is. It unpacks the parts of the page's own script when they are asked for and adds each to the page
 * as one more inline script, which the policy knows by the hash of its text: whatever else might be unpacked here would not start.
 * What parts look like is said in `build/parts.ts`. The build puts this file into the page without its types; nothing imports it.
 */
interface Registered {
  readonly needs: readonly string[];
  readonly make: (...parts: readonly unknown[]) => unknown;
}

const registered = new Map<string, Registered>();
const asked = new Map<string, Promise<unknown>>();

/** The name of the error of a part that does not start. */
const DAMAGED = 'DamagedPart';

Object.assign(globalThis, {
  // Parts call it by its name.
  spanlife: Object.assign((name: string, needs: Registered['needs'], make: Registered['make']): void => void registered.set(name, { needs, make }), { load }),
});

/** What a part exports; a part that failed is tried again at the next asking. */
function load(name: string): Promise<unknown> {
  const before = asked.get(name);
  if (before !== undefined) return before;
  const part = started(name);
  asked.set(name, part);
  part.catch(() => asked.delete(name));
  return part;
}

async function started(name: string): Promise<unknown> {
  // What the page comes to life with is several parts in one script.
  if (!registered.has(name)) await run(name);
  const part = registered.get(name);
  if (part === undefined) throw damaged(name);
  return part.make(...(await Promise.all(part.needs.map(load))));
}

async function run(name: string): Promise<void> {
  const place = document.querySelector<HTMLElement>(`[data-part="${name}"]`);
  const script = document.createElement('script');
  if (place instanceof HTMLLinkElement) await fetched(place, script);
  else {
    script.textContent = await unpacked(place?.textContent ?? '').catch(() => '');
    document.body.append(script);
  }
  // It has been read; the page is as it was delivered, and can be taken away so.
  script.remove();
}

/** No class of its own: browsers that are too old would not read its form, and are to be told so. */
function damaged(name: string): Error {
  const words = document.querySelector('link[data-part]') === null ? `a part of this file (“${name}”) is damaged` : `a part of this page (“${name}”) did not come from its server as it should`;
  return Object.assign(new Error(words), { name: DAMAGED });
}

/** A served page has its parts beside it as they are; the server packs what it sends. */
function fetched({ href, integrity }: HTMLLinkElement, script: HTMLScriptElement): Promise<unknown> {
  return new Promise((resolve) => {
    script.addEventListener('load', resolve);
    script.addEventListener('error', resolve);
    Object.assign(script, { src: href, integrity });
    document.body.append(script);
  });
}

async function unpacked(packed: string): Promise<string> {
  return new Response(new Blob([bytesOf(packed)]).stream().pipeThrough(new DecompressionStream('deflate-raw'))).text();
}

/**
 * Four bytes are five digits to the base of 85, from '(' = 0 to '|' = 84; '!' stands for '<', which would be the page's. Of the last four those that are left over
 * take one digit more than they are. In base64 the page would be 60 kB larger.
 */
function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(Math.floor(text.length * 4 / 5) + 4);
  const view = new DataView(bytes.buffer);
  for (let from = 0, to = 0; from < text.length; from += 5, to += 4) {
    let value = 0;
    for (let i = from; i < from + 5; i++) {
      const code = i < text.length ? text.charCodeAt(i) : 124;
      value = value * 85 + (code === 33 ? 20 : code - 40);
    }
    view.setUint32(to, value);
  }
  return bytes.subarray(0, Math.floor(text.length * 4 / 5));
}

/** What the page can't start without, by the versions that have all of it: in `README.md` too. */
const VERSIONS = 'Chrome or Edge 110, Firefox 115, Safari 16.4 (iOS 16.4) or newer';

function say(why: string): HTMLElement {
  const note = document.createElement('p');
  note.setAttribute('role', 'alert');
  note.textContent = `The sheet can be read, but its values do not follow changes: ${why}`;
  document.body.prepend(note);
  showWhole();
  return note;
}

/** Where the sheet stays as it was delivered, parts on demand are for its readers too. What the browser has not read in there is as the page was built. */
function showWhole(): void {
  for (const part of document.querySelectorAll('main noscript')) part.replaceWith(...new DOMParser().parseFromString(part.textContent ?? '', 'text/html').body.childNodes);
}

/** The page takes its own notice away once it has come to life. */
const isAlive = (): boolean => document.querySelector('body > .lifeless') === null;

/** What the page's script throws before it has brought the page to life is told at once and in words; where it comes to life all the same, they go. */
function watchLife(): (error: unknown) => void {
  const watch = new AbortController();
  let note: HTMLElement | undefined;
  const failed = (error: unknown): void => {
    if (isAlive() || note !== undefined) return;
    note = say(`its script stopped (${error instanceof Error ? error.message : String(error)}). Load the page again; if that does not help, open another copy of the file, or open it in ${VERSIONS}.`);
  };
  window.addEventListener('error', ({ error }: { readonly error?: unknown }) => {
    // What browsers only remark, as on a layout that takes two rounds, has no error and stops nothing.
    if (error !== null && error !== undefined) failed(error);
  }, { signal: watch.signal });
  window.addEventListener('unhandledrejection', ({ reason }) => failed(reason), { signal: watch.signal });
  const observer = new MutationObserver(() => {
    if (!isAlive()) return;
    note?.remove();
    observer.disconnect();
    watch.abort();
  });
  observer.observe(document.body, { childList: true });
  return failed;
}

const isOld = typeof DecompressionStream === 'undefined' || typeof structuredClone === 'undefined' || !('toSorted' in Array.prototype) || !('findLast' in Array.prototype)
  || typeof CSS === 'undefined' || !CSS.supports('selector(:is(a))');

if (isOld) {
  say(`this browser is older than the page needs. It works in ${VERSIONS}.`);
} else {
  const failed = watchLife();
  load('main').catch((error: unknown) => {
    const isDamaged = error instanceof Error && error.name === DAMAGED;
    if (isDamaged && document.querySelector('link[data-part]') !== null) say(`${error.message}. Load the page again.`);
    else if (isDamaged) say(`this file is damaged, or the browser is older than this page needs. Open another copy of the file, or open it in ${VERSIONS}.`);
    else failed(error);
  });
}
export {};
