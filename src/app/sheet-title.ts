import type { SheetDocument } from '../sheet/index.ts';

/** What the sheet is called in lists and files. */
export function titleOf({ frontMatter }: SheetDocument): string {
  const title = frontMatter.entries.get('title')?.trim() ?? '';
  return title === '' ? 'Untitled sheet' : title;
}

/** What tells sheets of one title apart. */
export function detailOf({ frontMatter }: SheetDocument): string {
  return ['team', 'specimen', 'date']
    .map((key) => frontMatter.entries.get(key)?.trim() ?? '')
    .filter((entry) => entry !== '')
    .join(' · ');
}
