import { broughtOnce } from '../core/remembered/index.ts';
import { readEmbedded } from '../report/index.ts';
import { acceptText } from '../sheet/index.ts';
import type { Result } from '../core/problem/index.ts';

/** What this page was delivered with: the sheet's text, and the sheet's id where the page is a working file. */
export interface Carried {
  readonly text: Result<string>;
  readonly sheetId?: string;
  /** SHA-256 that the file states of the text. */
  readonly stated?: string;
  /** When the file was taken away, as it says at its foot. */
  readonly takenAway?: string;
}

/** Reads the page's own embedded document before anything is replaced. */
export function carriedSheet(page: Document): Carried {
  const template = page.querySelector<HTMLTemplateElement>('template#spanlife-document');
  const sheetId = page.documentElement.dataset['sheet'];
  const stated = template?.dataset['sha256'];
  const embedded = readEmbedded(template?.content.textContent ?? '', template?.dataset['format'] ?? '');
  return {
    text: embedded.ok ? acceptText(embedded.value) : embedded,
    ...takenAwayOf(page),
    ...(stated === undefined ? {} : { stated }),
    ...(sheetId !== undefined && /^[0-9a-f]{24}$/.test(sheetId) ? { sheetId } : {}),
  };
}

function takenAwayOf(page: Document): Pick<Carried, 'takenAway'> {
  const words = /taken away .*?\d\d:\d\d/.exec(page.querySelector('.print-footer')?.textContent ?? '')?.[0];
  return words === undefined ? {} : { takenAway: words };
}

/** The parts of this page that a working file takes along unchanged: style sheets, the script, packed, and the policy that knows it. */
export interface OwnParts {
  readonly css: string;
  readonly script: { readonly elements: string; readonly policy: string };
}

/**
 * What a working file takes along. Of the page as one file it is read once at the start, before charts and drawings add anything to the page; a page that is served in
 * several files has that one beside it and fetches it when it is first asked for. Rejected where the server does not give it.
 */
export function ownParts(page: Document): () => Promise<OwnParts> {
  const whole = page.querySelector<HTMLLinkElement>('link[data-whole]');
  if (whole === null) {
    const parts = partsIn(page);
    return () => Promise.resolve(parts);
  }
  return broughtOnce(() => wholePage(whole.href));
}

/** The page as one file does not come from the server. */
export class NotServed extends Error {
  override readonly name = 'NotServed';
}

async function wholePage(address: string): Promise<OwnParts> {
  const answer = await fetch(address).catch(() => undefined);
  if (answer?.ok !== true) throw new NotServed('What goes into every file that is taken away did not come from the server. Try again when it can be reached; the document can be taken away without it.');
  return partsIn(new DOMParser().parseFromString(await answer.text(), 'text/html'));
}

/** The foot of printed pages is of the file that was opened. */
function partsIn(page: Document): OwnParts {
  const css = [...page.querySelectorAll('head style:not([data-foot])')].map((style) => style.textContent ?? '').join('\n');
  const first = page.querySelector('body > script[type="module"]')?.textContent ?? '';
  const packed = [...page.querySelectorAll<HTMLElement>('script[data-part]')].map((part) => `<script type="text/plain" data-part="${part.dataset['part'] ?? ''}">${part.textContent ?? ''}</script>\n`);
  const elements = `${packed.join('')}<script type="module">${first}</script>`;
  const policy = page.querySelector('meta[http-equiv="Content-Security-Policy"]')?.getAttribute('content') ?? '';
  return { css, script: { elements, policy } };
}
