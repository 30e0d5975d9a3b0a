import { nothing } from 'lit-html';
import { broughtOnce } from '../core/remembered/index.ts';
import { partWords } from '../view/index.ts';
import type { Collected } from './collect-types.ts';

/** Returned files of a class, before any have come: what reads and shows them is brought with the first. @param failed told in words where it does not come */
export function collectLater(bring: () => Promise<Collected>, failed: (words: string) => void): Collected {
  let there: Collected | undefined;
  const brought = broughtOnce(async () => (there = await bring()));
  return {
    take: (files) => {
      if (files.length > 0) void brought().then(({ take }) => take(files), (error: unknown) => failed(partWords(error)));
    },
    words: () => there?.words(),
    panel: () => there?.panel() ?? nothing,
  };
}
