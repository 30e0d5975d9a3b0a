import { composed } from '../core/problem/index.ts';
import {
  nameParts, presentSlipsOn, presentTrials, printFoot, renderReport, renderToLive, reportPage, sheetTex, SLIPS_IN_NAME, slipSentence, TRIALS_IN_NAME, trialSentence, type SampledSteps, type PresentContext, unitSystemOf,
} from '../report/index.ts';
import { compileSheet, reckon, type Reckoned } from '../graph/index.ts';
import { serialiseSheet, type SheetDocument } from '../sheet/index.ts';
import { bringCharts } from '../figures/charts-at-hand.ts';
import { fileName, saveFile } from '../view/index.ts';
import { drawingFile, drawingsOf, pictureOf } from './drawing-file.ts';
import { fingerprintOf, fingerprintWords } from './fingerprint.ts';
import type { OwnParts } from './page-parts.ts';
import { titleOf } from './sheet-title.ts';

/** The forms in which a sheet leaves the page. */
export type Takeaway =
  | { readonly what: 'report' | 'working file' | 'document' | 'equations' }
  | { readonly what: 'svg' | 'png'; readonly cellId: string };

export const WHOLE_SHEET: readonly { readonly what: (Takeaway & { cellId?: never })['what']; readonly label: string; readonly help: string }[] = [
  { what: 'report', label: 'Report', help: 'One page to read, print or hand in; holds no script and can be brought in again' },
  { what: 'working file', label: 'Working file', help: 'The same page, and alive when it is opened in a browser' },
  { what: 'document', label: 'Document', help: 'The sheet’s text, for keeping and comparing' },
  { what: 'equations', label: 'Equations', help: 'Every step for LaTeX' },
];

interface TakeawayOptions {
  readonly context: PresentContext;
  /** Samples that lie open. */
  readonly sampled: SampledSteps;
  readonly own: () => Promise<OwnParts>;
  readonly sheetId: string;
  readonly at: Date;
}

/** Makes the file and hands it to the reader. Rejects where the browser makes no picture, and where a part of the page that goes into it does not come. */
export async function takeAway(takeaway: Takeaway, options: TakeawayOptions): Promise<void> {
  const { document } = options.context;
  const stem = [...nameParts(document), presentTrials(options.context).length > 0 ? TRIALS_IN_NAME : undefined,
    presentSlipsOn({ document }).length > 0 ? SLIPS_IN_NAME : undefined];
  switch (takeaway.what) {
    case 'document':
      return saveFile(fileName(stem, 'md'), serialiseSheet(document), 'text/markdown;charset=utf-8');
    case 'equations':
      return saveFile(fileName(stem, 'tex'), sheetTex(options.context), 'application/x-tex;charset=utf-8');
    case 'report':
      return saveFile(fileName([...stem, 'report'], 'html'), await page(options, false), 'text/html;charset=utf-8');
    case 'working file':
      return saveFile(fileName([...stem, 'working'], 'html'), await page(options, true), 'text/html;charset=utf-8');
    default: {
      await bringCharts();
      const svg = drawingFile(takeaway.cellId, options.context, (await options.own()).css);
      const label = drawingsOf(document).find(({ cellId }) => cellId === takeaway.cellId)?.label;
      if (svg === undefined) return;
      if (takeaway.what === 'svg') return saveFile(fileName([...stem, label], 'svg'), svg, 'image/svg+xml;charset=utf-8');
      return saveFile(fileName([...stem, label], 'png'), await pictureOf(svg), 'image/png');
    }
  }
}

/** A working file of a sheet that lies open nowhere. @param known what it is worked out from */
export async function workingFileOf(document: SheetDocument, known: Reckoned, place: Pick<TakeawayOptions, 'sheetId' | 'at'> & { readonly own: OwnParts }): Promise<string> {
  const states = reckon(compileSheet(document), [known]);
  return page({ ...place, own: () => Promise.resolve(place.own), context: { document, states, system: unitSystemOf(document) }, sampled: new Map() }, true);
}

async function page({ context, sampled, own: bringOwn, sheetId, at }: TakeawayOptions, isWorking: boolean): Promise<string> {
  const documentText = serialiseSheet(context.document);
  const [own] = await Promise.all([bringOwn(), bringCharts()]);
  const fingerprint = await fingerprintOf(documentText);
  const [trials, slips] = [trialSentence(context), slipSentence(context)];
  const marks = [...(trials === undefined ? [] : [TRIALS_IN_NAME]), ...(slips === undefined ? [] : ['slips switched on'])];
  const takenAway = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeStyle: 'short' }).format(at);
  return reportPage({
    title: marks.length === 0 ? titleOf(context.document) : composed`${titleOf(context.document)} (${marks.join(', ')})`,
    bodyHtml: isWorking ? renderToLive(context, sampled) : renderReport(context, sampled),
    foot: printFoot(context.document, fingerprint === undefined ? undefined : fingerprintWords(fingerprint)),
    css: own.css,
    documentText,
    fingerprint,
    language: 'en-GB',
    takenAway: [`taken away ${takenAway}${fingerprint === undefined ? '' : `, ${fingerprintWords(fingerprint)}`}`, trials, slips].filter((part) => part !== undefined).join('. '),
    ...(isWorking ? { script: own.script, sheetId } : {}),
  });
}
