import type { LectureMemory } from '../view/index.ts';

const PREFIX = 'spanlife-lecture:';

/** Remembers the place of the lecture as long as the window is open, also over a reload. Without storage it is not remembered. */
export function createLecturePlace(title: () => string): LectureMemory {
  return {
    read: () => {
      try {
        return sessionStorage.getItem(PREFIX + title()) ?? undefined;
      } catch {
        return undefined;
      }
    },
    write: (text) => {
      try {
        sessionStorage.setItem(PREFIX + title(), text);
      } catch {
        // The browser keeps nothing for this page: the lecture begins at its title again.
      }
    },
  };
}
