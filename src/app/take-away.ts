import { renderReport, reportPage, sheetTex, type PresentContext } from '../report/index.ts';
import { serialiseSheet } from '../sheet/index.ts';
import type { OwnParts } from './page-parts.ts';
import { fileName, saveFile } from './save-file.ts';

/** The forms in which a sheet leaves the page. */
export type Takeaway = 'report' | 'working file' | 'document' | 'equations';

export const TAKEAWAYS: readonly { readonly what: Takeaway; readonly label: string; readonly help: string }[] = [
  { what: 'report', label: 'Report', help: 'One page to read, print or hand in; holds no script and can be brought in again' },
  { what: 'working file', label: 'Working file', help: 'The same page, and alive when it is opened in a browser' },
  { what: 'document', label: 'Document', help: 'The sheet’s text, for keeping and comparing' },
  { what: 'equations', label: 'Equations', help: 'Every step for LaTeX' },
];

export interface TakeawayOptions {
  readonly context: PresentContext;
  readonly own: OwnParts;
  readonly sheetId: string;
  readonly at: Date;
}

/** Makes the file and hands it to the reader. */
export function takeAway(what: Takeaway, options: TakeawayOptions): void {
  const { document } = options.context;
  const entries = document.frontMatter.entries;
  const stem = [entries.get('title'), entries.get('team')];
  if (what === 'document') saveFile(fileName(stem, 'md'), serialiseSheet(document), 'text/markdown;charset=utf-8');
  else if (what === 'equations') saveFile(fileName(stem, 'tex'), sheetTex(options.context), 'application/x-tex;charset=utf-8');
  else if (what === 'report') saveFile(fileName([...stem, 'report'], 'html'), page(options, false), 'text/html;charset=utf-8');
  else saveFile(fileName([...stem, 'working'], 'html'), page(options, true), 'text/html;charset=utf-8');
}

function page({ context, own, sheetId, at }: TakeawayOptions, isWorking: boolean): string {
  const takenAway = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeStyle: 'short' }).format(at);
  return reportPage({
    title: context.document.frontMatter.entries.get('title') ?? 'Worksheet',
    bodyHtml: renderReport(context),
    css: own.css,
    documentText: serialiseSheet(context.document),
    language: 'en-GB',
    takenAway: `taken away ${takenAway}`,
    ...(isWorking ? { script: own.script, sheetId } : {}),
  });
}
