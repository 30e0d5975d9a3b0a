import type { KeepingState } from './autosave.ts';

/** How keeping stands, in a sentence. */
export function keepingWords(keeping: KeepingState): string {
  switch (keeping.state) {
    case 'unchanged':
      return '';
    case 'waiting':
      return 'Keeping…';
    case 'kept':
      return `Kept in this browser at ${clock(keeping.at)}`;
    case 'copied':
      return `Another window changed this sheet; yours is kept as a copy since ${clock(keeping.at)}`;
    case 'failed':
      return `Not kept: ${keeping.reason}. It is tried again; take a working file away before you close the page.`;
  }
}

/** The same in a few words. */
export function keepingInShort(keeping: KeepingState): string {
  switch (keeping.state) {
    case 'unchanged': return '';
    case 'waiting': return 'keeping…';
    case 'kept': return `kept at ${clock(keeping.at)}`;
    case 'copied': return `kept as a copy since ${clock(keeping.at)}`;
    case 'failed': return 'not kept';
  }
}

function clock(at: Date): string {
  return new Intl.DateTimeFormat('en-GB', { timeStyle: 'medium' }).format(at);
}
