import { composed } from '../core/problem/index.ts';
import {
  printFoot, renderReport, renderToLive, reportPage, sheetTex, slipSentence, TRIALS_IN_NAME, trialSentence, typesetter, type SampledSteps, type PresentContext, unitSystemOf,
} from '../report/index.ts';
import { compileSheet, reckon, type Reckoned } from '../graph/index.ts';
import { serialiseSheet, type SheetDocument } from '../sheet/index.ts';
import { bringCharts } from '../figures/at-hand/index.ts';
import { fileName, saveFile } from '../view/index.ts';
import { drawingFile, pictureOf } from './drawing-file.ts';
import { fingerprintOf, fingerprintWords } from './fingerprint.ts';
import type { OwnParts } from './page-parts.ts';
import { titleOf } from './sheet-title.ts';
import { drawingsOf, stemOf, type Takeaway } from './takeaways.ts';

interface TakeawayOptions {
  readonly context: PresentContext;
  /** Samples that lie open. */
  readonly sampled: SampledSteps;
  readonly own: () => Promise<OwnParts>;
  readonly sheetId: string;
  readonly at: Date;
}

/** Makes the file and hands it to the reader. Rejects where the browser makes no picture, and where a part of the page that goes into it does not come. */
export async function takeAway(takeaway: Exclude<Takeaway, { readonly what: 'document' }>, options: TakeawayOptions): Promise<void> {
  const { document } = options.context;
  const stem = stemOf(options.context);
  switch (takeaway.what) {
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
  const [own] = await Promise.all([bringOwn(), bringCharts(), typesetter.bring()]);
  const fingerprint = fingerprintOf(documentText);
  const [trials, slips] = [trialSentence(context), slipSentence(context)];
  const marks = [...(trials === undefined ? [] : [TRIALS_IN_NAME]), ...(slips === undefined ? [] : ['slips switched on'])];
  const takenAway = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeStyle: 'short' }).format(at);
  return reportPage({
    title: marks.length === 0 ? titleOf(context.document) : composed`${titleOf(context.document)} (${marks.join(', ')})`,
    bodyHtml: isWorking ? renderToLive(context, sampled) : renderReport(context, sampled),
    foot: printFoot(context.document, fingerprintWords(fingerprint)),
    css: own.css,
    documentText,
    fingerprint,
    language: 'en-GB',
    takenAway: [`taken away ${takenAway}, ${fingerprintWords(fingerprint)}`, trials, slips].filter((part) => part !== undefined).join('. '),
    ...(isWorking ? { script: own.script, sheetId } : {}),
  });
}
